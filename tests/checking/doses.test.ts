import { describe, expect, it } from 'vitest';
import { judge, of, says, WELL, WOMAN } from './judge.ts';

/** A herb that nobody grows, so that every figure of a case stands in the case. */
const monograph = (doses: string, more = '') => `id: test-herb
names: {latin: Testia vera L., common: [test herb]}
family: Lamiaceae
part: herb
checked: null
sources:
  a: {body: Body A, title: Monograph, reading: original}
  b: {body: Body B, title: Monograph, reading: original}
doses:
${doses}
interactions: {says: none-known, source: a}
pregnancy: {says: acceptable, source: a}
breastfeeding: {says: acceptable, source: a}
${more}
`;

const entry = (figures: string, source = 'a', more = '') =>
  `  - {preparation: {kind: infusion}, route: oral, ${figures}, ${more}${more ? ', ' : ''}source: ${source}}`;

const formula = (grams: string, times = 3, course = 'for: 7 days') => `formula: test-tea
title: Test tea
ingredients: [{herb: test-herb, parts: 1}]
preparation: {kind: infusion, herb: ${grams}, water: 200 mL, strained: 200 mL, infuse: 10 min}
directions: {take: all of the pot, times: ${times}${course === '' ? '' : `, ${course}`}}
`;

const dose = (
  entries: readonly string[],
  grams: string,
  {
    times = 3,
    course = 'for: 7 days',
    more = '',
    person = WELL as Readonly<Record<string, string | undefined>>,
  } = {},
) =>
  judge({
    formula: 'test-tea',
    person,
    files: {
      'monographs/test-herb.yaml': monograph(entries.join('\n'), more),
      'formulas/test-tea.yaml': formula(grams, times, course),
    },
  });

const levels = async (...args: Parameters<typeof dose>) =>
  Object.fromEntries(of(await dose(...args), 'dose').map((f) => [f.id.split('test-tea-')[1], f.level]));

describe('a dose beside published figures', () => {
  it('inside every range is quiet', async () => {
    expect(await levels([entry('single: 1-3 g, times: 1-3')], '2 g')).toEqual({});
  });

  it('above every comparable maximum by more than the weighing error is withheld', async () => {
    expect(await levels([entry('single: 1-3 g, times: 1-3')], '3.2 g')).toMatchObject({
      single: 'withhold',
      daily: 'withhold',
    });
  });

  it('above it by no more than the weighing error is a decision', async () => {
    expect(await levels([entry('single: 1-3 g, times: 1-3')], '3.1 g')).toMatchObject({ single: 'decide' });
  });

  it('above the strictest of two sources, and inside the other, is a decision that names both', async () => {
    const c = await dose([entry('single: 1-3 g'), entry('single: 1-5 g', 'b')], '4 g');
    const [f] = of(c, 'dose');
    expect(f?.level).toBe('decide');
    expect(says(f)).toMatch(/Body A.*1 to 3 g.*Body B.*1 to 5 g/);
  });

  it('above a limit that its source states for safety is withheld, however wide the other', async () => {
    const entries = [entry('single: up to 3 g', 'a', 'limit: safety'), entry('single: 1-5 g', 'b')];
    expect(await levels(entries, '3.1 g')).toMatchObject({ single: 'withhold' });
  });

  it('above a single printed figure is a note where another range covers it, a decision where it is alone', async () => {
    expect(await levels([entry('single: 2 g'), entry('single: 1-4 g', 'b')], '3 g')).toEqual({
      single: 'note',
    });
    expect(await levels([entry('single: 2 g')], '3 g')).toEqual({ single: 'decide' });
  });

  it('may break a daily cap that lies below single dose x times', async () => {
    expect(await levels([entry('single: 1-3 g, times: 1-4, daily: up to 8 g')], '3 g')).toEqual({
      daily: 'withhold',
    });
  });

  it('may pass single dose x times where a daily cap lies above it', async () => {
    expect(
      await levels([entry('single: 1-3 g, times: 1-3, daily: up to 12 g')], '3 g', { times: 4 }),
    ).toEqual({
      'times-a-day': 'note',
    });
  });

  it('may be too often in a week though each dose is right', async () => {
    expect(await levels([entry('single: 1-3 g, times_a_week: 2-3')], '2 g', { times: 1 })).toEqual({
      'times-a-week': 'decide',
    });
  });

  it('with nothing comparable is a decision', async () => {
    const tincture =
      '  - {preparation: {kind: tincture, ratio: "1:5"}, route: oral, single: 2-4 mL, of: preparation, source: a}';
    expect(await levels([tincture], '2 g')).toEqual({ none: 'decide' });
  });

  it('for adults is not one for a child: an entry without ages says nothing of nine years', async () => {
    const child = { ...WELL, born: '2017-01-01' };
    expect(await levels([entry('single: 1-3 g')], '2 g', { person: child })).toEqual({ none: 'decide' });
  });

  it('counts a constituent at the least that the herb holds, and says where that cannot be bounded', async () => {
    const content = (range: string) => `constituents: [{name: testin, content: ${range}, source: a}]`;
    const marker = entry('daily: up to 30 mg', 'a', 'of: testin');
    const customary = entry('single: 1-3 g', 'b');
    const at = (range: string) => levels([marker, customary], '1 g', { more: content(range) });
    expect(await at('at least 2 % m/m')).toMatchObject({ daily: 'withhold' });
    expect(await at('at least 0.5 % m/m')).toEqual({ testin: 'note' });
    expect(await at('0.5-0.9 % m/m')).toEqual({});
  });
});

