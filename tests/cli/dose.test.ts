import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  APPLIED,
  CAUTION,
  envelopes,
  FORMULAS,
  type Json,
  json,
  ON,
  patient,
  practiceFolder,
  put,
  removeFolders,
  run,
  TEA,
} from './scruple.ts';

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

const dose = (...args: string[]): Json => json(['dose', ...args, '--on', ON], { cwd: folder }).result;
const sheet = (...args: string[]): string => run(['dose', ...args, '--on', ON], { cwd: folder }).out;
const of = (result: Json, herb: string): Json => result.lines.find((l: Json) => l.herb === herb);

test('the herb in a dose goes by what strains off: 12 g of which 500 mL strain, by 150 mL, is 3.6 g', () => {
  const { lines } = dose('after-supper');
  expect(lines.map((l: Json) => [l.herb, l.single.value, l.daily.value])).toEqual([
    // 3 and 2 parts of 3.6 g; three times a day.
    ['chamomile-flower', '2.16', '6.48'],
    ['sweet-fennel-fruit', '1.44', '4.32'],
  ]);
  expect(sheet('after-supper')).toMatch(/^in a dose +3\.6 g of herb$/m);
  expect(sheet('after-supper')).toMatch(/^one pot +12 g in 568\.3 mL, strained 500 mL$/m);
});

test('an estimate of what strains off is called one where the doses hang on it', () => {
  expect(sheet('quiet-evening').replace(/\s+/g, ' ')).toContain('strains to about 384.6 mL (an estimate');
});

describe('JSON', () => {
  test('has the keys that scripts rely on, for every formula', () => {
    for (const formula of FORMULAS) {
      const result = dose(formula, '--patient', patient('S-104'));
      expect(result).toMatchObject({ formula, patient: 'S-104' });
      if (!APPLIED.includes(formula)) expect(result.supply).toMatchObject({ days: { unit: 'd' } });
      for (const line of result.lines) {
        const amount = APPLIED.includes(formula) ? null : { unit: 'g' };
        expect(line).toMatchObject({ single: amount, daily: amount, weekly: amount });
        // Nothing is published for the rectal route.
        if (formula !== 'quay-suppositories') expect(line.compared.length).toBeGreaterThan(0);
        for (const c of line.compared) {
          expect(['below', 'within', 'above', 'not comparable']).toContain(c.outcome);
          expect(c).toMatchObject({ source: expect.any(String), reading: expect.any(String) });
        }
      }
    }
  });

  test('several people make several lines, in the order given', () => {
    const codes = ['S-108', 'S-101', 'S-103'];
    const args = codes.flatMap((c) => ['--patient', patient(c)]);
    const ran = run(['dose', 'after-supper', ...args, '--on', ON, '--json'], { cwd: folder });
    expect(envelopes(ran).map((e) => e.result.patient)).toEqual(codes);
    expect(ran.err).toBe('');
  });

  test('without a patient it is nobody, and doses are those for adults', () => {
    expect(dose('after-supper').patient).toBeNull();
    expect(sheet('after-supper')).toContain('For nobody in particular');
  });
});

describe('who it is for', () => {
  test('decides which published doses apply', () => {
    // EMA/HMPC/55843/2011 on chamomile flower: other amounts from 12 years than below.
    const twelve = of(dose('after-supper', '--patient', patient('S-103')), 'chamomile-flower');
    const eleven = of(dose('after-supper', '--patient', patient('S-102')), 'chamomile-flower');
    const ages = (line: Json): string[] => line.compared.map((c: Json) => c.ages);
    expect(ages(twelve)).toContain('12 years and over');
    expect(ages(eleven)).not.toContain('12 years and over');
  });

  test('may be said in flags, as in a file', () => {
    const flags = dose('after-supper', '--age', '34y', '--sex', 'female');
    expect(flags.lines).toEqual(dose('after-supper').lines);
    expect(dose('after-supper', '--age', '20 months').lines).toEqual(
      dose('after-supper', '--patient', patient('S-101')).lines,
    );
    expect(sheet('after-supper', '--born', '1991-06-14')).toContain('34 years');
  });

  test('the next command names the same person', () => {
    const last = (text: string): string => text.trimEnd().split('\n').slice(-1).join();
    put(folder, 'my patient.yaml', readFileSync(patient('S-104'), 'utf8'));
    expect(last(sheet('after-supper', '--patient', 'my patient.yaml'))).toBe(
      "Next: scruple check after-supper --patient 'my patient.yaml'",
    );
    expect(last(sheet('after-supper', '--age', '34y'))).toMatch(/with the same answers$/);
    expect(last(sheet('after-supper'))).toMatch(/--patient FILE$/);
  });

  test('nothing is compared for a child whom no source has a dose for, and the sheet says so', () => {
    const out = sheet('winter-chest', '--patient', patient('S-101'));
    expect(out).toContain('No published dose is for this age and route.');
    expect(out).toMatch(/^liquorice-root .* none that applies$/m);
    expect(out).not.toContain('within');
  });

  test.each([
    [['--age', '34'], /--age "34" is not an age: write such as 34 years/],
    [['--age', '34y', '--born', '1991'], /give one/],
    [['--weight', '68'], /--weight "68" has no unit/],
    [['--sex', 'x'], /write female or male/],
    [['--pregnant', 'maybe'], /write no, yes, or the weeks/],
    [['--born', '2030', '--on', ON], /--born 2030-01-01 is after the day reckoned from, 2026-05-02/],
    [['--patient', 'patients/S-103.yaml', '--on', '2010-01-01'], /S-103\.yaml: born 2014-05-02 is after/],
    [['--output', 'a.txt', '--output-dir', 'b'], /cannot be used with/],
    [['--surgery', 'tomorrow'], /--surgery "tomorrow" is not a date/],
    [['--age', '34y', '--patient', 'patients/S-103.yaml'], /do not go together/],
    [['--patient', 'patients/nobody.yaml'], /patients\/nobody\.yaml: there is no such file/],
  ])('%j is refused in words', (args, says) => {
    const { code, out, err } = run(['dose', 'after-supper', ...args], { cwd: folder });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(says);
  });
});

