import { describe, expect, it } from 'vitest';
import { changed, FORMULA, MONOGRAPH, PATIENT, told } from './written.ts';

/** The formula with other ingredients, one a line from line 4. */
function ingredients(...lines: string[]): string {
  return FORMULA.replace(/ {2}- .*\n {2}- .*\n/, lines.map((l) => `  - ${l}\n`).join(''));
}

const DECOCTION = '{kind: decoction, herb: 12 g, water: 400 mL, boil: 10 min, make_up_to: 300 mL}';

describe('the amounts of a formula', () => {
  it.each([
    [['{herb: a}'], '4:6: how much of a? write parts, percent, amount or make_up_to'],
    [['{herb: a, parts: 1, percent: 5}'], '4:25: a has parts and percent: keep one'],
    [
      ['{herb: a, parts: 1}', '{herb: b, parts: 1}', '{herb: a, parts: 2}'],
      '6:6: a is already ingredient 1: put both amounts in one line',
    ],
    [
      ['{herb: a, amount: 5 mL}'],
      '4:15: a is measured by volume in a formula made by mass: add its density, such as density: 0.92 g/mL',
    ],
    [
      ['{herb: a, make_up_to: 50 g}', '{herb: b, make_up_to: 60 g}'],
      '5:15: only one ingredient can make up to the total: keep one make_up_to',
    ],
    [
      ['{herb: a, make_up_to: 50 g}', '{herb: b, parts: 1}'],
      '4:15: parts already share out all that is left, so nothing is left to make up: use one or the other',
    ],
    [
      ['{herb: a, amount: 5 g}', '{herb: b, parts: 1}'],
      '4:15: an amount beside parts or percents belongs to a batch of a size: add makes:, such as makes: 100 g',
    ],
    [
      ['{herb: a, percent: 60}', '{herb: b, percent: 50}'],
      '3:1: the percents add up to 110 %, more than 100 %',
    ],
    [
      ['{herb: a, percent: 60}', '{herb: b, percent: 39.9}'],
      '3:1: the percents add up to 99.9 %, not 100 %: let one ingredient take the rest with parts: 1',
    ],
  ])('%j', async (lines, problem) => {
    expect(await told('formula', ingredients(...lines))).toEqual([problem]);
  });

  it.each([
    [['{herb: a, percent: 33.3}', '{herb: b, percent: 33.3}', '{herb: c, percent: 33.4}']],
    [['{herb: a, percent: 33 1/3}', '{herb: b, percent: 33 1/3}', '{herb: c, percent: 33 1/3}']],
    [['{herb: a, amount: 5 mL, density: 0.92 g/mL}', '{herb: b, amount: 5 g}']],
    [['{herb: a, amount: 5 g}', '{herb: b, make_up_to: 60 g}']],
    [['{herb: a, percent: 5}', '{herb: b, parts: 1}']],
  ])('%j fit together', async (lines) => {
    expect(await told('formula', ingredients(...lines))).toEqual([]);
  });
});

describe('the pot of a formula', () => {
  const pot = (preparation: string) => changed(FORMULA, DECOCTION, preparation);

  it.each([
    [
      '{kind: decoction, herb: 12 g, water: 400 mL, make_up_to: 300 mL}',
      '6:15: a decoction needs boil:, such as boil: 20 min, or stages:',
    ],
    [
      '{kind: infusion, herb: 12 g, water: 400 mL, infuse: 10 min, strained: 300 mL, make_up_to: 300 mL}',
      '6:74: give strained: or make_up_to:, not both',
    ],
    [
      '{kind: powder}',
      '7:14: a powder is taken by mass: write such as 2 g, or define a measure of this powder under measures:',
    ],
  ])('%s', async (preparation, problem) => {
    expect(await told('formula', pot(preparation))).toContain(problem);
  });

  it('is drunk by volume', async () => {
    expect(await told('formula', changed(FORMULA, 'take: 150 mL', 'take: 2 g'))).toEqual([
      '7:14: this is drunk by volume: write such as 150 mL, or 1/3 of the batch',
    ]);
    expect(
      await told('formula', changed(pot('{kind: powder}'), 'take: 150 mL', 'take: half of the batch')),
    ).toEqual([
      '7:14: a share of the batch fits a pot of tea; a powder is taken by mass: write such as 2 g, or define a measure of this powder under measures:',
    ]);
  });

  it('is taken so many times a day', async () => {
    expect(await told('formula', changed(FORMULA, ', times: 2', ''))).toEqual([
      '7:14: how many times a day? add times:, such as times: 3',
    ]);
  });

  const stages = (...list: string[]) =>
    pot(`{kind: decoction, herb: 12 g, water: 400 mL, make_up_to: 300 mL, stages: [${list.join(', ')}]}`);

  it('places each herb in one stage', async () => {
    const boil = '{do: decoct, herbs: [hill-star-root], for: 20 min}';
    expect(
      await told('formula', stages(boil, '{do: infuse, herbs: [marsh-star-herb], for: 10 min}')),
    ).toEqual([]);
    expect(
      await told('formula', stages(boil, '{do: infuse, herbs: [marsh-star-hreb], for: 10 min}')),
    ).toEqual([
      '6:79: marsh-star-herb is in no stage: add it to the herbs of one',
      expect.stringMatching(
        /^6:\d+: "marsh-star-hreb" is not among the ingredients: did you mean marsh-star-herb\?$/,
      ),
    ]);
    expect(
      await told(
        'formula',
        stages(boil, '{do: infuse, herbs: [marsh-star-herb, hill-star-root], for: 10 min}'),
      ),
    ).toEqual([expect.stringMatching(/^6:\d+: "hill-star-root" is already in a stage: keep one$/)]);
  });

  it('says nothing of stages whose herbs could not be read', async () => {
    const text = changed(
      stages(
        '{do: decoct, herbs: [hill-star-root], for: 20 min}',
        '{do: infuse, herbs: [marsh-star-herb], for: 10 min}',
      ),
      '{herb: marsh-star-herb,',
      '{herb: Marsh Star,',
    );
    expect(await told('formula', text)).toEqual([
      '4:6: "Marsh Star" is not an id: write lower-case letters, figures and single hyphens, such as nettle-leaf',
    ]);
  });
});

