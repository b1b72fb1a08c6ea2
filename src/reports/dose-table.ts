import type { HerbInFormula } from '../checking/case.ts';
import type { Against, Compared } from '../dosing/compare.ts';
import { writeAgeBand } from '../measure/age.ts';
import { type Figure, worked } from '../measure/figure.ts';
import { comparable, inUnit, type Quantity, type Range, rangeUnit } from '../measure/quantity.ts';
import { write } from '../measure/write.ts';
import { cite } from './cite.ts';
import { type Gauge, gaugesOf } from './gauge.ts';
import { letterOf } from './letters.ts';
import { textOf } from './pieces.ts';
import { type Block, type Item, type Line, sentence, words } from './sheet.ts';

/** How a herb stands beside everything published that can be compared with it, in a word or two. */
export function standing({ monograph, compared }: HerbInFormula): string {
  if (monograph === null) return 'no monograph';
  if (monograph.doses === 'none-read') return 'no dose was read';
  if (compared.length === 0) return 'none that applies';
  const told = compared.filter(isTold);
  if (told.length === 0) return 'not comparable';
  const outcomes = new Set(told.map((x) => x.outcome));
  if (told.some((x) => x.entry.limit === 'safety' && x.outcome === 'above')) return 'above a safety limit';
  const some = outcomes.size > 1 ? ' some' : '';
  if (outcomes.has('above')) return `above${some}`;
  return outcomes.has('below') ? `below${some}` : 'within';
}

const isTold = (x: Compared): boolean => x.outcome !== 'not comparable';

/** One herb: its doses beside the published ones, sources by letter, and what could not be compared. */
export function herbSection(h: HerbInFormula): Block {
  const told = h.compared.filter(isTold);
  const { rows, sources } = rowsOf(told, h);
  return {
    kind: 'section',
    title: `${h.herb}: ${standing(h)}`,
    blocks: [
      ...(rows.length > 0 ? [table(rows)] : [{ kind: 'lines', lines: [words(whyNone(h))] } as const]),
      { kind: 'list', items: [...sources, ...silentLines(h.compared.filter((x) => !isTold(x)))] },
    ],
  };
}

function whyNone({ monograph, compared }: HerbInFormula): string {
  if (monograph === null) return 'There is no monograph of this herb: nothing to compare with.';
  if (monograph.doses === 'none-read') return 'No dose of this herb was read.';
  return compared.length === 0
    ? 'No published dose is for this age and route.'
    : 'No published dose can be compared with this one.';
}

/** One published figure; several sources that print the same share a row. */
interface Row {
  readonly x: Compared;
  readonly a: Against;
  readonly letters: string[];
}

const ORDER = ['single', 'daily', 'weekly', 'concentration', 'times a day', 'times a week'] as const;
const MEASURE: Readonly<Record<Against['measure'], string>> = {
  single: 'at once',
  daily: 'a day',
  weekly: 'a week',
  concentration: 'strength',
  'times a day': 'a day',
  'times a week': 'a week',
};

function rowsOf(told: readonly Compared[], h: HerbInFormula): { rows: Row[]; sources: Item[] } {
  const rows = new Map<string, Row>();
  const letters = new Map<string, string>();
  const sources: Item[] = [];
  const cited = new Map<string, string>();
  for (const x of told) {
    const full = cite(x.cited);
    const whom = forWhom(x, h);
    const said = `${full} ${whom}`;
    const letter = letters.get(said) ?? letterOf(letters.size);
    if (!letters.has(said)) {
      const known = cited.get(full);
      sources.push({
        mark: letter,
        line: words(known === undefined ? `${full}: ${whom}` : `as ${known}: ${whom}`),
      });
      cited.set(full, known ?? letter);
      letters.set(said, letter);
    }
    for (const a of shownOf(x)) {
      const key = [a.measure, textOf(publishedLine(x, a)), a.implied, isSafety(x), outcomeOf(x, a)].join();
      const row = rows.get(key);
      if (row === undefined) rows.set(key, { x, a, letters: [letter] });
      else if (!row.letters.includes(letter)) row.letters.push(letter);
    }
  }
  const sorted = [...rows.values()].sort((p, q) => ORDER.indexOf(p.a.measure) - ORDER.indexOf(q.a.measure));
  return { rows: sorted, sources };
}

/** Single and daily, and any other figure that is exceeded. */
function shownOf(x: Compared): readonly Against[] {
  const main = x.against.filter(
    (a) => a.measure === 'single' || a.measure === 'daily' || a.outcome === 'above',
  );
  return main.length > 0 ? main : x.against;
}

