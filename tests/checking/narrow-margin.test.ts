import { expect, it } from 'vitest';
import { judge, says, WELL } from './judge.ts';
import { finds, herb, levels, tea } from './small.ts';

const beside = (medicines: string, interactions = 'not-read') =>
  finds('narrow-margin', {
    person: { ...WELL, medicines },
    files: { ...herb({ interactions }), ...tea() },
  });

it('fires for a herb whose interactions were not read beside lithium, and is quiet beside paracetamol', async () => {
  const [f] = await beside('[lithium carbonate]');
  expect(f?.level).toBe('decide');
  expect(says(f)).toMatch(/^no interactions of test-herb were read, and .* leaves little room for any$/);
  expect(await beside('[paracetamol]')).toEqual([]);
});

it('is quiet where a source was read, whether it knows of none, has no data or lists some', async () => {
  for (const says of ['none-known', 'no-data', 'listed'])
    expect(await beside('[warfarin]', `{says: ${says}, source: a}`)).toEqual([]);
});

it('says "may be" of a group word that takes in both kinds', async () => {
  const [f] = await beside('[antiepileptics]');
  expect(f?.level).toBe('decide');
  expect(says(f)).toContain('"antiepileptics" may be a medicine that leaves little room');
});

it('finds one thing for two names of one medicine', async () => {
  const c = await judge({
    formula: 'test-tea',
    person: { ...WELL, medicines: '[warfarin, warfarin sodium]' },
    files: { ...herb({ interactions: 'not-read' }), ...tea() },
  });
  expect(c.findings.filter((f) => f.rule === 'narrow-margin')).toHaveLength(1);
});

it('asks for the medicines where they were left out, and only for such a herb', async () => {
  const open = { ...WELL, medicines: undefined };
  const asked = (interactions: string) =>
    finds('unanswered', { person: open, files: { ...herb({ interactions }), ...tea() } });
  expect(levels(await asked('not-read'))).toEqual(['ask']);
  expect(await asked('none-known')).toEqual([]);
});
