import { Decimal } from 'decimal.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  APPLIED,
  CODES,
  envelopes,
  FORMULAS,
  type Json,
  ON,
  POURED,
  patient,
  practiceFolder,
  removeFolders,
  run,
} from './scruple.ts';

/**
 * Every number with a unit that the program worked out or was given must be the result of a line of the working.
 * The printed sheets are walked as text, so that no figure can get past by being written in words.
 */

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

const UNITS =
  '% [mvw]/[mvw]|g/100 mL|g/mL|drops/mL|g|mg|kg|micrograms?|mL|L|mL/g|%|capsules?|suppositor(?:y|ies)|drops|days?|weeks?|doses?|pots?|times?|min|h|imp pints?|level scoops?';
const NUMBER = '-?\\d+(?:,\\d{3})*(?:\\.\\d+)?';
const QUANTITY = new RegExp(`(?<![\\w./-])(?:(${NUMBER}) to )?(${NUMBER}) (${UNITS})(?![\\w/])`, 'g');

/** Rounded for reading, as the sheets say they do: tenths from 100 up, hundredths from 1, three figures below. */
function readable(text: string): string {
  return text.replace(new RegExp(NUMBER, 'g'), (found) => {
    const n = new Decimal(found.replace(/,/g, ''));
    const size = n.abs();
    const cut = size.gte(100)
      ? n.toDecimalPlaces(1, Decimal.ROUND_HALF_EVEN)
      : size.gte(1)
        ? n.toDecimalPlaces(2, Decimal.ROUND_HALF_EVEN)
        : size.isZero()
          ? n
          : n.toSignificantDigits(3, Decimal.ROUND_HALF_EVEN);
    const [whole = '', part] = cut.toFixed().split('.');
    const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, ',');
    return part === undefined ? grouped : `${grouped}.${part}`;
  });
}

/** What the working comes to, each result as it stands and rounded for reading. */
function resultsOf(envelope: Json): Set<string> {
  const results: string[] = envelope.result.working.map((line: Json) => line.result);
  return new Set(results.flatMap((r) => [r, readable(r)]));
}

const isKnown = (from: string | undefined, to: string, unit: string, known: Set<string>): boolean =>
  from === undefined
    ? ['', 'up to ', 'at least '].some((limit) => known.has(`${limit}${to} ${unit}`))
    : known.has(`${from} to ${to} ${unit}`) || (known.has(`${from} ${unit}`) && known.has(`${to} ${unit}`));

/** Holds every quantity in the text against the working, and tells how many there were. */
function held(text: string, known: Set<string>): number {
  const found = [...text.matchAll(QUANTITY)];
  for (const [whole, from, to = '', unit = ''] of found)
    expect(isKnown(from, to, unit, known), `"${whole}" in: ${text}`).toBe(true);
  return found.length;
}

/** The sheet above its working, and the working with its lines joined. */
function parted(sheet: string): { above: string; working: string } {
  const [above = '', below = ''] = sheet.split(/^Working$/m);
  return { above, working: below.replace(/\s+/g, ' ') };
}

/** The numbers of a table whose heads name the unit, such as `weigh (g)`, with that unit. */
function columns(above: string): string[] {
  const lines = above.split('\n');
  const at = lines.findIndex((l) => /^(herb|liquid)\b.*\((g|mL|%)\)/.test(l));
  const units = [...(lines[at] ?? '').matchAll(/\((g|mL|%)\)/g)].map(([, unit]) => unit);
  const end = lines.indexOf('', at);
  return lines
    .slice(at + 1, end)
    .filter((l) => !/^-+$/.test(l))
    .flatMap((row) => {
      const cells = row.trim().split(/ {2,}/).slice(1);
      return cells.map((cell, i) => `${cell} ${units[i]}`);
    });
}

/** Text of the library, which no sum of ours stands behind: references, reasons, and who the person is. */
const ofOurs = (above: string): string =>
  above
    .split('\n')
    .filter((line) => !/^(For .*;| {2}[a-z]{1,2} \S| {4}\S| {2}- not comparable)/.test(line))
    .join('\n');

