import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { CAUTION, type Json, json, ON, practiceFolder, put, removeFolders, run } from './scruple.ts';

let cwd = '';
beforeAll(() => {
  cwd = practiceFolder();
  put(
    cwd,
    'monographs/river-mint-herb.yaml',
    `id: river-mint-herb
names: {latin: Mentha inventa Inv., common: [river mint]}
family: Lamiaceae
part: herb
checked: null
sources:
  board: {body: Invented board, title: River mint, year: 2020, reading: original}
  other: {body: Other board, title: River mint, year: 2021, reading: original}
doses:
  - {preparation: {kind: infusion}, route: oral, ages: 18+ years, single: 1-3 g, source: board}
  - {preparation: {kind: infusion}, route: oral, ages: 18+ years, daily: up to 8 g, source: other}
interactions: not-read
`,
  );
  put(
    cwd,
    'formulas/mint-tea.yaml',
    `formula: mint-tea
title: Mint tea
ingredients: [{herb: river-mint-herb, parts: 1}]
preparation: {kind: infusion, herb: 2 g, water: 200 mL, strained: 200 mL, infuse: 10 min}
directions: {take: all of the pot, times: 3, for: 7 days}
`,
  );
});
afterAll(removeFolders);

const dose = (...args: string[]) => run(['dose', ...args, '--on', ON], { cwd });
const flat = (text: string): string => text.replace(/\s+/g, ' ');
const CHILD = ['mint-tea', '--age', '7y', '--weight', '24kg', '--height', '122 cm'];
const OLD = ['after-supper', '--age', '84y'];

