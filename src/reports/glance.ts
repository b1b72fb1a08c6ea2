import { citeIn } from '../folder/cite-in.ts';
import type { DoseEntry, Monograph } from '../folder/schema/monograph.ts';
import { monthBar } from '../gathering/months.ts';
import { writeAgeBand } from '../measure/age.ts';
import { type Figure, given } from '../measure/figure.ts';
import { compareQuantities, type Quantity, type Range, rangeUnit } from '../measure/quantity.ts';
import { gaugesOf } from './gauge.ts';
import { type Block, type Line, words } from './sheet.ts';

/** One herb at a glance: what must not be missed, and its published ranges as bars on one scale. */

/** The lowest age that each source starts at, in a line; what is said of some preparations only says so. */
export function floorsOf(m: Monograph): string {
  const sorted = [...(m.ages ?? [])].sort((a, b) => a.not_under.months - b.not_under.months);
  const floors = [...new Set(sorted.map((a) => a.not_under.text))];
  return floors.length === 0 ? 'none read' : `not under ${floors.join(', ')}`;
}

export function stageOf(m: Monograph, stage: 'pregnancy' | 'breastfeeding'): string {
  const says = [...new Set((m[stage] ?? []).map((s) => s.says.replace(/-/g, ' ')))];
  return says.length === 0 ? 'nothing was read' : says.join('; ');
}

export const interactionsOf = (m: Monograph): string =>
  (typeof m.interactions === 'string' ? m.interactions : m.interactions.says).replace(/-/g, ' ');

export const gatherMonths = (m: Monograph): string =>
  m.gather?.months?.length ? monthBar(new Set(m.gather.months)) : 'not read';

export function glanceFacts(m: Monograph): { label: string; value: Line }[] {
  return [
    { label: 'ages', value: words(floorsOf(m)) },
    { label: 'pregnancy', value: words(stageOf(m, 'pregnancy')) },
    { label: 'breastfeeding', value: words(stageOf(m, 'breastfeeding')) },
    { label: 'interactions', value: words(interactionsOf(m)) },
    { label: 'gathered', value: words(gatherMonths(m)) },
  ];
}

interface Bar {
  readonly what: string;
  readonly range: Figure<Range>;
}

/** Doses by mouth in g of the herb, each printed range once, at once and a day apart. */
export function barsOf(
  m: Monograph,
): { readonly measure: 'at once' | 'a day'; readonly bars: readonly Bar[] }[] {
  if (m.doses === 'none-read') return [];
  const oral = m.doses.filter((e) => e.route === 'oral' && (e.of === undefined || e.of === 'herb'));
  const measures: readonly ['at once' | 'a day', 'single' | 'daily'][] = [
    ['at once', 'single'],
    ['a day', 'daily'],
  ];
  return measures.flatMap(([measure, key]) => {
    const seen = new Map<string, Bar>();
    for (const e of oral) {
      const range = e[key];
      if (!range || rangeUnit(range).dimension !== 'mass') continue;
      const bar = { what: whatOf(e), range: given(range, `${measure}, as published`, citeIn(m, e)) };
      const printed = [range.low, range.high]
        .map((q) => q && `${q.value.times(q.unit.size[0]).toFixed()}`)
        .join('-');
      const id = `${bar.what} ${printed}`;
      if (!seen.has(id)) seen.set(id, bar);
    }
    const bars = [...seen.values()].sort((a, b) => top(a.range.value, b.range.value));
    return bars.length > 0 ? [{ measure, bars }] : [];
  });
}

function whatOf({ preparation: { kind }, ages, limit }: DoseEntry): string {
  const kinds = kind.length > 3 ? 'most preparations' : kind.join(', ');
  return `${kinds}; ${ages ? writeAgeBand(ages) : 'adults'}${limit === 'safety' ? '; limit' : ''}`;
}

const end = (r: Range): Quantity => (r.high ?? r.low) as Quantity;
const top = (a: Range, b: Range): number => compareQuantities(end(a), end(b));

export function barBlocks(m: Monograph): Block[] {
  return barsOf(m).map(({ measure, bars }): Block => {
    const drawn = gaugesOf(
      null,
      bars.map((b) => b.range),
    );
    return {
      kind: 'table',
      columns: [{ head: measure }, { head: 'published', align: 'left' }, { head: 'range' }],
      rows: bars.map((b, i): Line[] => [words(b.what), b.range, drawn[i] ?? words('')]),
    };
  });
}
