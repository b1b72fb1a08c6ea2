import type { PreparationDosed } from '../folder/schema/monograph.ts';
import { parseRange, type Ratio } from '../measure/parse.ts';
import { compareQuantities, type Quantity, type Range } from '../measure/quantity.ts';
import { write, writeRatio } from '../measure/write.ts';
import type { DrawnDose } from './equivalents.ts';

/** Why a dose that a source states of its finished product is not set beside herb. */
export const COUNTS_FINISHED = 'it counts the finished preparation, not the herb';

/**
 * Whether a dose in mL that a source states for its own tincture or extract speaks of this one. Ratio and spirit must be
 * the same, for mL of another strength are another dose, and one is never turned into the other by its ratio.
 * Null where they are; else why not.
 */
export function whyNotTheSame(p: PreparationDosed, drawn: DrawnDose | null): string | null {
  if (drawn === null) return COUNTS_FINISHED;
  if (drawn.ratio === null)
    return p.ratio === undefined && p.solvent === undefined
      ? null
      : `it is for an oil in ${p.solvent ?? 'something'}`;
  if (p.ratio === undefined) return 'its source states no ratio';
  const ours = `1:${drawn.ratio.solvent.div(drawn.ratio.herb).toSignificantDigits(4).toFixed()}`;
  if (!ratioFits(p.ratio, drawn.ratio)) return `it is for ${writeRatio(p.ratio)}, and this is ${ours}`;
  const spirit = spiritOf(p.solvent);
  if (spirit === null)
    return p.solvent === undefined || drawn.spirit === null ? null : `it is drawn with ${p.solvent}`;
  if (drawn.spirit === null) return `it is drawn with ${p.solvent}, and this without spirit`;
  return strengthFits(spirit, drawn.spirit)
    ? null
    : `it is drawn with ${p.solvent}, and this with ${write(drawn.spirit)}`;
}

/** 1:5 against 1:4.5-5: solvent to herb within what is stated. */
function ratioFits({ herb, product }: Ratio, { herb: h, solvent }: NonNullable<DrawnDose['ratio']>): boolean {
  const ours = solvent.div(h);
  if (herb.low === null || herb.high === null || product.low === null || product.high === null) return false;
  return ours.gte(product.low.div(herb.high)) && ours.lte(product.high.div(herb.low));
}

interface SpiritStated {
  readonly range: Range;
  readonly basis: 'share v/v' | 'share m/m' | null;
}

/** The ethanol in the words of a source, such as `ethanol 45-53 % v/v`; null where it is another solvent. */
function spiritOf(solvent: string | undefined): SpiritStated | null {
  const [, figures, unit] = /\bethanol ([\d.]+(?:-[\d.]+)?) ?(% ?(?:v\/v|m\/m)?)/i.exec(solvent ?? '') ?? [];
  if (figures === undefined || unit === undefined) return null;
  const basis = /v\/v/.test(unit) ? 'share v/v' : /m\/m/.test(unit) ? 'share m/m' : null;
  const range = parseRange(`${figures} ${basis === 'share m/m' ? '% m/m' : '% v/v'}`);
  return range.ok ? { range: range.value, basis } : null;
}

/** A basis that the source does not give is taken to be by volume, as labels have it. */
function strengthFits({ range, basis }: SpiritStated, ours: Quantity): boolean {
  if (ours.unit.dimension !== (basis ?? 'share v/v')) return false;
  const { low, high } = range;
  return (
    (low === null || compareQuantities(ours, low) >= 0) &&
    (high === null || compareQuantities(ours, high) <= 0)
  );
}