describe('scruple dose --age-rule', () => {
  it('sets every rule beside the others for one child, the strictest first, on 80 columns', () => {
    const { code, out } = dose(...CHILD, '--age-rule', 'all');
    expect(code).toBe(0);
    // 3 g at once and 8 g a day by 25, 33.33, 33.33, 35, 35.27, 36.84, 46, 48, 50 and 52.13 per cent.
    expect(
      [...out.matchAll(/^ {4}(\S.*?) {2,}(\S+ %) +(\S+ g) +(\S+ g) +gives more$/gm)].map((m) => m.slice(1)),
    ).toEqual([
      ['statutory fractions (Canada)', '25 %', '0.75 g', '2 g'],
      ["Cowling's rule", '33.33 %', '1 g', '2.67 g'],
      ["Gaubius' table", '33.33 %', '1 g', '2.67 g'],
      ["Dilling's rule", '35 %', '1.05 g', '2.8 g'],
      ["Clark's rule", '35.27 %', '1.06 g', '2.82 g'],
      ["Young's rule", '36.84 %', '1.11 g', '2.95 g'],
      ["Augsberger's rule", '46 %', '1.38 g', '3.68 g'],
      ['Salisbury rule', '48 %', '1.44 g', '3.84 g'],
      ['percentage method', '50 %', '1.5 g', '4 g'],
      ['body surface', '52.13 %', '1.56 g', '4.17 g'],
    ]);
    expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
    expect(out.split(CAUTION)).toHaveLength(2);
  });

  it('says what the adult dose is and whose, what the formula gives, and how each share came about', () => {
    const out = flat(dose(...CHILD, '--age-rule', 'all').out);
    expect(out).toContain('For 7 years, 24 kg, 122 cm.');
    expect(out).toContain('3 g at once, the top of 1 to 3 g; Invented board 2020');
    expect(out).toContain('8 g a day at the most; Other board 2021');
    expect(out).toContain('this formula 2 g at once, 6 g a day');
    expect(out).toContain(
      "Young's rule: 7 years / (7 years + 12 years) = 36.84 %; for 2 years to under 13 years",
    );
    expect(out).toContain("Clark's rule: 24 kg / 68.04 kg = 35.27 %");
    expect(out).toContain('by 68.0388555 kg, which is 150 lb');
    expect(out).toContain('statutory fractions (Canada): row "5 - 9 years", 25 %');
    expect(out).toContain("Not Fried's rule: it is for under 12 months.");
    expect(out).toContain('No lowest age of it was read');
  });

  it('prints the warnings of the authorities once, those for the age alone', () => {
    const child = flat(dose(...CHILD, '--age-rule', 'young').out);
    expect(child.split('Scaling adult doses is in general not recommended')).toHaveLength(2);
    expect(child).not.toContain('start low and go slow');
    const old = flat(dose(...OLD, '--age-rule', 'older').out);
    expect(old.split('start low and go slow')).toHaveLength(2);
    expect(old).not.toContain('overweight child');
    expect(old).toContain('a historical textbook');
  });

  it('names beside one rule the stricter one that was not asked for', () => {
    expect(flat(dose(...CHILD, '--age-rule', 'young').out)).toContain(
      'Stricter than what was asked for: statutory fractions (Canada), 25 %: 0.75 g at once, 2 g a day.',
    );
  });

  it('takes a rule by its name, by another name, and a figure in print only where it is named', () => {
    const ids = (...names: string[]): string[] =>
      json(['dose', ...CHILD, ...names.flatMap((n) => ['--age-rule', n]), '--on', ON], {
        cwd,
      }).result.age_rules.map((r: Json) => r.rule);
    expect(ids("Clark's rule")).toEqual(['clark']);
    expect(ids('YOUNG', 'bsa')).toEqual(['young', 'surface']);
    expect(ids('young, Salisbury rule')).toEqual(['young', 'salisbury']);
    expect(ids('clark-70')).toEqual(['clark-70']);
    expect(ids('all')).not.toContain('clark-70');
    expect(ids('all', 'clark-70')).toEqual([...ids('all').slice(0, 6), 'clark-70', ...ids('all').slice(6)]);
  });

  it('shows the sum behind each figure', () => {
    const out = flat(dose(...CHILD, '--age-rule', 'young', '--working').out);
    expect(out).toMatch(
      /share of the adult dose: 7 years \[\d+\] \/ \(7 years \[\d+\] \+ 12 years \[\d+\]\) = 36\.84210526 %/,
    );
    expect(out).toMatch(
      /river-mint-herb by Young's rule, single: 3 g \[\d+\] x 36\.84210526 % \[\d+\] = 1\.105263158 g/,
    );
  });

  it('is a report in Markdown too', () => {
    const { code, out } = dose(...CHILD, '--age-rule', 'all', '--markdown');
    expect(code).toBe(0);
    expect(out).toContain('## By rules of age, from the adult dose');
    expect(out).toMatch(/^\* \*\*adults\*\*: 8 g a day at the most/m);
    expect(out).toMatch(/^\| Young's rule \| 36\.84 % \| 1\.11 g \| 2\.95 g \| gives more \|$/m);
  });

  it('never goes above the adult dose, and says where a rule would', () => {
    const out = flat(dose('mint-tea', '--age', '16y', '--weight', '80kg', '--age-rule', 'augsberger').out);
    expect(out).toMatch(/Augsberger's rule capped at 100 % 3 g 8 g/);
    expect(out).toContain('1.5 %/kg x 80 kg + 10 % = 130 %, capped at the adult dose');
  });

  it('asks about a weight that has lost its point', () => {
    const out = flat(dose('mint-tea', '--age', '7y', '--weight', '240kg', '--age-rule', 'clark').out);
    expect(out).toContain(
      "Not Clark's rule: a weight of 240 kg is not to be expected at 7 years (9 to 90 kg): which is it?",
    );
  });

  it('sets mL of a tincture beside mL, and herb beside herb', () => {
    const { code, out } = dose('bitter-end-drops', '--age', '84y', '--age-rule', 'older');
    expect(code).toBe(0);
    // EMA/HMPC 2013 on lemon balm: tincture 1:5, 2 to 6 mL up to three times a day.
    expect(flat(out)).toContain('6 mL at once, the top of 2 to 6 mL; EMA/HMPC 2013');
    expect(flat(out)).toMatch(/older adults \(1905\) 66\.67 % 4 mL 12 mL not more/);
  });

  it('stops at a lowest age of the monograph, names it, and prints no share that could be used in its place', () => {
    const { out } = dose(
      'still-night',
      '--age',
      '7y',
      '--weight',
      '24kg',
      '--height',
      '122 cm',
      '--age-rule',
      'all',
    );
    expect(flat(out)).toMatch(
      /valerian-root EMA\/HMPC: not under 12 years \([a-z ]+\).*no rule goes under a lowest age\./,
    );
    expect(out).not.toContain('36.84');
  });

  it('leaves the place to a dose that is printed for the age', () => {
    expect(flat(dose('after-supper', '--age', '7y', '--age-rule', 'all').out)).toContain(
      'EMA/HMPC and Polish medicines authority and Health Canada have a dose for this very age, which goes before any rule.',
    );
  });

  it('prints for a script a line for every herb and rule, with the reason where there is no figure', () => {
    const { result } = json(['dose', ...CHILD, '--age-rule', 'young', '--age-rule', 'fried', '--on', ON], {
      cwd,
    });
    expect(result.age_rules).toEqual([
      {
        herb: 'river-mint-herb',
        rule: 'young',
        fraction: { value: '36.8421052632', unit: '%' },
        single: { value: '1.10526315789', unit: 'g' },
        daily: { value: '2.94736842105', unit: 'g' },
        above: true,
        capped: false,
        adult: { single: { value: '3', unit: 'g' }, daily: { value: '8', unit: 'g' } },
        formula: { single: { value: '2', unit: 'g' }, daily: { value: '6', unit: 'g' } },
        why_not: null,
      },
      expect.objectContaining({
        rule: 'fried',
        fraction: null,
        single: null,
        why_not: 'it is for under 12 months',
      }),
    ]);
    expect(result.age_rules_stricter).toMatchObject([
      { rule: 'canada', fraction: { value: '25', unit: '%' } },
    ]);
    expect(result.age_rules_warnings[0]).toEqual({
      says: expect.any(String),
      source: 'bnf',
      body: expect.any(String),
      reading: 'restated',
    });
    const barred = json(['dose', 'still-night', '--age', '7y', '--age-rule', 'young', '--on', ON], { cwd });
    expect(barred.result.age_rules).toMatchObject([
      {
        herb: 'valerian-root',
        rule: 'young',
        single: null,
        why_not: expect.stringContaining('not under 12 years'),
      },
    ]);
    expect(json(['dose', ...CHILD, '--on', ON], { cwd }).result.age_rules).toBeUndefined();
  });

  it('reads the height of a patient file', () => {
    const person = (height: string) =>
      put(cwd, 'child.yaml', `patient: P-7\nasked: ${ON}\nage: 7 years\nweight: 24 kg\nheight: ${height}\n`);
    expect(flat(dose('mint-tea', '--patient', person('1.22 m'), '--age-rule', 'surface').out)).toContain(
      '52.13 %',
    );
    const { code, err } = dose('mint-tea', '--patient', person('122 m'), '--age-rule', 'surface');
    expect(code).toBe(2);
    expect(err).toMatch(/child\.yaml:5:1: this height is not a person's: write such as 122 cm/);
  });

  it('takes a rule of the practice beside the shipped ones', () => {
    put(
      cwd,
      'monographs/reference/age-rules.own.yaml',
      `table: age-rules
sources: {us: {body: Our practice, title: A quarter for children, reading: practice}}
rules:
  - {id: quarter, name: our quarter, input: band, bands: [{ages: 2-12 years, share: 1/4, printed: children}], ages: 2-12 years, source: us}
`,
    );
    expect(flat(dose(...CHILD, '--age-rule', 'quarter').out)).toMatch(
      /our quarter 25 % 0\.75 g 2 g gives more/,
    );
  });

  it.each([
    [[...OLD, '--age-rule', 'yuong'], 'did you mean young?'],
    [[...OLD, '--age-rule', "Clrak's rule"], 'did you mean clark?'],
    [[...OLD, '--age-rule', 'young,'], '--age-rule "" is no rule'],
    [[...OLD, '--age-rule', ''], '--age-rule "" is no rule: there are all, young, '],
    [['after-supper', '--age-rule', 'young'], 'say --age 7y'],
    [['after-supper', '--weight', '24kg', '--age-rule', 'clark'], 'was not given: say --age'],
    [[...OLD, '--height', '122', '--age-rule', 'all'], '--height "122" has no unit: write such as 122 cm'],
    [[...OLD, '--height', '24 kg', '--age-rule', 'all'], 'must be length'],
    [[...OLD, '--height', '0 cm', '--age-rule', 'all'], "--height this height is not a person's"],
    [[...OLD, '--weight', '0kg'], "--weight this weight is not a person's"],
  ])('%j is refused', (args, why) => {
    const { code, out, err } = dose(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(why);
  });
});