function table(rows: readonly Row[]): Block {
  const gauges = gaugesFor(rows);
  return {
    kind: 'table',
    columns: [
      { head: '' },
      { head: 'taken', align: 'right' },
      { head: 'published', align: 'left' },
      { head: 'gauge' },
      { head: 'this is' },
      { head: 'by' },
    ],
    rows: rows.map((row, i): Line[] => [
      words(rows[i - 1]?.a.measure === row.a.measure ? '' : MEASURE[row.a.measure]),
      takenLine(row.a),
      publishedLine(row.x, row.a),
      gauges.get(row) ?? words(''),
      words(outcomeOf(row.x, row.a)),
      words(row.letters.join(', ')),
    ]),
  };
}

/** Rows that count the same thing over the same time share a scale; how often needs no gauge. */
function gaugesFor(rows: readonly Row[]): Map<Row, Gauge> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    if (row.a.dose.value.unit.dimension !== rangeUnit(row.a.published.value).dimension) continue;
    if (row.a.dose.value.unit.dimension === 'count') continue;
    const key = `${row.a.measure} ${row.x.entry.of ?? 'herb'} ${row.a.dose.step.says}`;
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return new Map(
    [...groups.values()].flatMap((group) => {
      const first = group[0] as Row;
      const drawn = gaugesOf(
        first.a.dose,
        group.map((r) => r.a.published),
      );
      return drawn.map((g, i) => [group[i] as Row, g] as const);
    }),
  );
}

/** The dose in the unit that the source prints, with the other unit beside it: mg read as g is a thousandfold slip. */
function takenLine({ dose, published }: Against): Line {
  const there = inPrintedUnit(dose, published);
  return there === dose ? dose : sentence`${there} (${dose})`;
}

function inPrintedUnit(dose: Figure<Quantity>, published: Figure<Range>): Figure<Quantity> {
  const unit = rangeUnit(published.value);
  if (unit.code === dose.value.unit.code || !comparable(unit, dose.value.unit)) return dose;
  return worked(inUnit(dose.value, unit), `${dose.step.says}, in ${unit.symbol}`, '{}', [dose]);
}

function publishedLine({ entry }: Compared, { published, implied }: Against): Line {
  const of = entry.of === undefined || entry.of === 'herb' || entry.of === 'preparation' ? null : entry.of;
  return [published, ...(of === null ? [] : [words(`of ${of}`)]), ...(implied ? [words(IMPLIED_MARK)] : [])];
}

const IMPLIED_MARK = '*';
export const IMPLIED_KEY = '* worked out from the single dose and the times a day that the source prints.';

/** True where a figure was not printed but follows from others, for the key below the tables. */
export function hasImplied(herbs: readonly HerbInFormula[]): boolean {
  return herbs.some((h) => h.compared.some((x) => isTold(x) && shownOf(x).some((a) => a.implied)));
}

const isSafety = (x: Compared): boolean => x.entry.limit === 'safety';

/** Above or below a usual dose is no breach of a range, and above a limit is more than that: the words keep them apart. */
function outcomeOf(x: Compared, a: Against): string {
  const of = isSafety(x) ? ' limit' : a.usual ? ' usual' : '';
  if (a.outcome === 'within') return a.usual && !isSafety(x) ? 'as usual' : `within${of}`;
  return `${isJust(a) ? 'just ' : ''}${a.outcome}${of}`;
}

/** Rounded for reading, dose and limit look the same, and are not. */
function isJust(a: Against): boolean {
  const { low, high } = a.published.value;
  const end = a.outcome === 'above' ? high : low;
  return end !== null && write(inPrintedUnit(a.dose, a.published).value) === write(end);
}

/** Whom a published dose is for, and for which preparation where it is printed for another kind of tea. */
function forWhom(x: Compared, { dose }: HerbInFormula): string {
  const { kind } = x.entry.preparation;
  return [
    `for ${x.entry.use?.join(', ') ?? 'any use'}`,
    x.entry.ages ? writeAgeBand(x.entry.ages) : 'adults',
    ...(dose === null || kind.some((k) => dose.kinds.includes(k))
      ? []
      : [`printed for the ${kind.join(' or ')}`]),
    ...(isSafety(x) ? ['not to be exceeded'] : []),
  ].join('; ');
}

function silentLines(silent: readonly Compared[]): Item[] {
  const byReason = new Map<string, Set<string>>();
  for (const x of silent) {
    const why = x.because ?? '';
    byReason.set(why, (byReason.get(why) ?? new Set()).add(x.cited.body));
  }
  return [...byReason].map(([why, bodies]) => words(`not comparable (${[...bodies].join(', ')}): ${why}`));
}
