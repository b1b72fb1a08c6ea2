import { describe, expect, it } from 'vitest';
import {
  conditionHolds,
  conditionTerm,
  conditionVocabulary,
  knownConditionTarget,
  resolveCondition,
  urgentSigns,
} from '../../src/vocabulary/conditions.ts';
import { normal } from '../../src/vocabulary/normal.ts';
import { conditions, conditionTable, item } from './tables.ts';

const resolve = (name: string, icd10?: string) => resolveCondition(conditions, { name, icd10 });
const stated = (...words: string[]) => words.map((w) => item(resolve(w)));
const holds = (target: string, ...words: string[]) => conditionHolds(conditions, stated(...words), target);

describe('the table of conditions', () => {
  it('holds 164 conditions, chronic constipation apart, and 45 urgent signs', () => {
    expect(conditionTable.conditions.filter((c) => c.id !== 'chronic_constipation')).toHaveLength(164);
    expect(conditionTable.urgent).toHaveLength(45);
    const ids = [...conditionTable.conditions, ...conditionTable.urgent].map((c) => c.id);
    expect(new Set(ids).size).toBe(ids.length);
  });

  // WHO ICD-10, 2010 edition: 769 prefixes stand in the two lists.
  it('holds 769 prefixes', () => {
    expect(
      [...conditionTable.conditions, ...conditionTable.urgent].flatMap((c) => c.icd10 ?? []),
    ).toHaveLength(769);
  });

  it('points only at what exists', () => {
    const ids = [...conditionTable.conditions, ...conditionTable.urgent].map((c) => c.id);
    const links = [...conditionTable.conditions, ...conditionTable.urgent].flatMap((c) => [
      ...('broader' in c ? (c.broader ?? []) : []),
      ...('implied_by' in c ? (c.implied_by ?? []) : []),
      ...(c.together?.any_of ?? []),
      ...(c.together?.along_with ?? []),
    ]);
    expect(links.filter((l) => !ids.includes(l))).toEqual([]);
    expect(
      [...conditionTable.conditions, ...conditionTable.urgent]
        .flatMap((c) => c.source ?? [])
        .filter((s) => !Object.hasOwn(conditionTable.sources, s)),
    ).toEqual([]);
  });

  it('gives each word to one condition and one sign at most', () => {
    for (const list of [conditionTable.conditions, conditionTable.urgent]) {
      const words = list.flatMap((c) => [...new Set([c.id, c.term, ...(c.also ?? [])].map(normal))]);
      expect(words.filter((w, i) => words.indexOf(w) !== i)).toEqual([]);
    }
  });

  it('keeps both figures where sources differ on the days', () => {
    const days = (id: string) => conditionTable.urgent.find((u) => u.id === id)?.after_days;
    // Two texts on St John's wort: 4 weeks in an EU leaflet of 2022, 6 weeks in a UK leaflet.
    expect(days('rf_mood_persist')).toEqual(['28', '42']);
    expect(days('rf_urinary_persist')).toEqual(['4']);
  });
});

