import { cpSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CAUTION, emptyFolder, envelopes, put, type Ran, removeFolders, run } from './scruple.ts';

/** A newcomer's first hour, step after step in one folder: each step stands on what the one before it said. */

const SHIPPED = fileURLToPath(new URL('../../', import.meta.url));

let folder = '';
beforeAll(() => {
  folder = emptyFolder('my practice');
});
afterAll(removeFolders);

const scruple = (...args: string[]): Ran => run([...args, '--on', '2026-05-02'], { cwd: folder });
const last = ({ out }: Ran): string => out.trimEnd().split('\n').at(-1) ?? '';

describe.sequential('a first hour', () => {
  test('the program alone says what it does and where to start', () => {
    const ran = run([], { cwd: folder });
    expect(ran.code).toBe(0);
    expect(ran.out).toContain('scruple list');
    expect(ran.out.split('\n').length).toBeLessThan(12);
  });

  test('a measure converts before there is any folder', () => {
    expect(run(['convert', '2 tbsp', 'mL'], { cwd: folder }).code).toBe(0);
  });

  test('the start that was named says what is missing', () => {
    const ran = scruple('list');
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('no folder here or above holds monographs/ and formulas/');
  });

  test('with the library and an empty folder of formulas, the list leads on', () => {
    cpSync(join(SHIPPED, 'monographs'), join(folder, 'monographs'), { recursive: true });
    mkdirSync(join(folder, 'formulas'));
    const ran = scruple('list');
    expect(ran.code).toBe(0);
    expect(ran.out).toContain('There is no formula yet.');
    expect(ran.out).toContain('thyme-herb');
    expect(scruple('weigh', 'chest-tea').err).toMatch(/the folder has no formulas yet/);
  });

  test('a herb is looked up by the name in use', () => {
    const ran = scruple('show', 'thyme');
    expect(ran.code).toBe(0);
    expect(ran.out).toContain('Thymus vulgaris');
  });

  test('the first formula has two slips, and both are told with their place', () => {
    put(
      folder,
      'formulas/chest-tea.yaml',
      `formula: chest-tea
title: Chest tea
use: productive-cough
ingredients:
  - {herb: thyme-herb, parts: 2}
  - {herb: licorice-root, parts: 1}
preparation: {kind: infusion, herb: 6 g, water: 1 pint, infuse: 15 min, covered: yes}
directions: {take: 1/3 of the pot, times: 3, for: 5 days}
`,
    );
    const ran = scruple('validate');
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/^formulas\/chest-tea\.yaml:7:\d+: "pint" could be imp pint .* or US pint/m);
  });

  test('one is settled for good in practice.yaml, and the other then shows', () => {
    put(folder, 'practice.yaml', 'practice: My practice\nsettled: {pint: imperial}\n');
    const ran = scruple('validate');
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(
      /^formulas\/chest-tea\.yaml:6:\d+: .*licorice-root.*did you mean liquorice-root/m,
    );
  });

  test('mended, every file is in order', () => {
    const file = join(folder, 'formulas/chest-tea.yaml');
    put(folder, 'formulas/chest-tea.yaml', readFileSync(file, 'utf8').replace('licorice', 'liquorice'));
    expect(scruple('validate')).toMatchObject({ code: 0, err: '' });
    expect(last(scruple('show', 'chest-tea'))).toBe('Next: scruple weigh chest-tea');
  });

  test('what to weigh: a pot of 6 g a day for five days', () => {
    const ran = scruple('weigh', 'chest-tea');
    expect(ran.code).toBe(0);
    expect(ran.out).toMatch(/^thyme-herb +20 +20 +0$/m);
    expect(ran.out).toMatch(/^liquorice-root +10 +10 +0$/m);
    expect(last(ran)).toBe('Next: scruple dose chest-tea');
  });

  test('how a figure came about', () => {
    expect(scruple('weigh', 'chest-tea', '--working').out).toMatch(/6 g \[\d+\] = 30 g/);
  });

  test('what is taken, beside what is published', () => {
    const ran = scruple('dose', 'chest-tea', '--age', '42y');
    expect(ran.code).toBe(0);
    expect(ran.out).toMatch(/at once +1\.33 g/);
    expect(last(ran)).toBe('Next: scruple check chest-tea, with the same answers');
  });

  test('the check asks what it was not told', () => {
    const ran = scruple('check', 'chest-tea', '--age', '42y');
    expect(ran.code).toBe(4);
    expect(ran.out).toMatch(/^Ask first/);
    expect(ran.out).toContain('Which medicines do they take?');
    expect(last(ran)).toMatch(/^Next: ask, write the answers into the patient file/);
  });

  test('the answers go into a file, and the answer is no: liquorice beside a diuretic', () => {
    mkdirSync(join(folder, 'patients'));
    put(
      folder,
      'patients/P-001.yaml',
      `patient: P-001
asked: 2026-05-02
age: 42 years
sex: male
conditions: []
medicines: [furosemide]
allergies: []
taking: []
drives: no
fluid_restricted: no
surgery: null
`,
    );
    const ran = scruple('check', 'chest-tea', '--patient', 'patients/P-001.yaml');
    expect(ran.code).toBe(5);
    expect(ran.out).toMatch(/^Withhold: do not hand it over/);
    expect(ran.out).toContain('furosemide');
  });

  test('without the liquorice it may be handed over', () => {
    const file = join(folder, 'formulas/chest-tea.yaml');
    const text = readFileSync(file, 'utf8').replace(/ {2}- \{herb: liquorice-root.*\n/, '');
    put(folder, 'formulas/thyme-tea.yaml', text.replace('chest-tea', 'thyme-tea').replace('6 g', '4 g'));
    const ran = scruple('check', 'thyme-tea', '--patient', 'patients/P-001.yaml');
    expect(ran.out).not.toMatch(/^WITHHOLD/m);
    expect(ran.code).toBeLessThan(4);
  });

  test('the sheet for the shelf is written to a file, once', () => {
    expect(scruple('weigh', 'thyme-tea', '--output', 'thyme tea.txt').code).toBe(0);
    expect(scruple('weigh', 'thyme-tea', '--output', 'thyme tea.txt').code).toBe(2);
    expect(readFileSync(join(folder, 'thyme tea.txt'), 'utf8')).toContain(CAUTION);
  });

  test('a script reads the verdict', () => {
    const ran = scruple('check', 'chest-tea', '--patient', 'patients/P-001.yaml', '--json');
    expect(envelopes(ran)[0].result.verdict).toBe('withhold');
  });

  test('nothing was written into the folder but what was asked for', () => {
    expect(readdirSync(folder).sort()).toEqual([
      'formulas',
      'monographs',
      'patients',
      'practice.yaml',
      'thyme tea.txt',
    ]);
    expect(readdirSync(join(folder, 'formulas'))).toEqual(['chest-tea.yaml', 'thyme-tea.yaml']);
  });
});
