import { describe, expect, it } from 'vitest';
import { meets } from '../../src/checking/when.ts';
import { caseFor, WELL, WOMAN } from './judge.ts';
import { herb, tea } from './small.ts';

type Answers = Readonly<Record<string, string | undefined>>;

/** What becomes of the `when` of a caution, as a monograph would write it. */
async function met(when: string, person: Answers, on = '2026-05-02') {
  const cautions = `[{when: {${when}}, says: contraindicated, why: x, source: a}]`;
  const c = await caseFor({ formula: 'test-tea', person, on, files: { ...herb({ cautions }), ...tea() } });
  const caution = c.formulas[0]?.herbs[0]?.monograph?.cautions?.[0];
  if (!caution || !c.person) throw new Error('there is no caution or no person');
  return meets(caution.when, c.person, c);
}

const holds = async (when: string, person: Answers, on?: string) => (await met(when, person, on)).holds;

/** Each key with an answer that meets it, one that does not, and the question that is open without one. */
const KEYS: readonly [when: string, yes: Answers, no: Answers, question: string, left: string][] = [
  [
    'allergy: [asteraceae]',
    { allergies: '[daisy family]' },
    { allergies: '[penicillin]' },
    'allergies',
    'allergies',
  ],
  ['condition: [asthma]', { conditions: '[asthma]' }, { conditions: '[gout]' }, 'conditions', 'conditions'],
  [
    'medicine: [warfarin]',
    { medicines: '[warfarin]' },
    { medicines: '[paracetamol]' },
    'medicines',
    'medicines',
  ],
  ['medicine: [B01AA]', { medicines: '[warfarin]' }, { medicines: '[]' }, 'medicines', 'medicines'],
  ['pregnant: yes', { pregnant: '12 weeks' }, { pregnant: 'no' }, 'pregnant', 'pregnant'],
  ['pregnant: no', { pregnant: 'no' }, { pregnant: 'yes' }, 'pregnant', 'pregnant'],
  ['pregnant: {weeks: 28-42}', { pregnant: '30 weeks' }, { pregnant: '20 weeks' }, 'pregnant', 'pregnant'],
  [
    'trying_to_conceive: yes',
    { trying_to_conceive: 'yes' },
    { trying_to_conceive: 'no' },
    'trying_to_conceive',
    'trying_to_conceive',
  ],
  ['breastfeeding: yes', { breastfeeding: 'yes' }, { breastfeeding: 'no' }, 'breastfeeding', 'breastfeeding'],
  ['age: 65+ years', { born: '1950-01-01' }, { born: '1990-01-01' }, 'age', 'born'],
  ['age: under 12 years', { born: '2014-05-03' }, { born: '2014-05-02' }, 'age', 'born'],
  ['sex: female', { sex: 'female' }, { sex: 'male' }, 'sex', 'sex'],
  ['taking: [senna-leaf]', { taking: '[senna-leaf]' }, { taking: '[thyme-herb]' }, 'taking', 'taking'],
  ['surgery_within: 14 days', { surgery: '2026-05-16' }, { surgery: '2026-05-17' }, 'surgery', 'surgery'],
  ['drives: yes', { drives: 'yes' }, { drives: 'no' }, 'drives', 'drives'],
  [
    'avoids_alcohol: yes',
    { avoids_alcohol: 'yes' },
    { avoids_alcohol: 'no' },
    'avoids_alcohol',
    'avoids_alcohol',
  ],
  [
    'fluid_restricted: yes',
    { fluid_restricted: 'yes' },
    { fluid_restricted: 'no' },
    'fluid_restricted',
    'fluid_restricted',
  ],
];

describe('each key', () => {
  it.each(KEYS)('%s holds, does not hold, or is open', async (when, yes, no, question, left) => {
    expect(await holds(when, { ...WOMAN, ...yes })).toBe(true);
    expect(await holds(when, { ...WOMAN, ...no })).toBe(false);
    const open = await met(when, { ...WOMAN, [left]: undefined });
    expect(open.holds).toBe('unknown');
    expect(open.open).toEqual([question]);
  });
});

describe('several keys', () => {
  const both = 'condition: [asthma], medicine: [warfarin]';

  it('must all hold', async () => {
    expect(await holds(both, { ...WELL, conditions: '[asthma]', medicines: '[warfarin]' })).toBe(true);
    expect(await holds(both, { ...WELL, conditions: '[asthma]' })).toBe(false);
  });

  it('unknown and true is unknown, and only the unknown is open', async () => {
    const m = await met(both, { ...WELL, conditions: '[asthma]', medicines: undefined });
    expect([m.holds, m.open]).toEqual(['unknown', ['medicines']]);
  });

  it('unknown and false is false, and nothing is open', async () => {
    const m = await met(both, { ...WELL, medicines: undefined });
    expect([m.holds, m.open, m.coarse, m.names]).toEqual([false, [], [], []]);
  });

  it('unknown and unknown leaves both open', async () => {
    const m = await met(both, { ...WELL, conditions: undefined, medicines: undefined });
    expect([m.holds, [...m.open].sort()]).toEqual(['unknown', ['conditions', 'medicines']]);
  });

  it('and none at all always holds', async () => {
    expect(await holds('', WELL)).toBe(true);
  });
});

