import { type Exact, exact } from './exact.ts';
import { bad, ok, type Result } from './result.ts';
import { type Dimension, type Unit, unitByCode } from './units.ts';

/** A number and its unit. The number is exact decimal; the unit is an object, never a bare word. */
export interface Quantity {
  readonly value: Exact;
  readonly unit: Unit;
}

/** From low to high, both in one unit; a missing end is open and stays open. */
export interface Range {
  readonly low: Quantity | null;
  readonly high: Quantity | null;
}

export function quantity(value: string | number | Exact, unit: Unit | string): Quantity {
  const u = typeof unit === 'string' ? unitByCode(unit) : unit;
  if (!u) throw new Error(`no unit has the code ${String(unit)}`);
  return { value: exact(value), unit: u };
}

/** True when both measure the same thing, so that one can be turned into the other without more knowledge. */
export function comparable(a: Unit, b: Unit): boolean {
  return a.dimension === b.dimension;
}

/**
 * Converts within one dimension: value x from / to, multiplied before divided.
 * Mass to volume needs a density (`massToVolume`), drops need a count per mL (`dropsToVolume`); both are in liquid.ts.
 */
export function convert(q: Quantity, to: Unit): Result<Quantity> {
  if (q.unit === to) return ok(q);
  if (!comparable(q.unit, to)) {
    const why = `${q.unit.symbol} measures ${q.unit.dimension}, ${to.symbol} measures ${to.dimension}`;
    return bad(why + wanting(q.unit.dimension, to.dimension));
  }
  const value = q.value.times(q.unit.size[0]).times(to.size[1]).div(q.unit.size[1].times(to.size[0]));
  return ok({ value, unit: to });
}

/** What must be known besides, where two dimensions can be turned into each other at all. */
function wanting(from: Dimension, to: Dimension): string {
  const kinds = new Set<Dimension>([from, to]);
  if (kinds.has('mass') && kinds.has('volume')) return ': the density of the liquid is needed';
  if (kinds.has('drops') && (kinds.has('volume') || kinds.has('mass'))) {
    return ': the drops that this very dropper gives of this very liquid are needed, counted per mL';
  }
  return '';
}

/** As `convert`, for callers that have already made sure of the dimension. */
export function inUnit(q: Quantity, to: Unit): Quantity {
  const r = convert(q, to);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

const base = (q: Quantity, other: Quantity): Exact => q.value.times(q.unit.size[0]).times(other.unit.size[1]);

/**
 * Negative, zero or positive as a is less than, equal to or more than b. Both must be of one dimension.
 * Compared by cross multiplication, and two that agree to 40 figures are equal: what an unending quotient leaves at
 * its 60th figure must never put a dose above its limit.
 */
export function compareQuantities(a: Quantity, b: Quantity): number {
  sameKind(a, b);
  const [left, right] = [base(a, b), base(b, a)];
  const apart = left.minus(right);
  const nothing = left.abs().plus(right.abs()).times('1e-40');
  return apart.abs().lte(nothing) ? 0 : apart.comparedTo(0);
}

function sameKind(a: Quantity, b: Quantity): void {
  if (!comparable(a.unit, b.unit)) throw new TypeError(`${a.unit.symbol} beside ${b.unit.symbol}`);
}

export function plus(a: Quantity, b: Quantity): Quantity {
  return { value: a.value.plus(inUnit(b, a.unit).value), unit: a.unit };
}

export function minus(a: Quantity, b: Quantity): Quantity {
  return { value: a.value.minus(inUnit(b, a.unit).value), unit: a.unit };
}

export function times(q: Quantity, factor: Exact | number): Quantity {
  return { value: q.value.times(exact(factor)), unit: q.unit };
}

/** Throws where the divisor is 0. */
export function over(q: Quantity, divisor: Exact | number): Quantity {
  if (exact(divisor).isZero()) throw new RangeError(`${q.unit.symbol} divided by nothing`);
  return { value: q.value.div(exact(divisor)), unit: q.unit };
}

/** a / b as a bare number. Throws where they are not of one dimension or b is 0. */
export function ratioOf(a: Quantity, b: Quantity): Exact {
  sameKind(a, b);
  if (b.value.isZero()) throw new RangeError(`${a.unit.symbol} divided by nothing`);
  return base(a, b).div(base(b, a));
}

export function rangeIn(r: Range, to: Unit): Range {
  return { low: r.low && inUnit(r.low, to), high: r.high && inUnit(r.high, to) };
}

/** The unit of a range; a range with both ends open does not exist. */
export function rangeUnit(r: Range): Unit {
  const end = r.low ?? r.high;
  if (!end) throw new Error('a range with both ends open');
  return end.unit;
}

/** True when the range is one printed figure. */
export function isSingleFigure(r: Range): boolean {
  return r.low !== null && r.high !== null && compareQuantities(r.low, r.high) === 0;
}

export function timesRange(r: Range, factor: Exact | number): Range {
  return { low: r.low && times(r.low, factor), high: r.high && times(r.high, factor) };
}
