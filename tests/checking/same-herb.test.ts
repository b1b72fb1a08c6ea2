import { describe, expect, it } from 'vitest';
import { says, WELL } from './judge.ts';
import { finds, herb, levels, tea } from './small.ts';

const found = (formula: string | string[], taking = '[]') =>
  finds('same-herb', {
    formula,
    person: { ...WELL, taking },
    files: { ...herb(), ...herb({}, 'other-herb'), ...tea(), ...tea({}, 'second-tea') },
  });

describe('the rule on the same herb twice', () => {
  it('fires for valerian in a formula and taken already, and is quiet for it in one formula', async () => {
    const valerian = (taking: string) =>
      finds('same-herb', { formula: 'still-night', person: { ...WELL, taking } });
    expect(levels(await valerian('[valerian]'))).toEqual(['decide']);
    expect(await valerian('[]')).toEqual([]);
  });

  it('says how much of it there is in each of two formulas', async () => {
    const [f, ...more] = await found(['test-tea', 'second-tea']);
    expect(more).toEqual([]);
    expect(says(f)).toBe(
      'test-herb is taken twice: in second-tea and in test-tea; test-tea: 6 g a day; second-tea: 6 g a day',
    );
  });

  it('finds it by its Latin name, and inside a formula that is taken already', async () => {
    expect(levels(await found('test-tea', '[Testia vera]'))).toEqual(['decide']);
    expect(levels(await found('test-tea', '[{formula: second-tea, since: 2026-04-01}]'))).toEqual(['decide']);
  });

  it('leaves out what was stopped, and herbs that only resemble it', async () => {
    expect(await found('test-tea', '[{herb: test-herb, since: 2026-03-01, stopped: 2026-04-30}]')).toEqual(
      [],
    );
    expect(await found('test-tea', '[other-herb]')).toEqual([]);
  });

  it('binds to the amounts: a larger one of them is another finding', async () => {
    const basis = async (daily: string) =>
      (await found('test-tea', `[{herb: test-herb, daily: ${daily}}]`))[0]?.basis;
    expect(await basis('2 g')).toBe(await basis('2000 mg'));
    expect(await basis('2 g')).not.toBe(await basis('3 g'));
  });
});