describe('a list', () => {
  it('is met by any of what it names, and says by which', async () => {
    const m = await met('medicine: [warfarin, digoxin]', { ...WELL, medicines: '[ramipril, digoxin]' });
    expect(m.holds).toBe(true);
    expect(m.names.map((n) => [n.key, n.name])).toEqual([['medicine', 'digoxin']]);
  });

  it('that was asked and came back empty does not hold', async () => {
    expect(await holds('medicine: [warfarin]', WELL)).toBe(false);
  });

  it('is unknown where an answer is too coarse, and asks of that answer', async () => {
    const m = await met('condition: [heart_failure]', { ...WELL, conditions: '[heart disease, gout]' });
    expect(m.holds).toBe('unknown');
    expect(m.open).toEqual([]);
    expect(m.names.flatMap((n) => n.asks)).toEqual(['does "heart disease" mean heart failure?']);
  });

  it('is settled by a sure answer beside a coarse one', async () => {
    const m = await met('condition: [heart_failure]', {
      ...WELL,
      conditions: '[heart disease, heart failure]',
    });
    expect(m.holds).toBe(true);
    expect(m.names.map((n) => n.said)).toEqual(['heart failure']);
  });

  it('takes a denial for no answer of yes', async () => {
    expect(await holds('condition: [asthma]', { ...WELL, conditions: '[no asthma]' })).toBe(false);
  });

  it('knows the signs that belong to a doctor', async () => {
    expect(
      await holds('condition: [rf_breathlessness]', { ...WELL, conditions: '[shortness of breath]' }),
    ).toBe(true);
  });
});

describe('what someone takes', () => {
  it('counts what stands beside it in the formulas that are checked', async () => {
    const cautions = '[{when: {taking: [senna-leaf]}, says: avoid, why: x, source: a}]';
    const files = {
      ...herb({ cautions }),
      ...tea({ ingredients: '[{herb: test-herb, parts: 1}, {herb: senna-leaf, parts: 1}]' }),
    };
    const c = await caseFor({ formula: 'test-tea', person: { ...WELL, taking: undefined }, files });
    const when = c.formulas[0]?.herbs[0]?.monograph?.cautions?.[0]?.when ?? {};
    if (!c.person) throw new Error('nobody');
    expect(meets(when, c.person, c).holds).toBe(true);
  });

  it('counts every herb of a formula that is taken, and a herb by any of its names', async () => {
    const when = 'taking: [liquorice-root]';
    expect(await holds(when, { ...WELL, taking: '[{formula: winter-chest}]' })).toBe(true);
    expect(await holds(when, { ...WELL, taking: '[Glycyrrhiza glabra]' })).toBe(true);
    expect(await holds(when, { ...WELL, taking: '[licorice root]' })).toBe(true);
  });

  it('counts a herb until two weeks after it was stopped, and one that is still to be stopped', async () => {
    const stopped = (day: string) =>
      holds('taking: [senna-leaf]', { ...WELL, taking: `[{herb: senna-leaf, stopped: ${day}}]` });
    expect(await stopped('2026-06-01')).toBe(true);
    expect(await stopped('2026-04-18')).toBe(true);
    expect(await stopped('2026-04-17')).toBe(false);
  });

  it('counts both of two herbs that one name stands for', async () => {
    const fennel = '[{herb: fennel}]';
    const one = herb({ names: '{latin: Testia prima L., common: [fennel]}' }, 'one-fennel');
    const two = herb({ names: '{latin: Testia secunda L., common: [fennel]}' }, 'two-fennel');
    const cautions = '[{when: {taking: [two-fennel]}, says: avoid, why: x, source: a}]';
    const c = await caseFor({
      formula: 'test-tea',
      person: { ...WELL, taking: fennel },
      files: { ...one, ...two, ...herb({ cautions }), ...tea() },
    });
    const when = c.formulas[0]?.herbs[0]?.monograph?.cautions?.[0]?.when ?? {};
    if (!c.person) throw new Error('nobody');
    expect(meets(when, c.person, c).holds).toBe(true);
  });
});

describe('dates', () => {
  it('an operation today is within reach, and one that is past says nothing of another', async () => {
    const when = 'surgery_within: 14 days';
    expect(await holds(when, { ...WELL, surgery: '2026-05-02' })).toBe(true);
    const past = await met(when, { ...WELL, surgery: '2026-05-01' });
    expect(past.holds).toBe('unknown');
    expect(past.coarse).toEqual(['the operation of 2026-05-01 is past: is another planned?']);
  });

  it('a month of birth at the edge of a band asks for the day', async () => {
    const m = await met('age: 12+ years', { ...WELL, born: '2014-05' });
    expect([m.holds, m.open, m.coarse]).toEqual(['unknown', [], ['on which day were they born?']]);
    expect(await holds('age: 12+ years', { ...WELL, born: '2014-04' })).toBe(true);
  });

  it('an age that was told grows with the days since', async () => {
    const person = { ...WELL, asked: '2025-05-02', born: undefined, age: '11 years' };
    expect(await holds('age: 12+ years', person, '2025-05-02')).toBe(false);
    expect(await holds('age: 12+ years', person, '2025-09-01')).toBe('unknown');
    expect(await holds('age: 12+ years', person, '2026-05-02')).toBe(true);
  });
});

describe('questions that do not apply', () => {
  const MAN = { ...WELL, pregnant: undefined, breastfeeding: undefined, trying_to_conceive: undefined };
  const OLD = { ...MAN, sex: 'female', born: '1950-01-01' };

  it.each(['pregnant', 'breastfeeding', 'trying_to_conceive'])(
    '%s is a no for a man and at 76',
    async (key) => {
      for (const person of [MAN, OLD]) {
        expect(await holds(`${key}: yes`, person)).toBe(false);
        expect(await holds(`${key}: no`, person)).toBe(true);
      }
    },
  );

  it('driving is a no for a small child', async () => {
    expect(await holds('drives: yes', { ...WELL, drives: undefined, born: '2022-01-01' })).toBe(false);
  });
});
