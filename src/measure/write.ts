import { type Exact, exact } from './exact.ts';
import type { NumberRange, Ratio } from './parse.ts';
import { isSingleFigure, type Quantity, type Range } from './quantity.ts';
import { percent, type Unit } from './units.ts';

/**
 * Safe writing of figures, after the published lists of error-prone dose designations (Joint Commission official
 * "Do Not Use" list; ISMP list of error-prone abbreviations; NHS CUI medication line guidance MEDi-014 to 017):
 * no trailing zero, always a leading zero, a comma between thousands from 1,000, a space before the unit,
 * mL and never cc, microgram in full. A comma is written but never accepted when read.
 */

/** Plain decimal text with thousands set apart. Throws on what is no number, so that it never reaches a label. */
export function writeNumber(value: Exact): string {
  if (!value.isFinite()) throw new RangeError(`${value.toString()} cannot be written`);
  const [whole = '0', part] = value.toFixed().split('.');
  const grouped = whole.replace(/\B(?=(\d{3})+(?!\d))/g, ',');
  return part === undefined ? grouped : `${grouped}.${part}`;
}

/**
 * Rounded for reading, half to even: tenths from 100 up, hundredths from 1 up, three significant figures below.
 * Only for showing; nothing is computed from it. Figures to be weighed or measured are rounded by their own step.
 */
export function readable(value: Exact): Exact {
  const size = value.abs();
  if (size.gte(100)) return value.toDecimalPlaces(1, 6);
  if (size.gte(1)) return value.toDecimalPlaces(2, 6);
  return size.isZero() ? value : value.toSignificantDigits(3, 6);
}

function unitFor(value: Exact, unit: Unit): string {
  return unit.plural !== undefined && !value.eq(1) ? unit.plural : unit.symbol;
}

/** `1.33 g`, `189.4 mL`, `250 micrograms`; exactly as it is with `as: 'exact'`. */
export function write(q: Quantity, as: 'readable' | 'exact' = 'readable'): string {
  const value = as === 'exact' ? q.value : readable(q.value);
  return `${writeNumber(value)} ${unitFor(value, q.unit)}`;
}

/** `1.5 to 4 g`, `up to 8 g`, `at least 4 % m/m`, `2 g`. The word "to", because a dash is misread as a minus. */
export function writeRange(r: Range, as: 'readable' | 'exact' = 'readable'): string {
  const show = (q: Quantity): string => write(q, as);
  if (r.low && r.high) {
    const [low, high] = [show(r.low), show(r.high)];
    if (isSingleFigure(r) || low === high) return high;
    if (r.low.unit.code !== r.high.unit.code) return `${low} to ${high}`;
    return `${writeNumber(as === 'exact' ? r.low.value : readable(r.low.value))} to ${high}`;
  }
  if (r.high) return `up to ${show(r.high)}`;
  return r.low ? `at least ${show(r.low)}` : '';
}

export function writeNumberRange(r: NumberRange): string {
  if (r.low && r.high)
    return r.low.eq(r.high) ? writeNumber(r.high) : `${writeNumber(r.low)} to ${writeNumber(r.high)}`;
  if (r.high) return `up to ${writeNumber(r.high)}`;
  return r.low ? `at least ${writeNumber(r.low)}` : '';
}

/** A ratio in the trade's own notation, `1:5` or `4-6:1`; it names a proportion of herb, never the strength of a dose. */
export function writeRatio(r: Ratio): string {
  const side = (n: NumberRange): string =>
    n.low && n.high && !n.low.eq(n.high)
      ? `${n.low.toFixed()}-${n.high.toFixed()}`
      : (n.high ?? n.low ?? exact(0)).toFixed();
  return `${side(r.herb)}:${side(r.product)}`;
}

/** The machine form of a quantity: decimal text (12 significant digits where it does not end) and the UCUM code. */
export interface QuantityJson {
  readonly value: string;
  readonly unit: string;
}

/** Decimal text for machines: as it is where it ends within 40 digits, else 12 significant digits. */
export function numberJson(value: Exact): string {
  if (!value.isFinite()) throw new RangeError(`${value.toString()} cannot be written`);
  return value.decimalPlaces() > 40 || value.precision() > 40
    ? value.toSignificantDigits(12, 6).toFixed()
    : value.toFixed();
}

export function quantityJson(q: Quantity): QuantityJson {
  return { value: numberJson(q.value), unit: q.unit.code };
}

export interface RangeJson {
  readonly low: QuantityJson | null;
  readonly high: QuantityJson | null;
}

export function rangeJson(r: Range): RangeJson {
  return { low: r.low && quantityJson(r.low), high: r.high && quantityJson(r.high) };
}

export function asPercent(share: Exact): Quantity {
  return { value: share.times(100), unit: percent };
}
