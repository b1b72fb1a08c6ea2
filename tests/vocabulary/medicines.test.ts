import { describe, expect, it } from 'vitest';
import { medicineMatches, medicineVocabulary, resolveMedicine } from '../../src/vocabulary/medicines.ts';
import { normal } from '../../src/vocabulary/normal.ts';
import { groupTable, item, medicines, medicineTable } from './tables.ts';

const resolve = (name: string, atc?: string) => resolveMedicine(medicines, { name, atc });
const taken = (name: string, atc?: string) => item(resolve(name, atc));

const FULL_CODE = /^[A-Z]\d{2}[A-Z]{2}\d{2}$/;
const current = medicineTable.medicines.flatMap((m) => [
  ...(m.atc ?? []),
  ...(m.inhaled ?? []),
  ...(m.local ?? []),
]);

describe('the table of medicines', () => {
  it('holds 594 medicines', () => {
    expect(medicineTable.medicines).toHaveLength(594);
    expect(new Set(medicineTable.medicines.map((m) => m.name)).size).toBe(594);
  });

  // WHO Collaborating Centre, ATC/DDD Index, 25 April 2026, less what the EMA list "ATC Human" (2024) does not hold.
  it('holds 789 codes, each whole and each once', () => {
    expect(current.filter((c) => !FULL_CODE.test(c))).toEqual([]);
    expect(current).toHaveLength(789);
    expect(new Set(current).size).toBe(789);
  });

  // Codes of the ATC/DDD Index of 25 April 2026 that the EMA list "ATC Human" (2024) lacks.
  it.each([
    'A10BX16',
    'N05CJ03',
    'N05CJ01',
    'N02BF01',
    'N02BF02',
    'S01XA28',
    'D11AH09',
    'L04AH02',
    'L01EG04',
    'L04AH01',
    'L04AK01',
    'L04AF01',
    'L04AF02',
    'L04AE01',
    'G01AF21',
    'C05AX06',
    'A01AC04',
  ])('leaves %s out, and it does not resolve', (code) => {
    const groups = groupTable.groups.flatMap((g) => [
      ...(g.atc ?? []),
      ...(g.plus ?? []),
      ...(g.except ?? []),
    ]);
    expect([...current, ...groups]).not.toContain(code);
    expect(resolve(code).kind).toBe('unknown');
  });

  it('names no medicine twice', () => {
    const names = medicineTable.medicines.flatMap((m) => [m.name, ...(m.also ?? [])].map(normal));
    expect(names.filter((n, i) => names.indexOf(n) !== i)).toEqual([]);
  });

  it('has an entry for every part of a combination', () => {
    const names = new Set(medicineTable.medicines.map((m) => m.name));
    expect(medicineTable.medicines.flatMap((m) => m.parts ?? []).filter((p) => !names.has(p))).toEqual([]);
  });
});