describe('the measures of a formula', () => {
  const measures = (map: string) => `${FORMULA}measures: ${map}\n`;
  it.each([
    ['{scoop: 0 g}', '8:12: a measure holds something: write its size above 0'],
    ['{scoop: 5}', '8:12: "5" has no unit: write such as 5 g'],
    ['{tsp: 2 g}', '8:12: "tsp" already means tsp: choose another name'],
    [
      '{scoop: 2 g, Scoop: 3 g}',
      '8:24: "Scoop" stands here twice, small and capital letters alike: keep one',
    ],
    ['{1/2 scoop: 2 g}', '8:12: "1/2 scoop" begins with a figure: begin the name of a measure with a letter'],
  ])('%s', async (map, problem) => {
    expect(await told('formula', measures(map))).toEqual([problem]);
  });

  it('may settle what a cup holds, in this formula alone', async () => {
    expect(await told('formula', changed(measures('{cup: 200 mL}'), 'take: 150 mL', 'take: 1 cup'))).toEqual(
      [],
    );
    expect(await told('formula', changed(FORMULA, 'take: 150 mL', 'take: 1 cup'))).toHaveLength(1);
  });
});

describe('every problem of a file is told at once', () => {
  it('of a formula: rules beside keys, units, ids and choices', async () => {
    const text = `formula: marsh-tea
titel: Marsh tea
version: three
ingredients:
  - {herb: marsh-star-herb, parts: 2, percent: 5}
  - {herb: marsh-star-herb, parts: many}
  - {herb: hill-star-root}
preparation: {kind: decoction, herb: 12 gr, water: 400 mL, strained: 300 mL, make_up_to: 300 mL}
directions: {take: 2 g, frr: 7 days}
notes: all
`;
    expect(await told('formula', text, 'hill-tea')).toEqual([
      '1:1: "title" is missing: write title: and a text',
      '1:1: formula is "marsh-tea" but the file is named hill-tea.yaml: make them the same',
      '2:1: unknown key "titel": did you mean title?',
      '3:1: "three" is not a number: write such as 3, 0.5 or 1 1/2',
      '5:39: marsh-star-herb has parts and percent: keep one',
      '6:6: marsh-star-herb is already ingredient 1: put both amounts in one line',
      '6:29: "many" is not a number: write such as 3, 0.5 or 1 1/2',
      '7:6: how much of hill-star-root? write parts, percent, amount or make_up_to',
      '8:15: a decoction needs boil:, such as boil: 20 min, or stages:',
      '8:32: "gr" may be a grain (65 mg) or a gram: write grain or g',
      '8:60: give strained: or make_up_to:, not both',
      '9:14: this is drunk by volume: write such as 150 mL, or 1/3 of the batch',
      '9:14: how many times a day? add times:, such as times: 3',
      '9:25: unknown key "frr": did you mean for?',
      '10:1: "notes" must be a list, and it is a text: write [all]',
    ]);
  });

  it('of a monograph: sources beside everything else, also within a list that has other faults', async () => {
    const text = `id: marsh-star-herb
names: {latin: Stella palustris Inv., common: marsh star}
part: herb
checked: null
sources:
  board: {body: Invented board, title: Marsh star, reading: practise}
doses:
  - {preparation: {kind: infusion}, route: oral, source: bord}
  - {preparation: {kind: infusion}, route: orl, single: 1.5, source: nobody}
ages:
  - {not_under: 18, because: no-data, source: nobody}
interactions: {says: listed, source: bord}
gather: {months: [6, 13], mistaken_for: [{name: hill star, tell: leaves, source: bord}], source: board}
`;
    expect(await told('monograph', text)).toEqual([
      '1:1: "family" is missing: write family: and a text',
      '6:52: "practise" is not a choice here: did you mean practice?',
      '8:6: a dose entry without a figure: give single, daily, weekly, times or concentration',
      '8:50: "bord" is not among this file\'s sources: did you mean board?',
      '9:37: "orl" is not a choice here: did you mean oral?',
      '9:49: "1.5" has no unit: write such as 1.5 g',
      '9:62: "nobody" is not among this file\'s sources: known here are board',
      '11:6: "18" is not an age: write such as 34 years or 18 months',
      '11:39: "nobody" is not among this file\'s sources: known here are board',
      '12:30: "bord" is not among this file\'s sources: did you mean board?',
      '13:22: "13" is not a month: write 1 to 12',
      '13:74: "bord" is not among this file\'s sources: did you mean board?',
    ]);
  });

  it('of a patient', async () => {
    const text = `patient: P-1
asked: 2026-05-32
born: 1990
age: 30 years
sex: men
taking: [{formula: marsh-tea, herb: marsh star}, {daily: 5 g}, {product: balm, since: never}]
`;
    expect(await told('patient', text)).toEqual([
      '2:1: "2026-05-32" is not in the calendar: write year-month-day, such as 2026-05-02',
      '4:1: give born: or age:, not both',
      '5:1: "men" is not a choice here: write one of female, male',
      '6:31: name one thing taken: formula:, herb: or product:',
      '6:50: name one thing taken: formula:, herb: or product:',
      '6:80: "never" is not a date: write 1991-06-14, or 1991-06 where only the month is known',
    ]);
  });

  it('of a practice', async () => {
    const text = `practice: Marsh House
settled: {pint: imperial, pints: US, ounce: imperial, spoon: tsp}
measures: {dropper: 0 mL, cup: 200 mL, dos: 3 mL, teacup: 150 mL}
balance: {step: 0 g, sensivity: 0.05 g}
`;
    expect(await told('practice', text)).toEqual([
      '2:27: "pints" is the same word as "pint": keep one',
      '2:38: ounce cannot mean "imperial": write one of oz av, oz ap, imp fl oz, US fl oz',
      expect.stringMatching(/^2:55: "spoon" is not one of pint, ounce, /),
      '3:12: a measure holds something: write its size above 0',
      '3:27: "cup" is already the name of a unit: choose another name',
      '3:40: "dos" is already the name of a unit: choose another name',
      '3:51: "teacup" is already the name of a unit: choose another name',
      '4:11: this must be above 0',
      '4:22: unknown key "sensivity": did you mean sensitivity?',
    ]);
  });
});

