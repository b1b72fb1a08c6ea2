import stringWidth from 'string-width';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  CAUTION,
  CODES,
  envelopes,
  FORMULAS,
  json,
  ON,
  POURED,
  patient,
  practiceFolder,
  removeFolders,
  run,
} from './scruple.ts';

/** Every sheet of the shipped library and the invented practice, as it reaches a pipe. */

const PEOPLE = CODES.flatMap((code) => ['--patient', patient(code)]);
const flags = (f: string): string[][] => [
  ['weigh', f],
  ['weigh', f, '--make', POURED.includes(f) ? '7 mL' : '7 g'],
  ['weigh', f, '--working'],
  ['dose', f, ...PEOPLE, '--on', ON],
  ['dose', f],
  ['check', f, ...PEOPLE, '--on', ON],
  ['check', f],
  ['check', f, '--medicine', 'warfarn', '--on', ON],
  ['show', f],
];

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

const widest = (text: string): string =>
  text.split('\n').reduce((most, line) => (stringWidth(line) > stringWidth(most) ? line : most), '');

function sound(args: readonly string[], sheets: number): void {
  const { code, out, err } = run(args, { cwd: folder });
  const name = args.slice(0, 2).join(' ');
  expect([0, 3, 4, 5], name).toContain(code);
  expect(err).toBe('');
  expect(stringWidth(widest(out)), widest(out)).toBeLessThanOrEqual(80);
  expect(out, name).not.toMatch(/[ \t]\n/);
  expect(out, name).not.toMatch(/\n\n\n/);
  expect(out, name).not.toMatch(/\b(undefined|null|NaN|Infinity|\[object)\b/);
  expect(out.split(CAUTION), name).toHaveLength(sheets + 1);
}

describe('every sheet is at most 80 columns wide and carries the caution exactly once', () => {
  test.each(FORMULAS)('%s, for everybody and nobody', (formula) => {
    for (const args of flags(formula)) sound(args, args.includes(patient('S-101')) ? CODES.length : 1);
  });

  test('every monograph', () => {
    for (const { herb } of json(['list', 'herbs'], { cwd: folder }).result.herbs) sound(['show', herb], 1);
  }, 120_000);

  test('the same in Markdown', () => {
    for (const command of ['weigh', 'dose', 'check', 'show']) {
      const { out } = run([command, 'stiff-joints', '--markdown'], { cwd: folder });
      expect(out.split('> For trained practitioners')).toHaveLength(2);
    }
  });
});

test('the whole of a monograph is on its sheet: every dose, every caution, every source', () => {
  const flat = (text: string): string => text.replace(/[\s-]+/g, '');
  for (const { herb } of json(['list', 'herbs'], { cwd: folder }).result.herbs) {
    const [{ result }] = envelopes(run(['show', herb, '--json'], { cwd: folder }));
    const sheet = flat(run(['show', herb], { cwd: folder }).out);
    for (const source of Object.values<{ title: string }>(result.sources))
      expect(sheet, herb).toContain(flat(source.title));
    expect(sheet).toContain(flat(result.names.latin));
    if (result.interactions === 'not-read') expect(sheet).toContain(flat('not read, which does not mean'));
  }
}, 120_000);
