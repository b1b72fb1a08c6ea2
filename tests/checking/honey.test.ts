import { describe, expect, it } from 'vitest';
import { says, WELL } from './judge.ts';
import { finds, levels } from './small.ts';

/** Honey is not given before 12 months: UK Food Standards Agency and Health Protection Agency, 2010. */
const found = (formula: string, born: string) => finds('honey', { formula, person: { ...WELL, born } });

describe('the rule on honey', () => {
  it('fires for a child of 11 months and is quiet for one of 12', async () => {
    const young = await found('ginger-honey', '2025-05-03');
    expect(levels(young)).toEqual(['withhold']);
    expect(says(young[0])).toBe(
      'ginger-honey holds honey, which is not given under 12 months: it can bring infant botulism',
    );
    expect(await found('ginger-honey', '2025-05-02')).toEqual([]);
  });

  it('asks where a month of birth leaves it open', async () => {
    const [f] = await found('ginger-honey', '2025-05');
    expect(f?.level).toBe('ask');
    expect(says(f)).toContain('is the child so old?');
  });

  it('counts an oxymel, which is made with honey, and no syrup or tea', async () => {
    expect(levels(await found('tidal-oxymel', '2025-11-01'))).toEqual(['withhold']);
    expect(await found('causeway-syrup', '2025-11-01')).toEqual([]);
    expect(await found('quiet-evening', '2025-11-01')).toEqual([]);
  });
});