describe('rules hold their tongue', () => {
  it('where what they need was not read', async () => {
    // Were the wrong amount taken for none, this would ask how much of it.
    expect(await told('formula', ingredients('{herb: a, parts: 1.5.5}', '{herb: b, parts: 1}'))).toEqual([
      '4:15: "1.5.5" is not a number: write such as 3, 0.5 or 1 1/2',
    ]);
    expect(
      await told('formula', ingredients('{herb: a, percent: ten}', '{herb: b, percent: 50}')),
    ).toHaveLength(1);
    expect(
      await told('formula', ingredients('{herb: a, amount: 5 tps}', '{herb: b, amount: 5 g}')),
    ).toHaveLength(1);
    expect(await told('formula', changed(FORMULA, 'take: 150 mL', 'take: 150 ml.l'))).toHaveLength(1);
    expect(await told('formula', changed(FORMULA, 'boil: 10 min', 'boil: a while'))).toHaveLength(1);
  });

  it('where a whole part of the file is of the wrong shape', async () => {
    for (const [from, to] of [
      [DECOCTION, 'decoction'],
      [DECOCTION, '[decoction]'],
      ['{take: 150 mL, times: 2, for: 7 days}', 'daily'],
    ] as const)
      expect(await told('formula', changed(FORMULA, from, to)), to).toHaveLength(1);
    expect(
      await told('formula', FORMULA.replace(/ingredients:\n.*\n.*\n/, 'ingredients: none\n')),
    ).toHaveLength(1);
    expect(
      await told('formula', FORMULA.replace(/ingredients:\n.*\n.*\n/, 'ingredients: [none]\n')),
    ).toHaveLength(1);
    expect(await told('formula', FORMULA.replace(/ingredients:\n.*\n.*\n/, 'ingredients: []\n'))).toEqual([
      '3:1: a formula needs an ingredient: write such as {herb: nettle-leaf, parts: 1}',
    ]);
  });

  it('of a person whose dates contradict each other, only once', async () => {
    expect(await told('patient', changed(PATIENT, '1984-02-11', '2026-05-03'))).toEqual([
      '3:1: born after the day of asking: one of the two dates is wrong',
    ]);
    expect(await told('patient', changed(PATIENT, '1984-02-11', '2026-05'))).toEqual([]);
    expect(await told('patient', changed(PATIENT, '1984-02-11', '2026-05-02'))).toEqual([]);
  });

  it('of sources where the table of sources itself is missing', async () => {
    expect(await told('monograph', MONOGRAPH.replace(/sources:\n.*\n/, ''))).toEqual([
      '1:1: "sources" is missing: write sources: and a map of keys',
    ]);
  });
});
