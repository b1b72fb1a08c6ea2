import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { writeProblem } from '../../src/folder/problem.ts';
import { readDocument } from '../../src/folder/read.ts';
import type { AgeFloor, DoseEntry, Monograph } from '../../src/folder/schema/monograph.ts';
import { type AgeBand, parseAge, parseAgeBand } from '../../src/measure/age.ts';
import type { Exact } from '../../src/measure/exact.ts';
import {
  NO_MEASURES as NONE,
  type NumberRange,
  parseNumberRange,
  parseRange,
} from '../../src/measure/parse.ts';
import { comparable, compareQuantities, type Quantity, type Range } from '../../src/measure/quantity.ts';
import type { Result } from '../../src/measure/result.ts';
import { writeNumberRange, writeRange } from '../../src/measure/write.ts';

/**
 * The published facts as they were gathered stand in `carried/`, one table a herb; here every one of their figures is
 * looked for in the herb's monograph, and every figure of the monograph in the table, so that none is lost or changed.
 *
 * A row is one entry of one source, with its figures as they were gathered, and besides:
 * - `from_words`: figures that were gathered in words (a note, a manner of making) and not as a figure of their own;
 * - `stands_under`: the source beside whose dose the monograph sets a figure that another source gave;
 * - `said_in` and `words`: the figure is no dose entry's, and stands in these words in that part of the monograph;
 * - `pinned`: the monograph's own figure, which was not among the gathered facts;
 * - `left_out`: why the monograph does not have it.
 */
interface Row extends Readonly<Partial<Record<RangeKey | NumberKey | TimeKey, string>>> {
  readonly entry: string;
  readonly kind?: string | readonly string[];
  readonly ages?: string;
  readonly content?: string;
  readonly not_under?: string;
  readonly source?: string;
  readonly reading?: string;
  readonly stands_under?: string;
  readonly said_in?: string;
  readonly words?: string;
  readonly from_words?: readonly string[];
  readonly pinned?: string;
  readonly left_out?: string;
}
interface Table {
  readonly herb: string;
  readonly figures: readonly Row[];
}

const RANGES = ['single', 'daily', 'weekly', 'in', 'steep', 'concentration'] as const;
const NUMBERS = ['times', 'times_a_week'] as const;
const TIMES = ['refer_after', 'stop_after'] as const;
const FIGURES = [...RANGES, ...NUMBERS, ...TIMES] as const;
type RangeKey = (typeof RANGES)[number];
type NumberKey = (typeof NUMBERS)[number];
type TimeKey = (typeof TIMES)[number];
type Key = (typeof FIGURES)[number];
const ROW_KEYS = new Set<string>([
  ...FIGURES,
  ...[
    'entry',
    'kind',
    'ages',
    'content',
    'not_under',
    'source',
    'reading',
    'stands_under',
    'said_in',
    'words',
  ],
  ...['from_words', 'pinned', 'left_out'],
]);

const root = new URL('../../', import.meta.url).pathname;
const place = new URL('carried/', import.meta.url).pathname;
const idsIn = (folder: string): string[] =>
  readdirSync(folder)
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => basename(f, '.yaml'))
    .sort();

const tables: readonly Table[] = idsIn(place).map((id) => {
  const text = readFileSync(join(place, `${id}.yaml`), 'utf8');
  return parse(text, { schema: 'failsafe' }) as Table;
});
const monographs = new Map<string, Monograph>();

beforeAll(async () => {
  for (const { herb } of tables) {
    const file = `monographs/${herb}.yaml`;
    if (!existsSync(join(root, file))) continue;
    const read = await readDocument('monograph', join(root, file), file);
    if (!read.ok) throw new Error(read.why.map(writeProblem).join('\n'));
    monographs.set(herb, read.value.value);
  }
});

const dosesOf = (m: Monograph): readonly DoseEntry[] => (m.doses === 'none-read' ? [] : m.doses);

// A figure that cannot be read is no figure: it equals nothing.
const orNull = <T>(r: Result<T>): T | null => (r.ok ? r.value : null);

const sameEnd = (a: Quantity | null, b: Quantity | null): boolean =>
  a === null || b === null ? a === b : comparable(a.unit, b.unit) && compareQuantities(a, b) === 0;
const sameNumber = (a: Exact | null, b: Exact | null): boolean =>
  a === null || b === null ? a === b : a.eq(b);