describe('the sheet', () => {
  test('shows each dose beside what is published, with a gauge, and names every source', () => {
    const out = sheet('after-supper', '--patient', patient('S-103'));
    expect(out).toMatch(/at once +2\.16 g +1\.5 to 4 g +:\.*\[=*o=*\]\.*: +within +a$/m);
    expect(out).toContain('o is the dose');
    expect(out).toMatch(/^ {2}a EMA\/HMPC, European Union herbal monograph on Matricaria recutita/m);
  });

  test('has milligrams and grams side by side where a source prints the other', () => {
    const out = sheet('steady-journey', '--patient', patient('S-104'));
    expect(out).toMatch(/173\.3 mg \(0\.173 g\) +180 mg/);
  });

  test('says of each herb in one word how it stands, before the tables', () => {
    const out = sheet('steady-journey', '--patient', patient('S-104'));
    expect(out).toMatch(/^ginger-rhizome +0\.173 g .* below some$/m);
    expect(out).toMatch(/^lemon-balm-leaf .* within$/m);
    expect(out.indexOf('below some')).toBeLessThan(out.indexOf(':.'));
  });

  test('tells a usual dose and a limit from a range', () => {
    expect(sheet('after-supper', '--patient', patient('S-103'))).toMatch(/1\.5 g .* below usual/);
    expect(sheet('stiff-joints', '--patient', patient('S-104'))).toMatch(/up to 3 g .* within limit/);
  });

  test('says of a dose that only rounding makes equal to a limit that it is just above', () => {
    // 4 parts of 2 g a pot, a hair more than the 4 g that EMA/HMPC/55843/2011 prints at once.
    put(
      folder,
      'formulas/river-tea.yaml',
      TEA.replace('thyme-herb', 'chamomile-flower')
        .replace('title', 'use: digestive-upset\ntitle')
        .replace('herb: 12 g', 'herb: 13.335 g'),
    );
    expect(sheet('river-tea')).toMatch(/at once +4 g +1\.5 to 4 g .* just above +a/);
  });
});

test('a formula without directions has no dose: exit 2, and what to add', () => {
  put(folder, 'formulas/river-tea.yaml', TEA.replace(/^directions:.*\n/m, ''));
  const { code, out, err } = run(['dose', 'river-tea'], { cwd: folder });
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toMatch(/river-tea has no directions.*add directions: to formulas\/river-tea\.yaml/);
});

test('a herb without a monograph has nothing to be compared with', () => {
  put(folder, 'formulas/river-tea.yaml', TEA.replace('thyme-herb', 'river-mint'));
  const out = sheet('river-tea');
  expect(out).toContain('There is no monograph of this herb');
  expect(out).toMatch(/^river-mint +3\.6 g .* no monograph$/m);
  expect(dose('river-tea').lines[0].compared).toEqual([]);
});

