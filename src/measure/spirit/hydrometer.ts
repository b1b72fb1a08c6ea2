import { type Exact, exact, one, zero } from '../exact.ts';
import type { Cited } from '../figure.ts';
import type { Strength } from '../parse.ts';
import { inUnit, type Quantity, quantity } from '../quantity.ts';
import { bad, ok, type Result } from '../result.ts';
import { write, writeNumber } from '../write.ts';
import { byMass, byVolume, spiritOf, spiritOfMassFraction } from './composition.ts';
import { coldNote, densityCurve, GRAM_PER_LITRE, outsideTemperatures } from './density.ts';
import { AT_20C, type Reference } from './reference.ts';
import { risingRoot } from './root.ts';

/**
 * The strength of a clean spirit from its density. Only of a clean one: whatever is dissolved in it (extract, sugar,
 * honey) makes it heavier, and a tincture would read weaker than it is.
 * Source of the rule: Directive 76/766/EEC, annex, 3 (reading and temperature, then the international tables).
 */

/** What a measurement comes to: % m/m, % v/v at the reference temperature, and what must be said beside it. */
export interface Found {
  readonly massStrength: Strength;
  readonly volumeStrength: Strength;
  readonly note: string | null;
}

/**
 * Strength from a density measured at a temperature in degrees C. Any unit of mass per volume.
 * Errors: no density; outside water to ethanol at that temperature; a temperature outside -20 to 40 C.
 */
export function strengthFromDensity(
  density: Quantity,
  celsius: Exact,
  at: Reference = AT_20C,
): Result<Found> {
  if (density.unit.dimension !== 'mass per volume')
    return bad(`${write(density)} is not a density: write such as 0.92 g/mL`);
  const outside = outsideTemperatures(celsius);
  if (outside !== undefined) return bad(outside);
  const figure = inUnit(density, GRAM_PER_LITRE).value;
  const curve = densityCurve(celsius);
  const [water, ethanol] = [curve(zero).value, curve(one).value];
  if (!(figure.lte(water) && figure.gte(ethanol))) {
    const ends = `${shown(ethanol)} (ethanol) and ${shown(water)} (water) at ${writeNumber(celsius)} C`;
    const why = figure.gt(water) ? ': something is dissolved in it' : '';
    return bad(`${write(density)} does not lie between ${ends}${why}`);
  }
  const p = risingRoot(
    (x) => {
      const { value, slope } = curve(x);
      return { value: figure.minus(value), slope: slope.neg() };
    },
    zero,
    one,
  );
  const spirit = spiritOfMassFraction(p, at);
  return ok({ massStrength: byMass(spirit), volumeStrength: byVolume(spirit), note: coldNote(celsius) });
}

const shown = (density: Exact): string => write(quantity(density, GRAM_PER_LITRE));

/** How much of its volume a soda-lime glass hydrometer gains with each degree C; the instrument floats higher for it. */
export const GLASS_EXPANSION: Exact = exact('0.000025');

export const GLASS: Cited = {
  key: 'eec-76-765',
  body: 'Council of the European Communities',
  title:
    'Council Directive on the approximation of the laws of the Member States relating to alcoholometers and alcohol hydrometers',
  ref: '76/765/EEC, OJ L 262, 27.9.1976, p 143-148; OIML R 44',
  year: '1976',
  reading: 'memory',
};

/**
 * True strength from what a glass alcoholometer, graduated at the reference temperature, shows in a spirit of another
 * temperature. The mark stands for the density of that strength at the reference; the glass has grown with the warmth,
 * so the liquid weighs that density x (1 - expansion x degrees above the reference). An `expansion` of 0 is an instrument
 * that does not grow; it matters up to 0.15 % v/v at 30 C.
 * Errors: as `toMassStrength` and `strengthFromDensity`.
 */
export function trueStrength(
  reading: Strength,
  celsius: Exact,
  at: Reference = AT_20C,
  expansion: Exact = GLASS_EXPANSION,
): Result<Found> {
  const mark = spiritOf(reading, at);
  if (!mark.ok) return mark;
  const outside = outsideTemperatures(celsius);
  if (outside !== undefined) return bad(outside);
  const grown = one.minus(expansion.times(celsius.minus(at.celsius)));
  const density = quantity(mark.value.density.times(1000).times(grown), GRAM_PER_LITRE);
  return strengthFromDensity(density, celsius, at);
}