/** A share by volume in mass is so many mL in 100 g, and both are written. */
const sameRange = (text: string, has: Range | undefined): boolean =>
  has !== undefined &&
  [text, text.replace('% v/m', 'mL/100 g')].some((t) => {
    const r = orNull(parseRange(t, NONE));
    return r !== null && sameEnd(r.low, has.low) && sameEnd(r.high, has.high);
  });
const sameNumbers = (text: string, has: NumberRange | undefined): boolean => {
  const r = orNull(parseNumberRange(text));
  return r !== null && has !== undefined && sameNumber(r.low, has.low) && sameNumber(r.high, has.high);
};

const isOneOf = <K extends string>(keys: readonly K[], key: string): key is K =>
  (keys as readonly string[]).includes(key);

const single = (q: Quantity | undefined): Range | undefined => q && { low: q, high: q };

function sameFigure(key: Key, text: string, e: DoseEntry): boolean {
  if (isOneOf(NUMBERS, key)) return sameNumbers(text, e[key]);
  return sameRange(text, isOneOf(TIMES, key) ? single(e[key]) : e[key]);
}

/** Grams in a volume of water that the monograph holds as a concentration, for no dose of it is a single one. */
const asConcentration = (row: Row, e: DoseEntry): boolean =>
  row.single !== undefined &&
  row.in !== undefined &&
  row.concentration === undefined &&
  e.single === undefined &&
  sameRange(`${row.single}/${row.in}`, e.concentration);

const keysOf = (row: Row): Key[] => FIGURES.filter((k) => row[k] !== undefined);

/** The figures of the entry that the row's figures account for. */
function accounted(row: Row, e: DoseEntry): Key[] {
  const keys = keysOf(row);
  if (!asConcentration(row, e)) return keys;
  return [...keys.filter((k) => k !== 'single' && k !== 'in'), 'concentration'];
}

const differing = (row: Row, e: DoseEntry): Key[] => {
  const whole = asConcentration(row, e);
  return keysOf(row).filter(
    (k) => !(whole && (k === 'single' || k === 'in')) && !sameFigure(k, row[k] ?? '', e),
  );
};

const months = (b: AgeBand | null | undefined): string =>
  b ? `${b.from?.months ?? ''}-${b.under?.months ?? ''}` : 'none';
const sameAges = (row: Row, e: DoseEntry): boolean =>
  months(row.ages === undefined ? undefined : orNull(parseAgeBand(row.ages))) === months(e.ages);

const list = (of: string | readonly string[] | undefined): readonly string[] =>
  of === undefined ? [] : typeof of === 'string' ? [of] : of;

const readingOf = (m: Monograph, source: string, own: string | undefined): string | undefined =>
  own ?? m.sources[source]?.reading;

/** A figure set beside another source's dose keeps the reading of the text it was read in. */
const sameReading = (row: Row, m: Monograph, e: { source: string; reading?: string | undefined }): boolean =>
  row.reading ===
  (row.stands_under === undefined
    ? readingOf(m, e.source, e.reading)
    : readingOf(m, row.source ?? '', undefined));

const beside = (row: Row, e: DoseEntry): boolean =>
  e.source === (row.stands_under ?? row.source) &&
  list(row.kind).every((k) => (e.preparation.kind as readonly string[]).includes(k));

const holds = (row: Row, m: Monograph, e: DoseEntry): boolean =>
  beside(row, e) && sameAges(row, e) && differing(row, e).length === 0 && sameReading(row, m, e);

const floorHolds = (row: Row, m: Monograph, a: AgeFloor): boolean => {
  const age = orNull(parseAge(row.not_under ?? ''));
  return (
    age !== null &&
    a.source === row.source &&
    a.not_under.months === age.months &&
    list(row.kind).every((k) => ((a.preparation ?? []) as readonly string[]).includes(k)) &&
    sameReading(row, m, a)
  );
};

type Content = NonNullable<Monograph['constituents']>[number];
const contentHolds = (row: Row, m: Monograph, c: Content): boolean =>
  c.source === row.source && sameRange(row.content ?? '', c.content) && sameReading(row, m, c);

const sorted = (text: string): string => (text.match(/\d+(?:\.\d+)?/g) ?? []).sort().join(' ');

