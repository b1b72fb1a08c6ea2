import { describe, expect, it } from 'vitest';
import {
  knownMedicineTarget,
  medicineMatches,
  medicineTerm,
  medicineVocabulary,
  resolveMedicine,
  type TakenMedicine,
} from '../../src/vocabulary/medicines.ts';
import { normal } from '../../src/vocabulary/normal.ts';
import { groupTable, item, medicines, medicineTable } from './tables.ts';

const taken = (name: string, atc?: string): TakenMedicine => item(resolveMedicine(medicines, { name, atc }));
const matches = (word: string, target: string) => medicineMatches(medicines, taken(word), target);

describe('the table of groups', () => {
  it('holds 132 groups', () => {
    expect(groupTable.groups).toHaveLength(132);
    expect(new Set(groupTable.groups.map((g) => g.id)).size).toBe(132);
  });

  it('points only at what exists', () => {
    const groups = new Set(groupTable.groups.map((g) => g.id));
    const names = new Set(medicineTable.medicines.map((m) => m.name));
    expect(groupTable.groups.flatMap((g) => g.union ?? []).filter((u) => !groups.has(u))).toEqual([]);
    expect(
      groupTable.groups
        .flatMap((g) => [...(g.medicines ?? []), ...(g.from_memory ?? [])])
        .filter((n) => !names.has(n)),
    ).toEqual([]);
    expect(
      groupTable.groups.flatMap((g) => g.source ?? []).filter((s) => !Object.hasOwn(groupTable.sources, s)),
    ).toEqual([]);
  });

  it('says of each group where it comes from', () => {
    expect(groupTable.groups.filter((g) => !g.source && g.reading !== 'memory').map((g) => g.id)).toEqual([]);
  });

  it('gives each word to one group, and none of them to a medicine too', () => {
    const words = groupTable.groups.flatMap((g) => [
      ...new Set([g.id, g.term, ...(g.also ?? [])].map(normal)),
    ]);
    expect(words.filter((w, i) => words.indexOf(w) !== i)).toEqual([]);
    const wrong = groupTable.groups.flatMap((g) =>
      [g.id, g.term, ...(g.also ?? [])].filter((w) => taken(w).group !== g.id),
    );
    expect(wrong).toEqual([]);
  });
});

describe('combinations', () => {
  it('meet a rule on a part', () => {
    expect(matches('co-codamol', 'opioids')).toBe(true);
    expect(matches('co-trimoxazole', 'J01EA01')).toBe(true);
    expect(matches('codeine', 'N02BE01')).toBe(false);
  });
});

describe('medicines named in a group', () => {
  it('count by systemic use, and by inhaled use where there is no other', () => {
    expect([
      matches('hydrocortisone tablets', 'cyp3a4_substrates'),
      matches('hydrocortisone cream', 'cyp3a4_substrates'),
    ]).toEqual([true, false]);
    expect([
      matches('budesonide inhaler', 'cyp3a4_substrates'),
      matches('budesonide nasal spray', 'cyp3a4_substrates'),
    ]).toEqual([true, false]);
    expect(matches('hydrocortisone', 'cyp3a4_substrates')).toBe(true);
  });

  it('count when named from memory as well', () => {
    expect(matches('colchicine', 'cyp3a4_substrates')).toBe(true);
    expect(matches('metformin', 'cyp3a4_substrates')).toBe(false);
  });
});

describe('medicines whose own code is not in the open list', () => {
  it.each([
    ['gabapentin', 'analgesics'],
    ['tirzepatide', 'non_insulin_antidiabetics'],
    ['daridorexant', 'hypnotics'],
    ['suvorexant', 'N05C'],
    ['sirolimus', 'immunosuppressants'],
    ['sirolimus', 'L01'],
    ['everolimus', 'calcineurin_mtor_systemic'],
    ['leflunomide', 'L04'],
    ['tofacitinib', 'kinase_inhibitors'],
    ['fingolimod', 'immunosuppressants'],
  ])('%s still meets %s', (name, target) => {
    expect(matches(name, target)).toBe(true);
  });

  it('meet no other code of their class', () => {
    expect(matches('leflunomide', 'L04AD01')).toBe(false);
    expect(matches('gabapentin', 'N02BE01')).toBe(false);
  });
});

describe('the order of a group', () => {
  const groups = {
    ...groupTable,
    groups: [
      { id: 'inner', term: 'inner', atc: ['B01A'] },
      {
        id: 'outer',
        term: 'outer',
        union: ['inner'],
        atc: ['C10'],
        except: ['B01AA', 'C10AA01', 'N05AN'],
        plus: ['C10AA01'],
        medicines: ['lithium', 'digoxin'],
      },
    ],
  };
  const v = medicineVocabulary(medicineTable, groups);
  const meets = (name: string) => medicineMatches(v, item(resolveMedicine(v, { name })), 'outer');

  it('is union, prefixes, added codes and names; then exceptions, which spare added codes', () => {
    expect(meets('clopidogrel')).toBe(true);
    expect(meets('warfarin')).toBe(false);
    expect(meets('atorvastatin')).toBe(true);
    expect(meets('simvastatin')).toBe(true);
    expect(meets('digoxin')).toBe(true);
    expect(meets('lithium')).toBe(false);
  });

  it('leaves a group word open of which the exceptions take a part', () => {
    expect(meets('inner')).toBe('unknown');
  });
});

describe('what a rule may speak of', () => {
  it.each([
    'anticoagulants',
    'B01AA',
    'B01AA03',
    'B',
    'sirolimus',
    'Co-codamol',
    'L01XE',
    'C09BX',
    'N06DX02',
  ])('%s is known', (target) => {
    expect(knownMedicineTarget(medicines, target)).toBe(true);
  });

  it.each(['anticoagulant_', 'b01aa', 'L04AH01', 'Z01', 'B0', 'B01AA0', '', 'blood thinner', 'collagen'])(
    '"%s" is not, and a rule on it fails loudly',
    (target) => {
      expect(knownMedicineTarget(medicines, target)).toBe(false);
      expect(() => matches('warfarin', target)).toThrow(/no group, code or name/);
    },
  );

  it.each([
    ['anticoagulants', 'anticoagulants'],
    ['B01AA', 'vitamin K antagonists'],
    ['B01AA03', 'warfarin'],
    ['sirolimus', 'sirolimus'],
    ['N06AX', 'medicines of the ATC class N06AX'],
  ])('%s is said as %s', (target, term) => {
    expect(medicineTerm(medicines, target)).toBe(term);
  });

  it('includes every group, and all medicines in the one for spacing', () => {
    expect(groupTable.groups.filter((g) => !knownMedicineTarget(medicines, g.id))).toEqual([]);
    expect(medicineTable.medicines.filter((m) => matches(m.name, 'oral_medicines_any') !== true)).toEqual([]);
  });
});
