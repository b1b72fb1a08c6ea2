import { citeIn } from '../folder/cite-in.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import { type Cited, type Figure, given, worked } from '../measure/figure.ts';
import {
  comparable,
  compareQuantities,
  inUnit,
  type Quantity,
  type Range,
  rangeUnit,
} from '../measure/quantity.ts';
import { held } from '../measure/strength.ts';
import type { Unit } from '../measure/units.ts';
import { type Against, against, herbAgainst, isAbove, isBelow, takenAs } from './against.ts';
import { asDried, type HerbDose } from './equivalents.ts';
import { isAmount, type Published } from './published.ts';

/** A content of the herb as one source states it. */
interface Content {
  readonly range: Range;
  readonly cited: Cited;
}

/** What a dose holds of the constituent, at the least and at the most; null where a content leaves that end open. */
export interface Bounds {
  readonly least: Figure<Quantity> | null;
  readonly most: Figure<Quantity> | null;
  /** By the highest content that any source states, be it only a least one. */
  readonly highestStated: Figure<Quantity> | null;
}

/**
 * An entry that counts a constituent (`of: total salicin`). Every stated content of the herb, by mass (% m/m, mg/g)
 * or by volume (% v/m, mL/kg), says how much of it a dose holds, and the widest bounds count. Above when even the
 * least is above; within or below when even the most is; else it cannot be told, and that is said. How often it is
 * taken does not hang on the content and is compared as it is.
 */
export function markerAgainst(
  m: Monograph,
  dose: HerbDose,
  marker: string,
  published: readonly Published[],
): { against: Against[]; because: string | null } {
  const often = herbAgainst(
    dose,
    published.filter((p) => !isAmount(p.measure)),
  );
  const contents = contentsOf(m, marker);
  if (contents.length === 0) {
    return { against: often, because: `it counts ${marker}, and how much of it the herb holds was not read` };
  }
  let because: string | null = null;
  const amounts = published.flatMap((p): Against[] => {
    if (!isAmount(p.measure)) return [];
    const [taken] = takenAs(dose, asDried(dose), p.measure);
    if (taken === undefined) return [];
    const bounds = boundsOf(contents, taken, rangeUnit(p.range.value), `${marker}, ${p.measure}`);
    const judged = judge(p, bounds);
    if (judged === null) because ??= `it counts ${marker}, and ${whyOpen(bounds)}`;
    return judged === null ? [] : [judged];
  });
  return { against: [...amounts, ...often], because };
}

/** What the herb itself holds, as each source states it; contents of an oil or an extract of it are not the herb's. */
const contentsOf = (m: Monograph, marker: string): Content[] =>
  (m.constituents ?? []).flatMap((c): Content[] =>
    c.name === marker && c.content && c.in === undefined ? [{ range: c.content, cited: citeIn(m, c) }] : [],
  );

/** What so much of a herb holds of a constituent; null where no content of the herb was read. */
export function markerIn(m: Monograph, marker: string, herb: Figure<Quantity>, unit: Unit): Bounds | null {
  const contents = contentsOf(m, marker);
  return contents.length === 0 ? null : boundsOf(contents, herb, unit, marker);
}

function judge(p: Published, { least, most }: Bounds): Against | null {
  const range = p.range.value;
  if (least && isAbove(least.value, range)) return against(p, least, 'above');
  if (range.high === null) {
    if (most && isBelow(most.value, range)) return against(p, most, 'below');
    return least && !isBelow(least.value, range) ? against(p, least, 'within') : null;
  }
  if (!most || isAbove(most.value, range)) return null;
  return against(p, most, isBelow(most.value, range) ? 'below' : 'within');
}

function whyOpen({ least, most }: Bounds): string {
  if (least && most)
    return 'its stated content runs from below this figure to above it: the intake cannot be bounded closely enough';
  if (least) return 'only a least content was read: the intake cannot be bounded';
  if (most)
    return 'only a highest content was read, which is above this figure: the intake cannot be bounded';
  return 'no content was read in a measure that this figure can be set against: the intake cannot be bounded';
}

function boundsOf(contents: readonly Content[], herb: Figure<Quantity>, unit: Unit, says: string): Bounds {
  const fitting = contents.filter(({ range }) => {
    const some = held((range.low ?? range.high) as Quantity, herb.value);
    return some.ok && comparable(some.value.unit, unit);
  });
  const end = (which: 'low' | 'high', words: string): (Figure<Quantity> | null)[] =>
    fitting.map(({ range, cited }) => {
      const content = range[which];
      const holds = content && held(content, herb.value);
      if (!content || !holds?.ok) return null;
      const share = given(content, `content of the herb, ${words}`, cited);
      return worked(inUnit(holds.value, unit), `${says}, ${words}`, '{} of {}', [share, herb]);
    });
  const lows = end('low', 'at the least');
  const highs = end('high', 'at the most');
  const stated = [...lows, ...highs].filter((f) => f !== null);
  return { least: widest(lows, -1), most: widest(highs, 1), highestStated: widest(stated, 1) };
}

/** The smallest (-1) or largest (1) of the figures; null where one source leaves this end open. */
function widest(figures: readonly (Figure<Quantity> | null)[], sign: -1 | 1): Figure<Quantity> | null {
  return (
    figures.reduce<Figure<Quantity> | null | undefined>((a, b) => {
      if (a === undefined) return b;
      if (a === null || b === null) return null;
      return compareQuantities(b.value, a.value) * sign > 0 ? b : a;
    }, undefined) ?? null
  );
}