function saidIn(row: Row, m: Monograph): boolean {
  const of = (s: { source: string }): boolean => s.source === row.source;
  if (row.said_in === 'dry') {
    const { dry } = m;
    return (
      dry !== undefined &&
      of(dry) &&
      sameRange(row.content ?? '', dry.dry_moisture) &&
      sameReading(row, m, dry)
    );
  }
  const texts: readonly (string | undefined)[] =
    row.said_in === 'cautions'
      ? (m.cautions ?? []).filter(of).flatMap((c) => [c.why, c.note])
      : row.said_in === 'doses'
        ? dosesOf(m)
            .filter(of)
            .map((d) => d.note)
        : row.said_in === 'constituents'
          ? (m.constituents ?? []).filter(of).map((c) => c.note)
          : row.said_in === 'notes'
            ? (m.notes ?? [])
            : [];
  const figures = [...keysOf(row).map((k) => row[k]), row.content, row.not_under].filter(
    (f) => f !== undefined,
  );
  const words = row.words ?? '';
  return (
    figures.length === 1 &&
    sorted(figures[0] ?? '') === sorted(words) &&
    texts.some((t) =>
      new RegExp(`(?<![\\d.])${words.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')}(?!\\d|\\.\\d)`).test(t ?? ''),
    )
  );
}

function shown(e: DoseEntry, key: Key): string {
  if (isOneOf(NUMBERS, key)) return e[key] ? writeNumberRange(e[key]) : 'none';
  const r = isOneOf(TIMES, key) ? single(e[key]) : e[key];
  return r ? writeRange(r, 'exact') : 'none';
}

/** What the monograph has that is nearest to the row. */
function nearestTo(row: Row, m: Monograph): string {
  if (row.not_under !== undefined)
    return (m.ages ?? []).map((a) => `${a.not_under.text} (${a.source})`).join(', ') || 'no age floor';
  if (row.content !== undefined)
    return (
      (m.constituents ?? [])
        .filter((c) => c.source === row.source)
        .map((c) => `${c.name} ${c.content ? writeRange(c.content, 'exact') : 'none'}`)
        .join(', ') || 'no constituent of this source'
    );
  const near = dosesOf(m)
    .filter((e) => beside(row, e))
    .map((e) => ({ e, off: differing(row, e), ages: sameAges(row, e) }))
    .sort((a, b) => a.off.length + Number(!a.ages) - b.off.length - Number(!b.ages))[0];
  if (near === undefined) return `no dose of ${list(row.kind).join('/')} from ${row.source}`;
  const { e, off, ages } = near;
  return [
    ...off.map((k) => `${k} ${shown(e, k)}`),
    ...(ages ? [] : [`ages ${months(e.ages)} months`]),
    ...(sameReading(row, m, e) ? [] : [`reading ${readingOf(m, e.source, e.reading)}`]),
  ].join(', ');
}

const told = ({ entry, kind, from_words, words, ...rest }: Row): string =>
  Object.entries(rest)
    .map(([k, v]) => `${k} ${v}`)
    .join(', ');

const group = (row: Row): string =>
  JSON.stringify(
    Object.entries({ ...row, entry: '', from_words: '', kind: list(row.kind) }).sort(([a], [b]) =>
      a < b ? -1 : 1,
    ),
  );

/** What of the table is not so in the monograph, and what of the monograph's figures is not in the table. */
function faults({ herb, figures }: Table, m: Monograph): string[] {
  const found: string[] = [];
  const doses = dosesOf(m);
  const covered = new Map(doses.map((e) => [e, new Set<Key>()]));
  const contents = new Set<Content>();
  const floors = new Set<AgeFloor>();
  const alike = new Map<string, number>();
  for (const row of figures) alike.set(group(row), (alike.get(group(row)) ?? 0) + 1);
  for (const row of figures) {
    if (row.left_out !== undefined) continue;
    let places: number;
    if (row.said_in !== undefined) places = saidIn(row, m) ? Number.POSITIVE_INFINITY : 0;
    else if (row.content !== undefined) {
      const here = (m.constituents ?? []).filter((c) => contentHolds(row, m, c));
      for (const c of here) contents.add(c);
      places = here.length;
    } else if (row.not_under !== undefined) {
      const here = (m.ages ?? []).filter((a) => floorHolds(row, m, a));
      for (const a of here) floors.add(a);
      places = here.length;
    } else {
      const here = keysOf(row).length === 0 ? [] : doses.filter((e) => holds(row, m, e));
      for (const e of here) for (const k of accounted(row, e)) covered.get(e)?.add(k);
      places = here.length;
    }
    // Rows of the same words are as many entries: one of them changed must not hide behind another.
    if (places < (alike.get(group(row)) ?? 1))
      found.push(
        `${herb}, ${row.entry}: ${told(row)} is not in the monograph; nearest: ${nearestTo(row, m)}`,
      );
  }
  for (const [e, keys] of covered)
    for (const k of FIGURES)
      if (e[k] !== undefined && !keys.has(k))
        found.push(
          `${herb}, ${e.preparation.kind.join('/')} from ${e.source}: ${k} ${shown(e, k)} is in no table`,
        );
  for (const c of m.constituents ?? [])
    if (c.content !== undefined && !contents.has(c))
      found.push(`${herb}, ${c.name} from ${c.source}: ${writeRange(c.content, 'exact')} is in no table`);
  for (const a of m.ages ?? [])
    if (!floors.has(a)) found.push(`${herb}, age floor from ${a.source}: ${a.not_under.text} is in no table`);
  return found;
}

