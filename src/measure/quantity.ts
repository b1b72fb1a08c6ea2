import { type Exact, exact } from './exact.ts';
import { bad, ok, type Result } from './result.ts';
import { type Unit, unitByCode } from './units.ts';

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
 * Mass to volume needs a density (`massToVolume`), drops need a count per mL (`dropsToVolume`).
 */
export function convert(q: Quantity, to: Unit): Result<Quantity> {
  if (q.unit === to) return ok(q);
  if (!comparable(q.unit, to)) return bad(`${q.unit.symbol} measures ${q.unit.dimension}, ${to.symbol} measures ${to.dimension}`);
  const value = q.value
    .times(q.unit.size[0])
    .times(to.size[1])
    .div(q.unit.size[1].times(to.size[0]));
  return ok({ value, unit: to });
}

/** As `convert`, for callers that have already made sure of the dimension. */
export function inUnit(q: Quantity, to: Unit): Quantity {
  const r = convert(q, to);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

/** Negative, zero or positive as a is less than, equal to or more than b. Both must be of one dimension. */
export function compareQuantities(a: Quantity, b: Quantity): number {
  return a.value.comparedTo(inUnit(b, a.unit).value);
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

export function over(q: Quantity, divisor: Exact | number): Quantity {
  return { value: q.value.div(exact(divisor)), unit: q.unit };
}

/** a / b as a bare number, both of one dimension. */
export function ratioOf(a: Quantity, b: Quantity): Exact {
  return a.value.times(a.unit.size[0]).times(b.unit.size[1]).div(a.unit.size[1].times(b.value).times(b.unit.size[0]));
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
  return r.low !== null && r.high !== null && r.low.value.eq(inUnit(r.high, r.low.unit).value);
}

export function timesRange(r: Range, factor: Exact | number): Range {
  return { low: r.low && times(r.low, factor), high: r.high && times(r.high, factor) };
}
