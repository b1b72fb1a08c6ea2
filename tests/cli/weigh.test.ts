import { Decimal } from 'decimal.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  APPLIED,
  CAUTION,
  FORMULAS,
  type Json,
  json,
  POURED,
  practiceFolder,
  put,
  removeFolders,
  run,
  TEA,
} from './scruple.ts';

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
  put(
    folder,
    'formulas/three-two-one.yaml',
    TEA.replace('river-tea', 'three-two-one').replace(
      '  - {herb: thyme-herb, parts: 1}\n',
      '  - {herb: thyme-herb, parts: 3}\n  - {herb: sage-leaf, parts: 2}\n  - {herb: chamomile-flower, parts: 1}\n',
    ),
  );
});
afterAll(removeFolders);

const weigh = (...args: string[]): Json => json(['weigh', ...args], { cwd: folder }).result;
const sheet = (...args: string[]): string => run(['weigh', ...args], { cwd: folder }).out;
const refused = (...args: string[]): string => {
  const { code, out, err } = run(['weigh', ...args], { cwd: folder });
  expect({ code, out }).toEqual({ code: 2, out: '' });
  return err;
};
const grams = (lines: Json[], key: string): string[] => lines.map((l) => l[key].value);

test('parts of 3, 2 and 1 add up to exactly 100 g on a balance of 0.1 g', () => {
  const { lines, total } = weigh('three-two-one', '--make', '100 g');
  expect(lines.map((l: Json) => l.herb)).toEqual(['thyme-herb', 'sage-leaf', 'chamomile-flower']);
  // 100/6 is 16.666..., whose remainder is the largest: it is rounded up, and 100/3 down.
  expect(grams(lines, 'weigh')).toEqual(['50', '33.3', '16.7']);
  expect(grams(lines, 'exact')).toEqual(['50', '33.3333333333', '16.6666666667']);
  expect(Decimal.sum(...grams(lines, 'weigh')).toFixed()).toBe('100');
  expect(total).toEqual({ value: '100', unit: 'g' });
});

test('the sheet puts what to weigh first, and what comes next last', () => {
  const out = sheet('three-two-one', '--make', '100 g');
  expect(out.indexOf('33.3')).toBeLessThan(out.indexOf('One pot'));
  expect(out.trimEnd().split('\n').at(-1)).toBe('Next: scruple dose three-two-one');
});

describe('how much', () => {
  test('is the course of the directions where nothing is said: three thirds of a pot a day for 14 days', () => {
    const { lines, total, pots, doses, supply } = weigh('stiff-joints');
    expect(grams(lines, 'weigh')).toEqual(['84', '42']);
    expect([total.value, pots.value, doses.value]).toEqual(['126', '14', '42']);
    expect(supply).toMatchObject({ per_day: { value: '9' }, days: { value: '14' }, over: { value: '0' } });
  });

  test('--days 7 is half of 14, and the word may stand with it', () => {
    expect(weigh('stiff-joints', '--days', '7').total.value).toBe('63');
    expect(weigh('stiff-joints', '--days', '7 days').total.value).toBe('63');
  });

  test('--doses 4 needs two pots of three doses each', () => {
    expect(weigh('stiff-joints', '--doses', '4').total.value).toBe('18');
  });

  test('--make by volume goes by what strains off: 12 g give 500 mL, so 2 L take 48 g', () => {
    expect(weigh('after-supper', '--make', '2 L').total).toEqual({ value: '48', unit: 'g' });
    expect(weigh('after-supper', '--make', '1 imp pint').total.value).toBe('13.7');
  });

  test('--have goes by the scarcest: 10 g of a third is 30 g', () => {
    const args = ['stiff-joints', '--have', 'willow-bark=40 g', '--have', 'meadowsweet-herb=10 g'];
    expect(grams(weigh(...args).lines, 'weigh')).toEqual(['20', '10']);
  });

  test('--have takes any name of the herb', () => {
    expect(weigh('stiff-joints', '--have', 'white willow = 40 g').total.value).toBe('60');
  });

  test.each([
    [['--have', 'wilow-bark=40 g'], /"wilow-bark" is not in this formula: did you mean willow-bark\?/],
    [['--have', 'sage=40 g'], /it is made of willow-bark, meadowsweet-herb/],
    [['--have', 'willow-bark'], /write the herb and what there is of it/],
    [['--have', 'willow-bark=0 g'], /nothing can be made/],
    [['--have', 'willow-bark=5 mL'], /made by mass, so write such as 40 g/],
    [['--have', 'willow-bark=9 g', '--have', 'white willow=1 g'], /names willow-bark twice/],
    [['--make', '100 g', '--days', '7'], /--make and --days both set the size: give one/],
    [['--doses', '7', '--have', 'willow-bark=9 g'], /--doses and --have both set the size/],
    [['--make', '100'], /--make "100" has no unit: write such as 100 g/],
    [['--make', '0 g'], /--make must be above 0/],
    [['--make', '3 days'], /measures time/],
    [['--days', '0'], /--days must be a whole number above 0/],
    [['--days', '2.5'], /--days must be a whole number/],
    [['--doses', 'many'], /--doses "many" is not a number/],
  ])('%j is refused in words', (args, says) => {
    expect(refused('stiff-joints', ...args)).toMatch(says);
  });
});