describe('--output-dir', () => {
  const two = ['--patient', patient('S-103'), '--patient', patient('S-104'), '--on', ON];
  const named = (code: string, file: string): string[] => [
    '--patient',
    put(
      folder,
      file,
      readFileSync(patient('S-104'), 'utf8').replace(/^patient: .*/m, `patient: ${JSON.stringify(code)}`),
    ),
  ];

  test('makes the folder and writes one sheet a person, whose code is in none of the names, and an index', () => {
    const dir = join(folder, 'sheets');
    const { code, out } = run(['dose', 'after-supper', ...two, '--output-dir', dir], { cwd: folder });
    expect({ code, out }).toEqual({ code: 0, out: '' });
    expect(readdirSync(dir)).toEqual(['after-supper-001.txt', 'after-supper-002.txt', 'index.md']);
    const one = readFileSync(join(dir, 'after-supper-001.txt'), 'utf8');
    expect(one).toContain('For S-103');
    expect(one).not.toContain('S-104');
    expect(one.split(CAUTION)).toHaveLength(2);
    const index = readFileSync(join(dir, 'index.md'), 'utf8');
    expect(index).toContain('| [after-supper-001.txt](after-supper-001.txt) | S-103 | 150 mL, 3 times a day');
    expect(index.split('For trained practitioners')).toHaveLength(2);
  });

  test('names the files by the codes where that is asked for', () => {
    const dir = join(folder, 'by-code');
    run(['dose', 'after-supper', ...two, '--output-dir', dir, '--codes-in-names'], { cwd: folder });
    expect(readdirSync(dir)).toEqual(['after-supper-S-103.txt', 'after-supper-S-104.txt', 'index.md']);
  });

  test('takes a whole folder of people, without the template', () => {
    put(folder, 'patients/TEMPLATE.yaml', 'patient: TEMPLATE\nasked: 2000-01-01\n');
    const dir = join(folder, 'everybody');
    for (const command of ['dose', 'check'])
      run(
        [command, 'after-supper', '--patients', 'patients', '--on', ON, '--output-dir', join(dir, command)],
        {
          cwd: folder,
        },
      );
    expect(readdirSync(join(dir, 'dose'))).toHaveLength(9);
    expect(readFileSync(join(dir, 'check', 'index.md'), 'utf8')).toContain(
      '| S-101 | Withhold: do not hand it over |',
    );
  });

  test('writes nothing where one of them is there already, unless forced', () => {
    const dir = join(folder, 'again');
    mkdirSync(dir);
    put(dir, 'after-supper-002.md', 'mine');
    const args = ['dose', 'after-supper', ...two, '--output-dir', dir, '--markdown'];
    const { code, err } = run(args, { cwd: folder });
    expect(code).toBe(2);
    expect(err).toMatch(/002\.md: it is there already.*--force/);
    expect(readdirSync(dir)).toEqual(['after-supper-002.md']);
    expect(readFileSync(join(dir, 'after-supper-002.md'), 'utf8')).toBe('mine');
    expect(run([...args, '--force'], { cwd: folder }).code).toBe(0);
    expect(readFileSync(join(dir, 'after-supper-002.md'), 'utf8')).toContain('# After-supper tea');
  });

  test('writes through no link, forced or not, and nothing beside the folder', () => {
    const dir = join(folder, 'linked');
    mkdirSync(dir);
    const outside = put(folder, 'outside.txt', 'mine');
    symlinkSync(outside, join(dir, 'after-supper-001.txt'));
    const ran = run(['dose', 'after-supper', ...two, '--output-dir', dir, '--force'], { cwd: folder });
    expect(ran.code).toBe(2);
    expect(ran.err).toContain('this is a link to somewhere else');
    expect(readFileSync(outside, 'utf8')).toBe('mine');
    expect(readdirSync(dir)).toEqual(['after-supper-001.txt']);
  });

  test('makes safe names of whatever the codes are, and keeps two alike apart', () => {
    const people = [
      ...named('../../etc/passwd', 'a.yaml'),
      ...named('S 1', 'b.yaml'),
      ...named('s/1', 'c.yaml'),
      ...named('\u001b[31m\u202e\u{1f33f}', 'd.yaml'),
    ];
    const dir = join(folder, 'odd');
    const args = ['--on', ON, '--json', '--output-dir', dir, '--codes-in-names'];
    run(['dose', 'after-supper', ...people, ...args], { cwd: folder });
    const names = readdirSync(dir).filter((n) => n !== 'index.md');
    expect(new Set(names.map((n) => n.toLowerCase())).size).toBe(4);
    for (const name of names) expect(name).toMatch(/^after-supper[A-Za-z0-9-]*\.json$/);
    expect(existsSync(join(folder, 'etc'))).toBe(false);
  });

  test('the index is one table in a Markdown reader, whatever stands in the codes', () => {
    const codes = ['a | b', '<b>bold</b>', '\u{1f33f} leaf', '\u202etfel', '[x](y) `z`', '=1+1'];
    const dir = join(folder, 'hostile');
    const people = codes.flatMap((code, i) => named(code, `hostile-${i}.yaml`));
    run(['dose', 'after-supper', ...people, '--on', ON, '--output-dir', dir], { cwd: folder });
    const index = readFileSync(join(dir, 'index.md'), 'utf8');
    const tree = unified().use(remarkParse).use(remarkGfm).parse(index);
    const [table, ...more] = tree.children.filter((n) => n.type === 'table');
    expect(more).toEqual([]);
    expect(table?.children).toHaveLength(codes.length + 1);
    for (const row of table?.children ?? []) expect(row.children).toHaveLength(4);
    expect(JSON.stringify(tree)).not.toContain('"html"');
    expect(index).not.toContain('\u202e');
    const links = JSON.stringify(tree).match(/"url":"[^"]*"/g) ?? [];
    expect(links).toHaveLength(codes.length);
  });
});
