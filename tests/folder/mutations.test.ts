import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { FileKind } from '../../src/folder/kinds.ts';
import { readText } from '../../src/folder/read.ts';

/** Slips of the hand: whatever is done to a file, it is read, or it is told where it is wrong. */

const root = new URL('../../', import.meta.url).pathname;
const PLACES = { monograph: 'monographs', formula: 'formulas', patient: 'tests/practice/patients' } as const;
const SINGLE = {
  practice: 'tests/practice/practice.yaml',
  uses: 'monographs/reference/uses.yaml',
  water: 'monographs/reference/water.yaml',
};

const file = (kind: string, path: string) => ({
  kind: kind as FileKind,
  name: basename(path, '.yaml'),
  text: readFileSync(join(root, path), 'utf8'),
});

const FILES = [
  ...Object.entries(PLACES).flatMap(([kind, place]) =>
    readdirSync(join(root, place))
      .filter((f) => f.endsWith('.yaml'))
      .map((f) => file(kind, join(place, f))),
  ),
  ...Object.entries(SINGLE).map(([kind, path]) => file(kind, path)),
];

// biome-ignore format: a list
const SCRAPS = [
  ' ', '\n', '\t', ':', ': ', ',', '-', '- ', '"', "'", '[', ']', '{', '}', '#', ' #', '&a ', '*a', '!', '!!binary ', '|', '>', '?', '%', '@', '`', '\\',
  '---\n', '...\n', '<<: ', '\0', '\r', '\ufeff', '\ud800', '\u202e', '\u2028', '5', '1e400', '-', '0', '.5', 'null', '~', '__proto__: a\n', 'constructor', '{}', '[]', '""', 'a: b\n',
  '  ', '\n\n', '%YAML 1.1\n', '1/0', 'g', 'NaN',
];

type Change = (text: string) => string;

const place = fc.double({ min: 0, max: 1, maxExcluded: true, noNaN: true });
const span = fc.integer({ min: 1, max: 12 });
const at = (text: string, where: number): number => Math.floor(where * (text.length + 1));
const withLines = (text: string, change: (lines: string[], i: number) => void, where: number): string => {
  const lines = text.split('\n');
  change(lines, Math.floor(where * lines.length));
  return lines.join('\n');
};

const change: fc.Arbitrary<Change> = fc.oneof(
  fc.tuple(place, span).map(
    ([w, n]): Change =>
      (t) =>
        t.slice(0, at(t, w)) + t.slice(at(t, w) + n),
  ),
  fc.tuple(place, span).map(
    ([w, n]): Change =>
      (t) =>
        t.slice(0, at(t, w) + n) + t.slice(at(t, w)),
  ),
  fc.tuple(place, fc.constantFrom(...SCRAPS)).map(
    ([w, s]): Change =>
      (t) =>
        t.slice(0, at(t, w)) + s + t.slice(at(t, w)),
  ),
  fc.tuple(place, fc.constantFrom(...SCRAPS)).map(
    ([w, s]): Change =>
      (t) =>
        t.slice(0, at(t, w)) + s + t.slice(at(t, w) + 1),
  ),
  place.map(
    (w): Change =>
      (t) =>
        withLines(t, (lines, i) => lines.splice(i, 1), w),
  ),
  place.map(
    (w): Change =>
      (t) =>
        withLines(t, (lines, i) => lines.splice(i, 0, lines[i] ?? ''), w),
  ),
  fc.tuple(place, span).map(
    ([w, n]): Change =>
      (t) =>
        withLines(t, (lines, i) => lines.push(...lines.splice(i, n)), w),
  ),
  place.map(
    (w): Change =>
      (t) =>
        t.slice(0, at(t, w)),
  ),
  place.map(
    (w): Change =>
      (t) =>
        withLines(
          t,
          (lines, i) => {
            lines[i] = ` ${lines[i] ?? ''}`;
          },
          w,
        ),
  ),
);

const WORDS_OF_A_LIBRARY =
  /undefined|\[object|Invalid|invalid|expected |NaN"? is NaN|union|discriminator|mapping|scalar|token/;

it('a file with slips is read, or every slip is told with a place in it', async () => {
  let slowest = 0;
  let wrong = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...FILES),
      fc.array(change, { minLength: 1, maxLength: 5 }),
      async ({ kind, name, text }, changes) => {
        const slipped = changes.reduce((t, c) => c(t), text);
        const started = performance.now();
        const read = await readText(kind, slipped, 'file.yaml', name, 'hash');
        slowest = Math.max(slowest, performance.now() - started);
        if (read.ok) {
          expect(read.value.value).toBeTypeOf('object');
          return;
        }
        wrong += 1;
        const lines = slipped.replace(/^\ufeff/, '').split(/\r\n|\r|\n/);
        expect(read.why.length).toBeGreaterThan(0);
        for (const { file, line, column, message, excerpt } of read.why) {
          expect(file).toBe('file.yaml');
          expect(line).toBeGreaterThanOrEqual(1);
          expect(line).toBeLessThanOrEqual(lines.length);
          expect(column).toBeGreaterThanOrEqual(1);
          expect(column).toBeLessThanOrEqual((lines[(line ?? 1) - 1]?.length ?? 0) + 1);
          expect(excerpt).toBeTypeOf('string');
          expect(`${message}${excerpt}`).not.toMatch(/\p{Cc}/u);
          expect(message).not.toMatch(WORDS_OF_A_LIBRARY);
        }
      },
    ),
    { numRuns: 600, seed: 20260502, interruptAfterTimeLimit: 8000, markInterruptAsFailure: false },
  );
  expect(slowest).toBeLessThan(2000);
  // Were every file still read, or none, the slips would prove nothing.
  expect(wrong).toBeGreaterThan(50);
});
