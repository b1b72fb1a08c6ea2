import { expect, it } from 'vitest';
import { judge, says, WELL } from './judge.ts';
import { finds, herb, levels, tea } from './small.ts';

it('fires for a formula without directions, and is quiet for one that has them', async () => {
  const files = { ...herb(), ...tea({ directions: undefined }) };
  const [f] = await finds('directions', { person: WELL, files });
  expect(f).toMatchObject({ level: 'ask', herb: null });
  expect(says(f)).toContain('test-tea has no directions');
  expect(await finds('directions', { person: WELL, files: { ...herb(), ...tea() } })).toEqual([]);
});

it('asks it of the formula itself, whoever is asked about or nobody', async () => {
  const files = { ...herb(), ...tea({ directions: undefined }) };
  expect(levels(await finds('directions', { person: null, files }))).toEqual(['ask']);
});

it('asks it of each formula that is checked', async () => {
  const without = { directions: undefined };
  const c = await judge({
    formula: ['test-tea', 'other-tea'],
    person: WELL,
    files: { ...herb(), ...tea(without), ...tea(without, 'other-tea') },
  });
  expect(c.findings.map((f) => f.id).filter((x) => x.startsWith('directions'))).toEqual([
    'directions/formula/other-tea',
    'directions/formula/test-tea',
  ]);
});