describe('every word', () => {
  it('of a condition resolves to it, in any case, with hyphens or spaces, and with a full stop', () => {
    const wrong = conditionTable.conditions.flatMap((c) =>
      [c.id, c.term, ...(c.also ?? [])].flatMap((w) =>
        [w, w.toUpperCase(), w.replaceAll('-', ' '), `${w}.`, w.replaceAll("'", '\u2019')].filter((word) => {
          const r = resolve(word);
          return r.kind !== 'found' || !r.item.ids.includes(c.id) || r.item.denied || r.how !== 'name';
        }),
      ),
    );
    expect(wrong).toEqual([]);
  });

  it('of an urgent sign resolves to it', () => {
    const wrong = conditionTable.urgent.flatMap((u) =>
      [u.term, ...(u.also ?? [])].filter((w) => !item(resolve(w)).urgent.includes(u.id)),
    );
    expect(wrong).toEqual([]);
  });

  it('may be a condition and an urgent sign, and both count', () => {
    expect(item(resolve('suicidal'))).toMatchObject({
      named: ['suicidal_thoughts'],
      urgent: ['rf_suicidal'],
    });
    expect(item(resolve('retention of urine'))).toMatchObject({
      named: ['urinary_retention'],
      urgent: ['rf_urinary_retention'],
    });
  });

  it.each([
    ['oestrogen dependent tumor', 'hormone_sensitive_cancer'],
    ['celiac disease', 'coeliac_disease'],
    ['gynaecological nonsense', undefined],
  ])('%s is %s', (word, id) => {
    const r = resolve(word);
    expect(r.kind === 'found' ? r.item.named[0] : undefined).toBe(id);
  });

  it('is found by a rule of spelling, and says so', () => {
    expect(resolve('anaemia')).toMatchObject({ how: 'name' });
    expect(resolve('oestrogen receptor positive tumour').kind).toBe('unknown');
    expect(resolve('oestrogen-dependent cancer')).toMatchObject({
      how: 'spelling',
      item: { named: ['hormone_sensitive_cancer'] },
    });
  });

  it('is not found by a spelling that two conditions answer', () => {
    const v = conditionVocabulary({
      ...conditionTable,
      conditions: [
        { id: 'a', term: 'temor' },
        { id: 'b', term: 'taemour' },
      ],
      urgent: [],
    });
    expect(resolveCondition(v, { name: 'taemor' })).toMatchObject({ kind: 'found', item: { named: ['a'] } });
    const two = conditionVocabulary({
      ...conditionTable,
      conditions: [
        { id: 'a', term: 'temour' },
        { id: 'b', term: 'taemor' },
      ],
      urgent: [],
    });
    expect(resolveCondition(two, { name: 'taemour' }).kind).toBe('unknown');
  });
});

describe('words that are never resolved', () => {
  it.each((conditionTable.ambiguous ?? []).map((a) => [a.word, a.could_be] as const))(
    '%s asks',
    (word, could) => {
      expect(resolve(word)).toEqual({ kind: 'ambiguous', word, could });
      expect(resolve(`history of ${word.toLowerCase()}`).kind).toBe('ambiguous');
    },
  );

  it.each([
    ['astma', 'asthma'],
    ['haemorhoids', 'haemorrhoids'],
    ['severe epilepsi', 'epilepsy'],
    ['diabetis', 'diabetes'],
  ])('%s is unknown and suggests %s', (word, suggestion) => {
    const r = resolve(word);
    expect(r.kind).toBe('unknown');
    expect(r.kind === 'unknown' ? r.near : []).toContain(suggestion);
  });

  it.each([
    'asthma and epilepsy',
    'asthmatics',
    'pre-asthma',
    'none',
    'no',
    '',
    'heart',
    'O09',
    'O09.1',
    'Z99',
  ])('"%s" is unknown: no part of a word is enough', (word) => {
    expect(resolve(word).kind).toBe('unknown');
  });
});

describe('leading words', () => {
  it.each(['mild', 'moderate', 'severe', 'history of', 'previous', 'recent', 'possible', 'known'])(
    '"%s" is set aside and never clears a rule',
    (lead) => {
      expect(item(resolve(`${lead} epilepsy`))).toMatchObject({
        ids: ['epilepsy'],
        denied: false,
        qualifiers: [lead],
      });
      expect(holds('epilepsy', `${lead} epilepsy`)).toBe(true);
    },
  );

  it('may stand one behind the other, and are kept where the words are known with them', () => {
    expect(item(resolve('history of severe asthma')).qualifiers).toEqual(['history of', 'severe']);
    expect(item(resolve('severe depression'))).toMatchObject({
      named: ['severe_depression'],
      qualifiers: [],
    });
  });
});

