import { describe, expect, it } from 'vitest';
import { WELL } from './judge.ts';
import { finds, levels } from './small.ts';

/** Sugars are told to people with diabetes: annex to the European guideline on excipients, 2019, from memory. */
const found = (formula: string, conditions: string | undefined) =>
  finds('sugar', { formula, person: { ...WELL, conditions } });

describe('the rule on sugar', () => {
  it.each(['causeway-syrup', 'hushed-hours', 'ginger-honey', 'tidal-oxymel'])(
    'fires for %s and someone with diabetes, and is quiet for someone without',
    async (formula) => {
      expect(levels(await found(formula, '[type 2 diabetes]'))).toEqual(['note']);
      expect(levels(await found(formula, '[E11.9]'))).toEqual(['note']);
      expect(await found(formula, '[asthma]')).toEqual([]);
      expect(await found(formula, '[]')).toEqual([]);
    },
  );

  it.each(['quiet-evening', 'sweet-balm-glycerite', 'hillside-tincture'])(
    'has nothing to say of %s, which holds none',
    async (formula) => {
      expect(await found(formula, '[diabetes]')).toEqual([]);
    },
  );
});
