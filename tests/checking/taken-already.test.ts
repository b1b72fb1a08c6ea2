import { describe, expect, it } from 'vitest';
import { says, WELL } from './judge.ts';
import { finds, levels } from './small.ts';

/** St John's wort is contraindicated beside warfarin (EMA/HMPC); nothing of the kind was read of valerian. */
const found = (taking: string, medicines = '[warfarin]', formula = 'quiet-evening') =>
  finds('taken-already', { formula, person: { ...WELL, taking, medicines } });

describe('the rule on what is taken already', () => {
  it("fires for St John's wort taken beside warfarin, and is quiet for valerian", async () => {
    const some = await found('[st-johns-wort-herb]');
    expect(some.length).toBeGreaterThan(0);
    expect(new Set(levels(some))).toEqual(new Set(['note']));
    expect(says(some[0])).toMatch(/^taken already: st-johns-wort-herb .* warfarin/);
    expect(await found('[valerian-root]')).toEqual([]);
    expect(await found('[st-johns-wort-herb]', '[paracetamol]')).toEqual([]);
  });

  it('is quiet for what was stopped, and for what is handed over and judged as such', async () => {
    expect(await found('[{herb: willow-bark, stopped: 2026-04-30}]')).toEqual([]);
    expect(await found('[willow-bark]')).not.toEqual([]);
    expect(await found('[willow-bark]', '[warfarin]', 'stiff-joints')).toEqual([]);
  });

  it('finds it in a formula that is taken already', async () => {
    const some = await found('[{formula: stiff-joints, since: 2026-04-01}]');
    expect(some.map((f) => f.herb)).toContain('willow-bark');
  });
});