describe('denials', () => {
  it.each([
    'no asthma',
    'not asthma',
    'denies asthma',
    'without asthma',
    'no known asthma',
    'denies history of asthma',
    'No previous asthma.',
  ])('"%s" is recorded as absent', (word) => {
    expect(item(resolve(word))).toMatchObject({ denied: true, named: ['asthma'] });
    expect(holds('asthma', word)).toBe(false);
  });

  it.each([
    'no severe asthma',
    'not mild asthma',
    'no recent heart attack',
    'no severe heart disease',
    'denies possible epilepsy',
  ])('"%s" leaves the rest open and is unknown', (word) => {
    expect(resolve(word).kind).toBe('unknown');
  });

  it('are not made of words that begin a term', () => {
    expect(item(resolve('no bowel movement after a laxative'))).toMatchObject({
      denied: false,
      urgent: ['rf_no_bowel_movement'],
    });
    expect(item(resolve('cannot pass urine')).denied).toBe(false);
  });

  it('settle what a broader word leaves open, and never outweigh what is present', () => {
    expect(holds('heart_failure', 'heart disease')).toBe('unknown');
    expect(holds('heart_failure', 'heart disease', 'no heart failure')).toBe(false);
    expect(holds('heart_failure', 'heart failure', 'no heart disease')).toBe(true);
    expect(holds('angina', 'ischaemic heart disease', 'no heart disease')).toBe(false);
  });

  it('of a form do not clear the term: hepatitis B is not all hepatitis', () => {
    expect(holds('hepatitis', 'liver disease', 'no hepatitis B')).toBe('unknown');
    expect(holds('hepatitis', 'liver disease', 'no hepatitis')).toBe(false);
  });

  it('of the narrower say nothing of the broader', () => {
    expect(holds('heart_disease', 'no heart failure', 'angina')).toBe(true);
  });
});

describe('ICD-10 codes', () => {
  it('count by each of their prefixes, with and without the dot', () => {
    const wrong = conditionTable.conditions.flatMap((c) =>
      (c.icd10 ?? [])
        .filter((p) => p.length > 1)
        .flatMap((p) =>
          [p, p.replace('.', ''), `${p.toLowerCase()}9`].filter(
            (code) => !item(resolve(code)).ids.includes(c.id),
          ),
        ),
    );
    expect(wrong).toEqual([]);
  });

  it('take in what stands above them, and leave open what stands below', () => {
    expect(item(resolve('K80.5')).ids.toSorted()).toEqual([
      'bile_duct_obstruction',
      'biliary_disease',
      'gallstones',
    ]);
    const gallstones = [item(resolve('K80'))];
    expect(conditionHolds(conditions, gallstones, 'gallstones')).toBe(true);
    expect(conditionHolds(conditions, gallstones, 'bile_duct_obstruction')).toBe('unknown');
    expect(conditionHolds(conditions, gallstones, 'pancreatitis')).toBe(false);
  });

  it('say which disease it is: I34 is not heart failure', () => {
    expect(holds('heart_disease', 'I34')).toBe(true);
    expect(holds('heart_failure', 'I34')).toBe(false);
    expect(holds('first_trimester', 'Z34')).toBe('unknown');
  });

  it('beside a word add to it and make it finer', () => {
    const both = [item(resolve('heart disease', 'I50'))];
    expect(conditionHolds(conditions, both, 'heart_failure')).toBe(true);
    expect(conditionHolds(conditions, both, 'angina')).toBe(false);
    const apart = [item(resolve('asthma', 'K80'))];
    expect(conditionHolds(conditions, apart, 'asthma')).toBe(true);
    expect(conditionHolds(conditions, apart, 'gallstones')).toBe(true);
  });

  it('settle an ambiguous or unknown word', () => {
    expect(item(resolve('MS', 'G35')).ids).toContain('multiple_sclerosis');
    expect(item(resolve('the shakes', 'G20'))).toMatchObject({ ids: ['parkinsons_disease'] });
  });

  it('that no entry holds are kept beside the word', () => {
    expect(item(resolve('asthma', 'U99'))).toMatchObject({ named: ['asthma'], notListed: 'U99' });
  });

  it('above the only entry are not understood, and suggest it', () => {
    expect(resolve('Z99')).toEqual({
      kind: 'unknown',
      word: 'Z99',
      near: ['dialysis', 'kidney failure', 'kidney disease'],
    });
    expect(conditionHolds(conditions, [item(resolve('asthma', 'Z99'))], 'chronic_kidney_disease')).toBe(
      'unknown',
    );
  });

  it('beside a denial ask which of the two is meant', () => {
    expect(resolve('no asthma', 'J45').kind).toBe('ambiguous');
  });

  // WHO ICD-10, 2010 edition: R17 is jaundice; haemorrhoids are I84, and K64 in later editions.
  it('are those of the World Health Organization', () => {
    expect(item(resolve('R17')).urgent).toContain('rf_jaundice');
    expect(item(resolve('I84')).ids).toEqual(['haemorrhoids']);
    expect(item(resolve('K64')).ids).toEqual(['haemorrhoids']);
  });
});