describe('every name', () => {
  it('resolves to its medicine, in any case and with hyphens or spaces', () => {
    const wrong = medicineTable.medicines.flatMap((m) =>
      [m.name, ...(m.also ?? [])].flatMap((name) =>
        [name, name.toUpperCase(), name.replaceAll('-', ' '), ` ${name}.`].filter((word) => {
          const r = resolve(word);
          return r.kind !== 'found' || r.item.name !== m.name || r.how !== 'name';
        }),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it('resolves as a code as well, by the route that the code belongs to', () => {
    const wrong = medicineTable.medicines.flatMap((m) =>
      [
        [m.atc, 'oral'],
        [m.inhaled, 'inhaled'],
        [m.local, 'local'],
      ].flatMap(([codes, route]) =>
        ((codes ?? []) as string[]).filter((code) => {
          const r = resolve(code.toLowerCase());
          return r.kind !== 'found' || r.how !== 'code' || r.item.name !== m.name || r.item.route !== route;
        }),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it.each([
    ['paracetamol', 'acetaminophen'],
    ['furosemide', 'frusemide'],
    ['estradiol', 'oestradiol'],
    ['sulfasalazine', 'sulphasalazine'],
    ['epinephrine', 'adrenaline'],
    ['levothyroxine sodium', 'thyroxine'],
    ['codeine and paracetamol', 'Co-Codamol'],
    ['acetylsalicylic acid', 'ASPIRIN'],
  ])('%s is also %s', (name, other) => {
    expect(taken(other).name).toBe(name);
  });
});

describe('codes withdrawn since 2020', () => {
  it('resolve to the medicine and report its current codes', () => {
    const wrong = medicineTable.medicines.flatMap((m) =>
      [...(m.withdrawn ?? []), ...(m.withdrawn_local ?? [])].filter((code) => {
        const r = resolve(code);
        return r.kind !== 'found' || r.item.name !== m.name || r.item.codes.includes(code);
      }),
    );
    expect(wrong).toEqual([]);
    expect(medicineTable.medicines.filter((m) => m.withdrawn || m.withdrawn_local)).toHaveLength(64);
  });

  // ATC/DDD Index: tacrolimus was D11AX14 on the skin and L04AA05 by mouth, now D11AH01 and L04AD02.
  it('keep the route of the old code', () => {
    expect(taken('D11AX14')).toMatchObject({ name: 'tacrolimus', codes: ['D11AH01'] });
    expect(taken('L04AA05')).toMatchObject({ name: 'tacrolimus', codes: ['L04AD02'] });
  });
});

describe('what stands beside the name', () => {
  it.each([
    ['hydrocortisone 1% cream', 'hydrocortisone', 'local'],
    ['Ibuprofen 400mg tablets', 'ibuprofen', 'oral'],
    ['salbutamol inhaler 100 micrograms/dose', 'salbutamol', 'inhaled'],
    ['levothyroxine 100 mcg once daily', 'levothyroxine sodium', undefined],
    ['co-codamol 30/500', 'codeine and paracetamol', undefined],
    ['low dose aspirin 75 mg', 'acetylsalicylic acid', undefined],
    ['morphine 10 mg modified release capsules', 'morphine', 'oral'],
    ['ketoprofen oral gel', 'ketoprofen', undefined],
  ])('%s is %s, route %s', (word, name, route) => {
    const t = taken(word);
    expect([t.name, t.route]).toEqual([name, route]);
  });

  it('picks the codes of the route told', () => {
    expect(taken('diclofenac gel').codes).toEqual(['D11AX18', 'M02AA15', 'S01BC03']);
    expect(taken('diclofenac tablets').codes).toEqual(['M01AB05']);
    expect(taken('diclofenac').codes).toEqual(['M01AB05', 'D11AX18', 'M02AA15', 'S01BC03']);
  });

  it('leaves all codes where the route told has none', () => {
    expect(taken('warfarin cream').codes).toEqual(['B01AA03']);
  });

  it('does not cut a figure that is part of the name', () => {
    expect(taken('5-HTP').name).toBe('oxitriptan');
    expect(taken('vitamin D3').name).toBe('colecalciferol');
  });

  it('matters to a rule: cream is not a systemic steroid', () => {
    expect(medicineMatches(medicines, taken('hydrocortisone cream'), 'corticosteroids_systemic')).toBe(false);
    expect(medicineMatches(medicines, taken('hydrocortisone tablets'), 'corticosteroids_systemic')).toBe(
      true,
    );
    expect(medicineMatches(medicines, taken('hydrocortisone'), 'corticosteroids_systemic')).toBe(true);
  });
});

describe('salts', () => {
  it.each([
    ['simvastatin calcium', 'simvastatin'],
    ['salbutamol sulphate', 'salbutamol'],
    ['metformin hydrochloride 500 mg', 'metformin'],
  ])('%s is %s by its salt', (word, name) => {
    expect(resolve(word)).toMatchObject({ kind: 'found', how: 'salt', item: { name } });
  });

  it('is the medicine in lithium carbonate and is not cut', () => {
    expect(resolve('lithium carbonate')).toMatchObject({
      kind: 'found',
      how: 'name',
      item: { name: 'lithium' },
    });
    expect(resolve('zinc sulfate')).toMatchObject({ item: { name: 'zinc sulfate' } });
  });

  it('never cuts a salt that is the medicine', () => {
    const table = { ...medicineTable, medicines: [{ name: 'potassium' }] };
    const v = medicineVocabulary(
      { ...table, salt_words: ['citrate', 'gluconate'], salt_is_the_medicine: ['potassium citrate'] },
      groupTable,
    );
    expect(resolveMedicine(v, { name: 'potassium gluconate' }).kind).toBe('found');
    expect(resolveMedicine(v, { name: 'potassium citrate' }).kind).toBe('unknown');
  });

  it('is cut once only', () => {
    expect(resolve('esomeprazole magnesium trihydrate')).toMatchObject({
      kind: 'unknown',
      near: ['esomeprazole'],
    });
  });
});

describe('rules of spelling', () => {
  it.each([
    ['oestradiol benzoate', undefined],
    ['cephalexin monohydrate', 'cefalexin'],
    ['erythromicin', undefined],
    ['sulphamethoxazole and trimethoprim', 'sulfamethoxazole and trimethoprim'],
    ['ethinyloestradiol and levonorgestrel', 'levonorgestrel and ethinylestradiol'],
  ])('%s comes to %s', (word, name) => {
    const r = resolve(word);
    expect(r.kind === 'found' ? r.item.name : undefined).toBe(name);
  });

  it('say so', () => {
    expect(resolve('sulphamethoxazole and trimethoprim')).toMatchObject({ how: 'spelling' });
  });

  it('take nothing where two medicines answer', () => {
    const v = medicineVocabulary(
      { ...medicineTable, medicines: [{ name: 'tixen' }, { name: 'thixen' }, { name: 'tyxen' }] },
      groupTable,
    );
    // Each rule alone reaches another medicine: thyxen is tyxen by one and thixen by the other.
    expect(resolveMedicine(v, { name: 'thyxen' }).kind).toBe('unknown');
  });
});

describe('words that are never resolved', () => {
  it.each((medicineTable.ambiguous ?? []).map((a) => [a.word, a.could_be] as const))(
    '%s asks',
    (word, could) => {
      expect(resolve(word)).toEqual({ kind: 'ambiguous', word, could });
      expect(resolve(`${word.toLowerCase()} 10 mg tablets`).kind).toBe('ambiguous');
    },
  );

  it('ask through a salt as well', () => {
    expect(resolve('hyoscine hydrobromide').kind).toBe('ambiguous');
  });

  it.each([
    ['warfarn', 'warfarin'],
    ['asprin', 'aspirin'],
    ['amlodipin', 'amlodipine'],
    ['metotrexate', 'methotrexate'],
    ['levothyroxin', 'levothyroxine'],
    ['carbamazipine', 'carbamazepine'],
  ])('%s is unknown and suggests %s', (word, suggestion) => {
    const r = resolve(word);
    expect(r.kind).toBe('unknown');
    expect(r.kind === 'unknown' ? r.near : []).toContain(suggestion);
  });

  it.each([
    'warfarin and something',
    'not warfarin',
    'nowarfarin',
    'war',
    'stopped lithium',
    'iron man',
    '',
    '   ',
    '20 mg',
    'collagen',
  ])('"%s" is unknown: no part of a word is enough', (word) => {
    expect(resolve(word).kind).toBe('unknown');
  });

  // Names at a distance of two letters, computed over the table; a letter between them is another medicine.
  it.each([
    ['prednisone', 'prednisolone'],
    ['digoxin', 'digitoxin'],
    ['quinine', 'quinidine'],
    ['lorazepam', 'clonazepam'],
    ['fluoxetine', 'duloxetine'],
    ['vitamin k1', 'vitamin d3'],
  ])('%s and %s stay apart', (a, b) => {
    expect(taken(a).name).not.toBe(taken(b).name);
  });
});

describe('a code given beside the name', () => {
  it('settles an ambiguous or unknown name', () => {
    expect(taken('T3', 'H03AA02').name).toBe('liothyronine sodium');
    expect(taken('the little blue one', 'B01AA03').name).toBe('warfarin');
    expect(taken('blood thinner', 'B01AA03').name).toBe('warfarin');
  });

  it('tells the route', () => {
    expect(taken('tacrolimus', 'd11ah01').codes).toEqual(['D11AH01']);
  });

  it('asks where name and code speak of two medicines', () => {
    expect(resolve('warfarin', 'C10AA01')).toEqual({
      kind: 'ambiguous',
      word: 'warfarin',
      could: ['warfarin', 'simvastatin'],
    });
    expect(resolve('statin', 'B01AA03').kind).toBe('ambiguous');
  });

  it('may be of the combination or of its part', () => {
    expect(taken('codeine', 'N02AJ06').name).toBe('codeine and paracetamol');
    expect(taken('co-codamol', 'N02BE01').name).toBe('codeine and paracetamol');
  });

  // ATC/DDD Index, 25 April 2026: N02BF01 is gabapentin; the open list does not hold it.
  it('counts beside those of the name where the tables lack it, and is said', () => {
    expect(taken('gabapentin', 'N02BF01')).toMatchObject({
      name: 'gabapentin',
      codes: ['N02B', 'N02BF01'],
      notListed: 'N02BF01',
    });
    expect(taken('gabapentin', 'N02').codes).toEqual(['N02B']);
  });

  it('does not make an unknown name known where it is unknown too', () => {
    expect(resolve('collagen', 'Z99ZZ99').kind).toBe('unknown');
  });

  it('may be of a medicine that only a group lists', () => {
    expect(taken('rosuvastatin beside aspirin', 'C10BX05')).toMatchObject({
      name: 'rosuvastatin beside aspirin',
      codes: ['C10BX05'],
    });
  });
});

describe('a combination that the tables do not list', () => {
  const PARTS = ['hydrochlorothiazide', 'lisinopril'];

  it.each([
    'lisinopril and hydrochlorothiazide',
    'hydrochlorothiazide/lisinopril',
    'Lisinopril + Hydrochlorothiazide',
    'lisinopril with hydrochlorothiazide',
  ])('is the same by its parts in any order: %s', (name) => {
    expect(taken(name)).toMatchObject({ name: PARTS.join(' and '), parts: PARTS });
  });

  it('keeps a code given beside it, of the tables or of a group alone', () => {
    expect(taken('lisinopril and hydrochlorothiazide', 'C09BA03').codes).toContain('C09BA03');
    expect(taken('rosuvastatin with aspirin', 'C10BX05').codes).toContain('C10BX05');
  });

  it('is what a rule on either part or on a class of it speaks of', () => {
    const both = taken('lisinopril and hydrochlorothiazide');
    for (const target of ['thiazide_diuretics', 'ace_inhibitors', 'lisinopril', 'C03A'])
      expect([target, medicineMatches(medicines, both, target)]).toEqual([target, true]);
    expect(medicineMatches(medicines, both, 'loop_diuretics')).toBe(false);
  });

  it.each(['lisinopril and hydrochlorthiazyde', 'lisinopril and something', 'lisinopril and blood thinner'])(
    'is asked about where one part is not known for certain: %s',
    (name) => {
      expect(resolve(name).kind).not.toBe('found');
    },
  );
});

describe('herbs handed in as medicines', () => {
  it.each(
    (medicineTable.herbs_as_medicines ?? []).flatMap((h) =>
      [...h.names, ...(h.atc ?? [])].map((n) => [n, h.genus] as const),
    ),
  )('%s leads to %s', (name, genus) => {
    expect(taken(name).herbGenus).toBe(genus);
  });

  it('are 18 in the classification', () => {
    expect(medicineTable.herbs_as_medicines).toHaveLength(18);
  });
});