describe.each(FORMULAS)('%s', (formula) => {
  const both = (args: readonly string[]): { sheets: string; all: Json[] } => ({
    sheets: run([...args, '--working'], { cwd: folder }).out,
    all: envelopes(run([...args, '--working', '--json'], { cwd: folder })),
  });
  const people = [...CODES.flatMap((code) => ['--patient', patient(code)]), '--on', ON];

  const sizes = [
    [],
    ['--make', POURED.includes(formula) ? '77.7 mL' : '77.7 g'],
    ...(APPLIED.includes(formula) ? [] : [['--days', '3']]),
  ];
  test.each(sizes.map((more) => [more]))('the weighing sheet %j', (more) => {
    const { sheets, all } = both(['weigh', formula, ...more]);
    const known = resultsOf(all[0]);
    const { above, working } = parted(sheets);
    for (const line of all[0].result.working) expect(working).toContain(line.result);
    const cells = columns(above);
    expect(cells.length).toBeGreaterThanOrEqual(5);
    for (const cell of cells) expect(known.has(cell), `${cell} in the table`).toBe(true);
    expect(held(above.replace(/\n +/g, ' '), known)).toBeGreaterThan(APPLIED.includes(formula) ? 1 : 4);
  });

  test('the dose sheet of everybody', () => {
    const { sheets, all } = both(['dose', formula, ...people]);
    const each = sheets.split(/^(?=.*: doses\n=)/m);
    expect(each).toHaveLength(CODES.length);
    each.forEach((sheet, i) => {
      const { above, working } = parted(sheet);
      for (const line of all[i].result.working) expect(working).toContain(line.result);
      expect(held(ofOurs(above), resultsOf(all[i]))).toBeGreaterThan(APPLIED.includes(formula) ? 1 : 6);
    });
  });

  test('the check sheet of everybody: how it is taken, and what the rules on doses and courses say', () => {
    const { sheets, all } = both(['check', formula, ...people]);
    const each = sheets.split(/^(?=(?:Withhold|Ask first|Decide|Clear)\b.*\n=)/m);
    expect(each).toHaveLength(CODES.length);
    each.forEach((sheet, i) => {
      const { above, working } = parted(sheet);
      for (const line of all[i].result.working) expect(working).toContain(line.result);
      const judged = above.slice(
        above.indexOf('\nJudged\n'),
        above.indexOf('  medicines ', above.indexOf('\nJudged\n')),
      );
      expect(held(judged.replace(/\s+/g, ' '), resultsOf(all[i]))).toBeGreaterThan(1);
      const blocks = above.split('\n\n').filter((block) => /^(WITHHOLD|ASK|DECIDE|NOTE)\b/.test(block));
      // What is said of several herbs alike is one block that bears the id of each.
      const idsIn = (block: string): string[] =>
        all[i].findings
          .map((f: Json) => f.id)
          .filter((id: string) => block.replace(/-\s+/g, '-').replace(/\s+/g, ' ').includes(`${id} basis`));
      expect(blocks.flatMap(idsIn).sort()).toEqual(all[i].findings.map((f: Json) => f.id).sort());
      for (const block of blocks) {
        const rule = idsIn(block)[0]?.split('/')[0];
        if (rule !== 'dose' && rule !== 'course' && rule !== 'stale-answer') continue;
        const said = (block.split(/^ +Source: /m)[0] ?? '').replace(/\s+/g, ' ');
        held(said, resultsOf(all[i]));
      }
    });
  });
});

test('a conversion shows its sum, with the size of both measures in it', () => {
  const { out } = run(['convert', '2 imp pint', 'US pint', '--working'], { cwd: folder });
  const shown = /2 imp pints +([\d.]+) US pints/.exec(out)?.[1] ?? '';
  const line = /\[2\] converted: (.*) = ([\d.]+) US pints/.exec(out.replace(/\s+/g, ' '));
  expect(line?.[1]).toBe('2 imp pints [1] x 568.26125 mL per imp pint / 473.176473 mL per US pint');
  expect(shown.startsWith(line?.[2] ?? 'x')).toBe(true);
});
