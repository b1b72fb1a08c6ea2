import { describe, expect, it } from 'vitest';
import { medicineMatches, resolveMedicine, type TakenMedicine } from '../../src/vocabulary/medicines.ts';
import { groupTable, item, medicines, medicineTable } from './tables.ts';

const taken = (name: string, atc?: string): TakenMedicine => item(resolveMedicine(medicines, { name, atc }));
const matches = (word: string, target: string) => medicineMatches(medicines, taken(word), target);

describe('a word for a group', () => {
  it.each([
    // All of it is what the rule speaks of.
    ['statin', 'statins', true],
    ['statin', 'lipid_lowering', true],
    ['SSRI', 'antidepressants', true],
    ['coumarins', 'anticoagulants', true],
    ['antidepressants', 'psychotropics', true],
    ['insulin', 'A10', true],
    ['TKI', 'cytotoxics', 'unknown'],
    // A part of it may be.
    ['blood thinners', 'anticoagulants', 'unknown'],
    ['antidepressants', 'ssri', 'unknown'],
    ['painkillers', 'nsaids', 'unknown'],
    ['heart tablets', 'C01AA05', 'unknown'],
    ['diabetes tablets', 'insulins', 'unknown'],
    ['diuretics', 'potassium_raising_medicines', 'unknown'],
    ['epilepsy medicines', 'gabapentinoids', 'unknown'],
    ['antibiotics', 'cyp3a4_substrates', 'unknown'],
    ['antidepressants', 'fluoxetine', 'unknown'],
    ['other medicines', 'statins', 'unknown'],
    // None of it is.
    ['antidepressants', 'N06AX25', false],
    ['sleeping tablets', 'N05CM09', false],
    ['statin', 'anticoagulants', false],
    ['the pill', 'warfarin', false],
    ['antacids', 'ssri', false],
  ] as const)('%s beside %s: %s', (word, target, holds) => {
    expect(matches(word, target)).toBe(holds);
  });

  const ids = groupTable.groups.map((g) => g.id);
  const words = new Map(ids.map((id) => [id, taken(id)]));
  const between = (word: string, target: string) =>
    medicineMatches(medicines, words.get(word) ?? taken(word), target);
  const codesIn = new Map(
    ids.map((id) => {
      const codes = medicineTable.medicines.flatMap((m) =>
        [...(m.atc ?? []), ...(m.within ?? []), ...(m.inhaled ?? []), ...(m.local ?? [])]
          .filter(
            (code) => medicineMatches(medicines, { name: m.name, codes: [code], parts: [] }, id) === true,
          )
          .map((code) => `${m.name} ${code}`),
      );
      return [id, new Set(codes)];
    }),
  );
  const pairs = ids.flatMap((word) => ids.map((target) => [word, target] as const));
  const both = (word: string, target: string) =>
    [...(codesIn.get(word) ?? [])].map((code) => codesIn.get(target)?.has(code) === true);

  it('holds for certain only where every member of the table does', () => {
    const wrong = pairs.filter(([w, t]) => between(w, t) === true && both(w, t).includes(false));
    expect(wrong).toEqual([]);
  });

  it('is ruled out only where no member of the table meets the rule', () => {
    const wrong = pairs.filter(([w, t]) => between(w, t) === false && both(w, t).includes(true));
    expect(wrong).toEqual([]);
  });
});
