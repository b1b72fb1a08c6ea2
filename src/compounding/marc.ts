import type { Pressing } from '../folder/schema/preparations.ts';
import { type Cited, type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, minus, type Quantity, quantity, type Range } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gram, millilitre, per } from '../measure/units.ts';
import { write } from '../measure/write.ts';

/** What each g of spent herb keeps of the liquid, as a range in mL/g, and who says so. */
export interface MarcKeeps {
  readonly range: Range;
  readonly says: string;
  readonly source?: Cited | undefined;
}

/** The practice's own figure for this herb, or the table's for the way of pressing. */
export function marcKeeps(
  p: { readonly marc?: Pressing | undefined; readonly keeps?: Quantity | undefined },
  table: (how: Pressing | 'not said') => MarcKeeps,
): MarcKeeps {
  if (p.keeps === undefined) return table(p.marc ?? 'not said');
  return { range: { low: p.keeps, high: p.keeps }, says: 'kept by each g of herb, from the formula' };
}

/** mL that so much spent herb keeps, at so many mL to the g. */
export const keptBy = (herb: Quantity, rate: Quantity): Quantity =>
  quantity(inUnit(herb, gram).value.times(inUnit(rate, per(millilitre, gram)).value), millilitre);

/**
 * What is in hand after parting: liquid - dry herb x what each g keeps, from the most that it keeps to the least.
 * Error: the herb keeps all of it.
 */
export function yieldOf(
  liquid: Figure<Quantity>,
  herb: Figure<Quantity>,
  keeps: MarcKeeps,
): Result<Figure<Range>> {
  const rate = given(keeps.range, keeps.says, keeps.source);
  const left = (end: Quantity | null): Quantity => {
    const kept = end ? keptBy(herb.value, end) : quantity(0, millilitre);
    return minus(liquid.value, kept);
  };
  const range = { low: left(keeps.range.high), high: left(keeps.range.low) };
  if (range.low.value.lte(0))
    return bad(
      `nothing is left: ${write(herb.value)} of herb may keep all of ${write(liquid.value)}: use more liquid or press it`,
    );
  return ok(worked(range, 'yield after parting, expected', '{} - {} x {}', [liquid, herb, rate]));
}