describe('the published facts as they were gathered', () => {
  it('have a table for every monograph, and a monograph for every table', () => {
    expect(tables.map((t) => t.herb)).toEqual(idsIn(join(root, 'monographs')));
    expect(tables.map((t) => t.herb)).toEqual(idsIn(place));
  });

  it('stand in rows of known keys, each with a figure and a source', () => {
    const odd = tables.flatMap(({ herb, figures }) =>
      figures
        .filter(
          (row) =>
            Object.keys(row).some((k) => !ROW_KEYS.has(k)) ||
            (keysOf(row).length === 0 && row.content === undefined && row.not_under === undefined) ||
            (row.source === undefined && row.said_in !== 'notes'),
        )
        .map((row) => `${herb}, ${row.entry}`),
    );
    expect(odd).toEqual([]);
  });

  it.each(tables.map((t) => [t.herb, t] as const))('are in the monograph of %s unchanged', (herb, table) => {
    const m = monographs.get(herb);
    // A table without its monograph is told of above.
    if (m !== undefined) expect(faults(table, m)).toEqual([]);
  });

  it('are left out only for a reason, and rarely', () => {
    const rows = tables.flatMap((t) => t.figures);
    const left = rows.filter((r) => r.left_out !== undefined);
    expect(left.filter((r) => (r.left_out ?? '').length < 20)).toEqual([]);
    expect(rows).toHaveLength(ROWS);
    expect(left).toHaveLength(LEFT_OUT);
    expect(rows.filter((r) => r.pinned !== undefined)).toHaveLength(PINNED);
  });
});

/** Rows of all tables, those with a reason why the monograph lacks them, and those that it alone has. */
const ROWS = 757;
const LEFT_OUT = 5;
const PINNED = 9;

/** Numbers from 0 to under 1 that are the same in every run. */
function numbersFrom(seed: number): () => number {
  let at = seed;
  return () => {
    at = (at * 1_103_515_245 + 12_345) % 2_147_483_648;
    return at / 2_147_483_648;
  };
}

const CHANGED = [...FIGURES, 'ages', 'content', 'not_under'] as const;

interface Slip {
  readonly table: Table;
  readonly says: string;
}

/** The table with one digit of one figure changed into another. */
function slip(
  table: Table,
  at: number,
  key: (typeof CHANGED)[number],
  digit: number,
  to: number,
): Slip | null {
  const row = table.figures[at];
  const text = row?.[key];
  if (row === undefined || text === undefined) return null;
  const places = [...text.matchAll(/\d/g)].map((d) => d.index);
  const where = places[digit % places.length];
  if (where === undefined || text[where] === String(to)) return null;
  const wrong = text.slice(0, where) + String(to) + text.slice(where + 1);
  const figures = table.figures.with(at, { ...row, [key]: wrong });
  return { table: { ...table, figures }, says: `${table.herb}, ${row.entry}: ${key} ${text} as ${wrong}` };
}

describe('one wrong digit', () => {
  it('is found, whichever figure of whichever table it is in', () => {
    const next = numbersFrom(20_260_502);
    const below = (n: number): number => Math.floor(next() * n);
    const missed: string[] = [];
    let tried = 0;
    while (tried < 400) {
      const table = tables[below(tables.length)];
      if (table === undefined || table.figures.length === 0) continue;
      const at = below(table.figures.length);
      const row = table.figures[at];
      const keys = CHANGED.filter((k) => row?.[k] !== undefined);
      const key = keys[below(keys.length)];
      if (row === undefined || key === undefined || row.left_out !== undefined) continue;
      const wrong = slip(table, at, key, below(8), below(10));
      if (wrong === null) continue;
      tried += 1;
      const m = monographs.get(table.herb);
      if (m !== undefined && faults(wrong.table, m).length === 0) missed.push(wrong.says);
    }
    expect(missed).toEqual([]);
  });
});
