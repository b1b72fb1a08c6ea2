import { type Exact, exact, zero } from '../exact.ts';
import { type Quantity, quantity } from '../quantity.ts';
import { bad, ok, type Result } from '../result.ts';
import { gram, mustUnit, per } from '../units.ts';
import { writeNumber } from '../write.ts';
import { AT_20_DEGREES, OF_MIXTURES, OF_WATER } from './coefficients.ts';
import type { Point } from './root.ts';

/**
 * The density of ethanol and water by the formula of OIML R 22 (1975), the same as in Directive 76/766/EEC:
 * rho(p, t) = sum of A p^(k-1) + sum of B (t - 20)^k + sum of C p^k (t - 20)^i, p the mass fraction, t in degrees C.
 *
 * Speed: at one temperature the 54 terms fold into a polynomial of degree 11 in p, whose value and slope cost 22
 * multiplications. With Newton's steps a strength is solved in the project's 60 figures in about a millisecond, so
 * that no second, coarser kind of number is needed.
 */

/** The unit of every density here; a figure in g/L is the same figure in kg/m3. */
export const GRAM_PER_LITRE = per(gram, mustUnit('L'));

const COLDEST = -20;
const WARMEST = 40;

const A = AT_20_DEGREES.map((c) => exact(c));
const B = OF_WATER.map((c) => exact(c));
const C = OF_MIXTURES.map((row) => row.map((c) => exact(c)));

/** Density in kg/m3 against mass fraction, at one temperature; it falls with the mass fraction everywhere. */
export type Curve = (massFraction: Exact) => Point;

/** Why no density is known at this temperature; undefined where one is. */
export function outsideTemperatures(celsius: Exact): string | undefined {
  if (celsius.gte(COLDEST) && celsius.lte(WARMEST)) return undefined;
  return `${writeNumber(celsius)} C is outside -20 to 40 C, between which the density of spirit is known`;
}

/** What must be said beside a density below 0 C; null from 0 C up. */
export function coldNote(celsius: Exact): string | null {
  if (celsius.gte(0)) return null;
  return 'below 0 C the mixture may be partly frozen: the figure is that of the liquid';
}

/** The curve at a temperature that has been made sure of with `outsideTemperatures`. */
export function densityCurve(celsius: Exact): Curve {
  const warmer = celsius.minus(20);
  const coefficients = [...A];
  const add = (power: number, more: Exact): void => {
    coefficients[power] = (coefficients[power] ?? zero).plus(more);
  };
  B.forEach((b, i) => {
    add(0, b.times(warmer.pow(i + 1)));
  });
  C.forEach((row, i) => {
    const factor = warmer.pow(i + 1);
    row.forEach((c, k) => {
      add(k + 1, c.times(factor));
    });
  });
  const highestFirst = coefficients.reverse();
  return (p) => {
    let [value, slope] = [zero, zero];
    for (const c of highestFirst) {
      slope = slope.times(p).plus(value);
      value = value.times(p).plus(c);
    }
    return { value, slope };
  };
}

/** A density, and what must be said beside it. */
export interface SpiritDensity {
  readonly density: Quantity;
  readonly note: string | null;
}

/**
 * Density in g/L (= kg/m3) of ethanol and water, from the mass fraction of ethanol (0 to 1, a bare number) and the
 * temperature in degrees C. Errors: a fraction outside 0 to 1, a temperature outside -20 to 40 C.
 * Below 0 C a note says that the mixture may be frozen.
 */
export function spiritDensity(massFraction: Exact, celsius: Exact): Result<SpiritDensity> {
  if (!(massFraction.gte(0) && massFraction.lte(1)))
    return bad(`a mass fraction of ${writeNumber(massFraction)} is outside 0 to 1`);
  const outside = outsideTemperatures(celsius);
  if (outside !== undefined) return bad(outside);
  const { value } = densityCurve(celsius)(massFraction);
  return ok({ density: quantity(value, GRAM_PER_LITRE), note: coldNote(celsius) });
}
