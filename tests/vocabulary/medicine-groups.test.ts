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

/** Where the shape of the classification misleads (ATC/DDD Index, 25 April 2026): the prefix says one thing, the group the right one. */
describe('traps of the prefixes', () => {
  it('B01A holds anticoagulants and platelet inhibitors together', () => {
    expect([
      matches('clopidogrel', 'B01A'),
      matches('clopidogrel', 'anticoagulants'),
      matches('clopidogrel', 'antiplatelets'),
    ]).toEqual([true, false, true]);
    expect([
      matches('warfarin', 'B01A'),
      matches('warfarin', 'anticoagulants'),
      matches('warfarin', 'antiplatelets'),
    ]).toEqual([true, true, false]);
  });

  it("N06AX holds the SNRIs, other antidepressants and St John's wort", () => {
    expect([matches('venlafaxine', 'snri'), matches('mirtazapine', 'snri')]).toEqual([true, false]);
    expect([matches('mirtazapine', 'N06AX'), matches('mirtazapine', 'antidepressants')]).toEqual([
      true,
      true,
    ]);
    expect([
      matches("St John's wort", 'N06A'),
      matches("St John's wort", 'antidepressants'),
      matches("St John's wort", 'psychotropics'),
    ]).toEqual([true, false, false]);
  });

  it('N05CM and N05BX hold valerian root and lavender oil', () => {
    expect([
      matches('valerian root', 'N05CM'),
      matches('valerian root', 'hypnotics'),
      matches('valerian root', 'synthetic_sedatives'),
    ]).toEqual([true, false, false]);
    expect([
      matches('lavender oil', 'N05BX'),
      matches('lavender oil', 'anxiolytics'),
      matches('lavender oil', 'cns_depressants'),
    ]).toEqual([true, false, false]);
  });

  it('N03A no longer holds gabapentin and pregabalin', () => {
    for (const word of ['gabapentin', 'pregabalin']) {
      expect([
        matches(word, 'N03A'),
        matches(word, 'antiepileptics'),
        matches(word, 'gabapentinoids'),
      ]).toEqual([false, true, true]);
    }
  });

  it('M01A also holds glucosamine and others that are no NSAIDs', () => {
    const glucosamine = taken('glucosamine', 'M01AX05');
    expect(medicineMatches(medicines, glucosamine, 'M01A')).toBe(true);
    expect(medicineMatches(medicines, glucosamine, 'nsaids')).toBe(false);
    expect(matches('nabumetone', 'nsaids')).toBe(true);
  });

  it('C03 lacks the diuretics in combinations', () => {
    for (const code of ['C09BX01', 'C09DX03', 'C09XA52', 'C10BX13']) {
      expect([matches(code, 'C03'), matches(code, 'diuretics')]).toEqual([false, true]);
    }
  });

  it('C02 also holds medicines for pulmonary hypertension', () => {
    expect([
      matches('bosentan', 'C02'),
      matches('bosentan', 'antihypertensives'),
      matches('doxazosin', 'antihypertensives'),
    ]).toEqual([true, false, true]);
  });

  it('J05AE also holds protease inhibitors against SARS-CoV-2, one with ritonavir', () => {
    expect([matches('J05AE16', 'J05AE'), matches('J05AE16', 'hiv_protease_inhibitors')]).toEqual([
      true,
      false,
    ]);
    expect(matches('nirmatrelvir', 'hiv_protease_inhibitors')).toBe(true);
  });

  it('L04A lacks methotrexate and everolimus by their other code', () => {
    for (const code of ['L01BA01', 'L01EG02']) {
      const only: TakenMedicine = { name: code, codes: [code], parts: [] };
      expect([
        medicineMatches(medicines, only, 'L04A'),
        medicineMatches(medicines, only, 'immunosuppressants'),
      ]).toEqual([false, true]);
    }
  });

  it('L01XE was withdrawn and still stands in older records', () => {
    expect(taken('L01XE01').name).toBe('imatinib');
    expect([
      matches('imatinib', 'L01XE'),
      matches('imatinib', 'L01E'),
      matches('paclitaxel', 'L01XE'),
    ]).toEqual([true, true, false]);
    expect([matches('TKI', 'L01XE'), matches('statins', 'L01XE')]).toEqual(['unknown', false]);
  });

  it('S01EC01 is an eye code, and acetazolamide is taken by mouth', () => {
    expect(taken('acetazolamide tablets').codes).toEqual(['S01EC01']);
  });

  it('G03A lacks the hormone device, the ring and cyproterone with oestrogen', () => {
    for (const code of ['G02BA03', 'G02BB01', 'G03HB01']) {
      const only: TakenMedicine = { name: code, codes: [code], parts: [] };
      expect([
        medicineMatches(medicines, only, 'G03A'),
        medicineMatches(medicines, only, 'hormonal_contraceptives'),
      ]).toEqual([false, true]);
    }
    expect(matches('co-cyprindiol', 'hormonal_contraceptives')).toBe(true);
  });

  it('N02A lacks plain codeine, hydrocodone, diamorphine, methadone and buprenorphine for dependence', () => {
    for (const code of ['R05DA04', 'R05DA03', 'N07BC06', 'N07BC02', 'N07BC01']) {
      const only: TakenMedicine = { name: code, codes: [code], parts: [] };
      expect([medicineMatches(medicines, only, 'N02A'), medicineMatches(medicines, only, 'opioids')]).toEqual(
        [false, true],
      );
    }
    expect(matches('dextromethorphan', 'opioids')).toBe(false);
  });

  it('B01AC lacks aspirin as a painkiller or in a combination', () => {
    for (const code of ['N02BA01', 'N02BA51', 'C10BX05']) {
      const only: TakenMedicine = { name: code, codes: [code], parts: [] };
      expect([
        medicineMatches(medicines, only, 'B01AC'),
        medicineMatches(medicines, only, 'antiplatelets'),
      ]).toEqual([false, true]);
    }
  });
});