describe('a course', () => {
  const entries = [entry('single: 1-3 g', 'a', 'refer_after: 7 days, stop_after: 28 days')];
  const found = async (course: string, taking = '[]') =>
    of(await dose(entries, '2 g', { course, person: { ...WELL, taking } }), 'course').map((f) => f.level);

  it('inside both clocks is quiet', async () => {
    expect(await found('for: 7 days')).toEqual([]);
  });

  it('past the time to see a doctor is a note, past the time to stop a decision', async () => {
    expect(await found('for: 14 days')).toEqual(['note']);
    expect(await found('for: 29 days')).toEqual(expect.arrayContaining(['decide', 'note']));
  });

  it('counts the days already taken', async () => {
    expect(await found('for: 14 days', '[{herb: test-herb, since: 2026-04-10}]')).toContain('decide');
  });

  it('without an end is past every clock', async () => {
    expect(await found('')).toContain('decide');
  });
});

describe('what was not read', () => {
  it('about pregnancy is a decision, and acceptable tea is quiet', async () => {
    const person = { ...WOMAN, pregnant: '20 weeks' };
    expect(of(await dose([entry('single: 1-3 g')], '2 g', { person }), 'stage')).toEqual([]);
    const c = await judge({ formula: 'stiff-joints', person });
    expect(of(c, 'stage', 'willow-bark')[0]?.level).toBe('decide');
  });

  it('of interactions is a decision beside a medicine with a narrow margin, and quiet beside another', async () => {
    const at = async (medicine: string) =>
      of(
        await judge({ formula: 'after-supper', person: { ...WELL, medicines: `[${medicine}]` } }),
        'narrow-margin',
      );
    expect((await at('lithium carbonate')).map((f) => f.level)).toEqual(['decide']);
    expect(await at('paracetamol')).toEqual([]);
  });

  it('a herb without a monograph is asked about, with the names near it', async () => {
    const c = await judge({
      formula: 'odd-tea',
      person: WELL,
      files: {
        'formulas/odd-tea.yaml': formula('2 g')
          .replace('test-tea', 'odd-tea')
          .replace('test-herb', 'thyme-hreb'),
      },
    });
    expect(of(c, 'no-monograph')[0]).toMatchObject({ level: 'ask' });
    expect(says(of(c, 'no-monograph')[0])).toContain('thyme-herb');
  });

  it('a formula without directions is asked about', async () => {
    const c = await judge({
      formula: 'test-tea',
      person: WELL,
      files: {
        'monographs/test-herb.yaml': monograph(entry('single: 1-3 g')),
        'formulas/test-tea.yaml': formula('2 g').replace(/directions:.*\n/, ''),
      },
    });
    expect(of(c, 'directions')[0]).toMatchObject({ level: 'ask' });
  });
});
