import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  envelopes,
  type Json,
  ON,
  patient,
  practiceFolder,
  put,
  removeFolders,
  run,
  TEA,
} from './scruple.ts';

/**
 * What a file may hold that a terminal, a page or a spreadsheet would act upon: escapes that restyle, retitle or
 * erase, line breaks, a mark that turns the direction of writing, invisible characters, table bars, markup, formulas.
 */
const HOSTILE =
  '=1+1 \u001b[31mred\u001b[0m\u001b]0;title\u0007\u001b[2J \u009b31m \r over\nnext\ttab | bar \u202egnirts \u200b \u2028 <b>&` [x](y) \u{1f33f}';
/** As YAML takes it: nothing but ASCII between double quotes. */
const quoted = (text: string): string =>
  JSON.stringify(text).replace(
    /[\u007f-\uffff]/g,
    (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
const QUOTED = quoted(HOSTILE);

/** Nothing below a space but the line end, none of the C1 controls, no mark of direction, nothing invisible. */
const UNSAFE = /[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/;

let folder = '';
let args: string[][] = [];
beforeAll(() => {
  folder = practiceFolder('pr\u00e1ctica \u03a9 \u8584\u8377');
  put(
    folder,
    'formulas/river-tea.yaml',
    `${TEA.replace('River tea', QUOTED)
      .replace('parts: 1}', `parts: 1, note: ${QUOTED}}`)
      .replace('for: 7 days}', `for: 7 days, when: ${QUOTED}}`)}notes: [${QUOTED}]\n`,
  );
  put(
    folder,
    'odd person.yaml',
    readFileSync(patient('S-104'), 'utf8')
      .replace(/^patient: .*/m, `patient: ${quoted(HOSTILE.slice(0, 58))}`)
      .replace('medicines: []', `medicines: [${QUOTED}]`)
      .replace('conditions: []', `conditions: [${QUOTED}]`)
      .replace('allergies: []', `allergies: [${QUOTED}]`)
      .replace('taking: []', `taking: [{product: ${QUOTED}}]`),
  );
  const person = ['--patient', 'odd person.yaml', '--on', ON];
  args = [
    ['weigh', 'river-tea'],
    ['dose', 'river-tea', ...person],
    ['check', 'river-tea', ...person],
    ['show', 'river-tea'],
    ['list'],
  ];
});
afterAll(removeFolders);

describe('hostile text in a title, a note, directions, a code and every word of a person', () => {
  test('reaches the terminal with nothing in it that a terminal acts upon', () => {
    for (const a of args)
      for (const more of [[], ['--working']]) {
        const { code, out, err } = run([...a, ...more], { cwd: folder });
        expect(a[0] === 'check' ? [4, 5] : [0], a.join(' ')).toContain(code);
        expect(err).toBe('');
        expect(out).not.toMatch(UNSAFE);
        expect(out).toContain('\ufffd');
        expect(out).toContain('\u{1f33f}');
      }
  });

  test('reaches a page without markup, table bars or formulas of its own', () => {
    for (const a of args) {
      const { out } = run([...a, '--markdown'], { cwd: folder });
      expect(out).not.toMatch(UNSAFE);
      expect(out).not.toContain('<b>');
      expect(out).not.toMatch(/(?<!\\)\[x\]\(y\)/);
      expect(out).not.toMatch(/\| =1/);
      for (const block of out.split('\n\n').filter((b) => b.startsWith('|'))) {
        const cells = block
          .trimEnd()
          .split('\n')
          .map((row) => row.replace(/\\\|/g, '').split('|').length);
        expect(new Set(cells).size).toBe(1);
      }
    }
  });

  test('comes back whole out of JSON, though no raw control stands in it', () => {
    for (const a of args) {
      const ran = run([...a, '--json'], { cwd: folder });
      expect(ran.out).not.toMatch(UNSAFE);
      expect(envelopes(ran)).toHaveLength(1);
    }
    const [shown] = envelopes(run(['show', 'river-tea', '--json'], { cwd: folder }));
    expect(shown.result.title).toBe(HOSTILE);
    expect(shown.result.ingredients[0].note).toBe(HOSTILE);
    const [judged] = envelopes(run([...(args[2] as string[]), '--json'], { cwd: folder }));
    expect(judged.result.patient).toBe(HOSTILE.slice(0, 58));
    expect(judged.findings.map((f: Json) => f.rule)).toContain('unknown-word');
  });
});

describe('hostile text in a fault', () => {
  test.each([
    ['a key', `${TEA}"\\e[31m\\u202ekey": 1\n`],
    ['a value', TEA.replace('12 g', '"12 \\e[31m\\u202eg"')],
    ['a raw byte', TEA.replace('12 g', '12 \u001b[31mg')],
    ['an id', TEA.replace('river-tea', '"\\e]0;x\\a"')],
  ])('%s is told without it', (_, text) => {
    put(folder, 'formulas/spoilt.yaml', text.replace('formula: river-tea', 'formula: spoilt'));
    const ran = run(['weigh', 'spoilt'], { cwd: folder });
    expect(ran.code).toBe(2);
    expect(ran.out).toBe('');
    expect(ran.err).not.toMatch(UNSAFE);
  });

  test('the command line is told without it', () => {
    const word = '\u001b[31m\u202ex\u009b';
    for (const a of [
      ['weigh', word],
      ['weigh', 'river-tea', '--make', word],
      ['weigh', 'river-tea', '--have', `${word}=1 g`],
      ['show', word],
      ['convert', `1 ${word}`, 'mL'],
      ['check', 'river-tea', '--patient', word],
      ['check', 'river-tea', '--age', word],
      ['list', word],
      ['list', '--folder', word],
      ['list', '--on', word],
      ['validate', word],
      [word],
      ['weigh', 'river-tea', `--${word}`],
      ['weigh', 'river-tea', '--output', `none/${word}`],
    ]) {
      const ran = run(a, { cwd: folder });
      expect(ran.code, JSON.stringify(a)).toBe(2);
      expect(ran.out).toBe('');
      expect(ran.err, JSON.stringify(a)).not.toMatch(UNSAFE);
    }
  });
});

test('a folder and files with spaces and letters of any script are found, written to and named', () => {
  put(folder, '\u0441\u0430\u0434 \u8584\u8377.yaml', readFileSync(patient('S-104'), 'utf8'));
  const { code, out } = run(
    ['dose', 'after-supper', '--patient', '\u0441\u0430\u0434 \u8584\u8377.yaml', '--on', ON],
    { cwd: folder },
  );
  expect(code).toBe(0);
  expect(out).toContain("--patient '\u0441\u0430\u0434 \u8584\u8377.yaml'");
  const file = '\u0447\u0430\u0439 1.txt';
  expect(run(['weigh', 'after-supper', '--output', file], { cwd: folder }).code).toBe(0);
  expect(readdirSync(folder)).toContain(file);
  expect(run(['weigh', 'after-supper', '--output', file], { cwd: folder }).err).toContain(file);
  expect(run(['validate', '\u0441\u0430\u0434 \u8584\u8377.yaml'], { cwd: folder }).code).toBe(0);
});

test('an id never leaves the folder', () => {
  for (const id of [
    '../formulas/after-supper',
    '/etc/passwd',
    'a/b',
    '..',
    'after-supper.yaml',
    'After-supper',
  ])
    for (const command of ['weigh', 'dose', 'check']) {
      const { code, err } = run([command, id], { cwd: folder });
      expect(code).toBe(2);
      expect(err).toMatch(/there is no formula/);
    }
});