describe('broader and narrower', () => {
  it('a narrower condition meets a rule on the broader, at every remove', () => {
    expect(holds('heart_disease', 'angina')).toBe(true);
    expect(holds('immunosuppressed', 'HIV')).toBe(true);
    expect(holds('heart_failure', 'angina')).toBe(false);
  });

  it('chronic constipation stands apart from constipation', () => {
    expect(item(resolve('constipation')).ids).toEqual(['constipation']);
    expect(holds('chronic_constipation', 'constipation')).toBe(false);
    expect(holds('chronic_constipation', 'chronic constipation')).toBe(true);
    expect(holds('constipation', 'chronic constipation')).toBe(true);
    expect(holds('chronic_constipation', 'K59.0')).toBe(false);
  });

  it('an instruction is asked about with the conditions that bring it', () => {
    expect(holds('fluid_restriction', 'heart failure')).toBe('unknown');
    expect(holds('fluid_restriction', 'heart failure', 'not told to restrict fluids')).toBe(false);
    expect(holds('fluid_restriction', 'asthma')).toBe(false);
    expect(holds('fluid_restriction', 'told to drink less')).toBe(true);
  });

  it('swelling from the heart or kidney needs both, and either half asks', () => {
    expect(holds('oedema_heart_kidney', 'swollen ankles', 'heart failure')).toBe(true);
    expect(holds('oedema_heart_kidney', 'swollen ankles')).toBe('unknown');
    expect(holds('oedema_heart_kidney', 'dialysis')).toBe('unknown');
    expect(holds('oedema_heart_kidney', 'heart failure', 'no swollen ankles')).toBe('unknown');
    expect(holds('oedema_heart_kidney', 'heart failure', 'no swelling (oedema)')).toBe(false);
    expect(holds('oedema_heart_kidney', 'asthma')).toBe(false);
    expect(item(resolve('oedema')).asks).not.toEqual([]);
  });
});

describe('urgent signs', () => {
  it('are those named, and those that two answers make', () => {
    const signs = (...words: string[]) => urgentSigns(conditions, stated(...words)).map((u) => u.id);
    expect(signs('haematuria', 'asthma')).toEqual(['rf_blood_in_urine']);
    expect(signs('fever', 'cystitis')).toEqual(['rf_fever_urinary']);
    expect(signs('cystitis')).toEqual([]);
    expect(signs('no chest pain')).toEqual([]);
    expect(urgentSigns(conditions, stated('chest pain'))[0]?.to).toBe('emergency');
  });

  it('may be what a rule speaks of', () => {
    expect(holds('rf_high_fever', 'temperature over 39')).toBe(true);
    expect(holds('rf_high_fever', 'fever')).toBe(false);
  });
});

describe('what a rule may speak of', () => {
  it('is an id, and a rule on anything else fails loudly', () => {
    expect(knownConditionTarget(conditions, 'rf_high_fever')).toBe(true);
    expect(knownConditionTarget(conditions, 'asthma ')).toBe(false);
    expect(() => holds('astma', 'asthma')).toThrow(/no condition or sign/);
  });

  it('is said in plain words', () => {
    expect(conditionTerm(conditions, 'hypertension')).toBe('high blood pressure');
    expect(() => conditionTerm(conditions, 'nothing')).toThrow();
  });
});