test.each([
  ['stiff-joint', /did you mean stiff-joints\?/],
  ['nothing-like-it', /there are after-supper, /],
  ['../../etc/passwd', /there is no formula/],
  ['', /there is no formula ""/],
])('a formula named %j is not there, and the near ones are named', (name, says) => {
  expect(refused(name)).toMatch(says);
});

describe('water', () => {
  test('for the batch and for one pot are two figures', () => {
    const { water, pot } = weigh('after-supper');
    // 7 pots of an imperial pint (568.26125 mL, Weights and Measures Act 1985).
    expect(water).toEqual({ value: '3977.82875', unit: 'mL' });
    expect(pot.water).toEqual({ value: '568.26125', unit: 'mL' });
    expect(sheet('after-supper')).toMatch(/^water +3,977\.8 mL in all$/m);
    expect(sheet('after-supper')).toMatch(/^ {2}water +568\.3 mL$/m);
  });

  test('strained as measured, made up to, or an estimate that is called one', () => {
    expect(sheet('after-supper')).toMatch(/strains to +500 mL/);
    expect(sheet('stiff-joints')).toMatch(/made up to +568\.3 mL/);
    expect(sheet('quiet-evening')).toMatch(/strains to about/);
    expect(weigh('quiet-evening').pot.estimated).toBe(true);
    expect(weigh('after-supper').pot.estimated).toBe(false);
  });

  test('a powder has none', () => {
    expect(weigh('steady-journey')).not.toHaveProperty('water');
    expect(sheet('steady-journey')).not.toContain('mL');
  });
});

test('a decoction in stages says which herb goes in when, and how much of each into one pot', () => {
  const out = sheet('stiff-joints').replace(/\s+/g, ' ');
  expect(out).toContain('Put 6 g willow-bark into 700 mL of cold water');
  expect(out).toContain('add 3 g meadowsweet-herb');
  expect(out.indexOf('willow-bark into')).toBeLessThan(out.indexOf('add 3 g meadowsweet-herb'));
});

test('what the formula notes on an ingredient and on the whole stands on the sheet', () => {
  expect(sheet('after-supper')).toContain('sweet-fennel-fruit: bruised in the mortar');
  expect(sheet('quiet-evening')).toContain('For grown-ups and young people from 12 years.');
});

describe('too little', () => {
  test('for the balance: sensitivity 0.05 g at 5 % is 1 g at the least', () => {
    // University of North Carolina, Pharmaceutics and Compounding Laboratory, "Weighing": sensitivity / permitted error.
    const { lines } = weigh('stiff-joints', '--make', '2 g');
    expect(lines[0]).not.toHaveProperty('least_weighable');
    expect(lines[1].least_weighable).toEqual({ value: '1', unit: 'g' });
    const out = sheet('stiff-joints', '--make', '2 g').replace(/\s+/g, ' ');
    expect(out).toContain('Below 1 g, the least that this balance weighs');
    expect(out).toContain(': meadowsweet-herb. Make a larger batch');
  });

  test('of a powder it can be triturated, and the sheet says how', () => {
    const out = sheet('steady-journey', '--make', '1 g').replace(/\s+/g, ' ');
    expect(out).toContain('or triturate:');
    expect(out).toMatch(/mix [\d.]+ g of ginger-rhizome with [\d.]+ g of the other powders/);
  });

  test('for a pot: nothing is called a pot that is not whole', () => {
    const out = sheet('after-supper', '--make', '3 g');
    expect(out).toContain('3 g is less than the 12 g of one pot');
    expect(out).toMatch(/^lasts +less than a day/m);
    expect(out).not.toMatch(/\b0 (pots|doses|days)/);
  });

  test('for a line that would round to nothing', () => {
    expect(refused('stiff-joints', '--make', '0.1 g')).toMatch(/rounds to nothing at 0\.1 g/);
  });
});

test('JSON has the keys that scripts rely on, for every formula', () => {
  for (const formula of FORMULAS) {
    const { scruple, command, result, findings, problems } = json(['weigh', formula], { cwd: folder });
    expect({ scruple, command, findings, problems }).toEqual({
      scruple: 1,
      command: 'weigh',
      findings: [],
      problems: [],
    });
    const unit = POURED.includes(formula) ? 'mL' : 'g';
    for (const line of result.lines)
      expect(line).toMatchObject({ herb: expect.any(String), exact: { unit }, weigh: { unit } });
    expect(Decimal.sum(...grams(result.lines, 'weigh')).toFixed()).toBe(result.total.value);
    if (!APPLIED.includes(formula)) expect(result.doses.unit).toBe('{dose}');
  }
});

test('a formula without directions is weighed, and the sheet says what it lacks for a dose', () => {
  put(folder, 'formulas/river-tea.yaml', TEA.replace(/^directions:.*\n/m, ''));
  const out = sheet('river-tea');
  expect(out).toContain('Next: add directions: to formulas/river-tea.yaml');
  expect(weigh('river-tea')).not.toHaveProperty('doses');
});

test('a herb without a monograph is weighed, and the sheet says that nothing is known of it', () => {
  put(folder, 'formulas/river-tea.yaml', TEA.replace('thyme-herb', 'river-mint'));
  expect(sheet('river-tea').replace(/\s+/g, ' ')).toContain(
    'No monograph: river-mint. Nothing is known here',
  );
  expect(sheet('river-tea')).toContain(CAUTION);
});