/** Package leaflet of a St John's wort medicine authorised in the European Union, 2022: a rule on these groups meets all it names. */
describe("medicines that a St John's wort leaflet names", () => {
  const groups = [
    'vitamin_k_antagonists',
    'anticoagulants',
    'antiplatelets',
    'nsaids',
    'cardiac_glycosides',
    'antiarrhythmics',
    'calcium_channel_blockers',
    'diuretics',
    'statins',
    'non_insulin_antidiabetics',
    'thyroid_hormones',
    'hormonal_contraceptives',
    'hrt',
    'aromatase_inhibitors',
    'ssri',
    'snri',
    'tricyclics',
    'mao_inhibitors',
    'antidepressants',
    'triptans',
    'antipsychotics',
    'lithium_salts',
    'barbiturates',
    'anxiolytics',
    'opioids',
    'antiepileptics',
    'cns_stimulants',
    'general_anaesthetics',
    'theophylline_group',
    'immunosuppressants',
    'cytotoxics',
    'kinase_inhibitors',
    'hiv_protease_inhibitors',
    'nnrti',
    'antiretrovirals',
    'azole_antifungals',
    'macrolides',
    'antimalarials',
    'proton_pump_inhibitors',
    'cyp3a4_substrates',
    'antianginals',
    'potassium_sparing_diuretics',
  ];

  it.each([
    'almotriptan',
    'eletriptan',
    'frovatriptan',
    'naratriptan',
    'rizatriptan',
    'sumatriptan',
    'zolmitriptan',
    'tramadol',
    'fentanyl',
    'propofol',
    'midazolam',
    'sevoflurane',
    'buspirone',
    'exemestane',
    'ivabradine',
    'amiodarone',
    'erythromycin',
    'clarithromycin',
    'telithromycin',
    'warfarin',
    'acenocoumarol',
    'carbamazepine',
    'phenobarbital',
    'phenytoin',
    'primidone',
    'valproic acid',
    'amitriptyline',
    'clomipramine',
    'moclobemide',
    'citalopram',
    'fluoxetine',
    'fluvoxamine',
    'paroxetine',
    'sertraline',
    'duloxetine',
    'venlafaxine',
    'itraconazole',
    'voriconazole',
    'artemether and lumefantrine',
    'rasagiline',
    'aripiprazole',
    'atazanavir',
    'darunavir',
    'fosamprenavir',
    'indinavir',
    'lopinavir and ritonavir',
    'nelfinavir',
    'ritonavir',
    'saquinavir',
    'tipranavir',
    'efavirenz',
    'nevirapine',
    'aprepitant',
    'butobarbital',
    'amlodipine',
    'nifedipine',
    'verapamil',
    'felodipine',
    'irinotecan',
    'dasatinib',
    'erlotinib',
    'imatinib',
    'sorafenib',
    'sunitinib',
    'etoposide',
    'mitotane',
    'eplerenone',
    'methylphenidate',
    'digoxin',
    'gliclazide',
    'simvastatin',
    'atorvastatin',
    'levothyroxine sodium',
    'lansoprazole',
    'omeprazole',
    'ciclosporin',
    'tacrolimus',
    'lithium',
    'theophylline',
    'phenprocoumon',
    'clopidogrel',
    'acetylsalicylic acid',
  ])('%s', (name) => {
    expect(groups.filter((g) => matches(name, g) === true)).not.toEqual([]);
  });

  it.each(['amprenavir', 'delavirdine'])('%s was withdrawn long ago and is unknown, so asked', (name) => {
    expect(resolveMedicine(medicines, { name }).kind).toBe('unknown');
  });

  it.each(['amoxicillin', 'folic acid', 'latanoprost'])('%s is not named and meets none', (name) => {
    expect(groups.filter((g) => matches(name, g) !== false)).toEqual([]);
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
});

describe('a word for a group', () => {
  it.each([
    // All of it is what the rule speaks of.
    ['statin', 'statins', true],
    ['statin', 'lipid_lowering', true],
    ['SSRI', 'antidepressants', true],
    ['coumarins', 'anticoagulants', true],
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

  it('holds for certain only where every member does', () => {
    const wrong = groupTable.groups.flatMap((g) =>
      groupTable.groups
        .filter((target) => matches(g.id, target.id) === true)
        .flatMap((target) =>
          medicineTable.medicines
            .filter((m) => matches(m.name, g.id) === true && matches(m.name, target.id) === false)
            .map((m) => `${g.id} ${target.id} ${m.name}`),
        ),
    );
    expect(wrong).toEqual([]);
  });

  it('is ruled out only where no member meets the rule', () => {
    const ids = groupTable.groups.map((g) => g.id);
    const members = new Map(
      ids.map((id) => [id, medicineTable.medicines.filter((m) => matches(m.name, id) === true)]),
    );
    const wrong = ids.flatMap((g) =>
      ids
        .filter((target) => matches(g, target) === false)
        .flatMap((target) =>
          (members.get(g) ?? [])
            .filter((m) => members.get(target)?.includes(m))
            .filter((m) =>
              [...(m.atc ?? []), ...(m.within ?? []), ...(m.inhaled ?? []), ...(m.local ?? [])].some(
                (code) => {
                  const one: TakenMedicine = { name: m.name, codes: [code], parts: [] };
                  return (
                    medicineMatches(medicines, one, g) === true &&
                    medicineMatches(medicines, one, target) === true
                  );
                },
              ),
            )
            .map((m) => `${g} ${target} ${m.name}`),
        ),
    );
    expect(wrong).toEqual([]);
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
