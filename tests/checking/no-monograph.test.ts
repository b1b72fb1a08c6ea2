import { expect, it } from 'vitest';
import { judge, says, WELL } from './judge.ts';
import { finds, teaOf } from './small.ts';

it('fires for a herb without a file, with the names near it, and is quiet where every herb has one', async () => {
  const [f] = await finds('no-monograph', { person: WELL, files: teaOf('willow-brak') });
  expect(f).toMatchObject({ level: 'ask', herb: 'willow-brak' });
  expect(says(f)).toContain('did you mean willow-bark?');
  expect(await finds('no-monograph', { person: WELL, files: teaOf('willow-bark') })).toEqual([]);
});

it('asks whoever is asked about, or nobody: what cannot be judged is never clear', async () => {
  const c = await judge({ formula: 'test-tea', person: null, files: teaOf('willow-brak') });
  expect(c.verdict).toBe('ask');
});

it('still judges the herbs beside it', async () => {
  const files = teaOf('x', { ingredients: '[{herb: willow-brak, parts: 1}, {herb: willow-bark, parts: 1}]' });
  const c = await judge({ formula: 'test-tea', person: { ...WELL, medicines: '[warfarin]' }, files });
  expect(c.verdict).toBe('withhold');
});
