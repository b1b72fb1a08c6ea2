import { type Exact, exact } from '../exact.ts';
import type { Cited } from '../figure.ts';
import type { Strength } from '../parse.ts';
import { type Quantity, quantity } from '../quantity.ts';
import { ok, type Result } from '../result.ts';
import { gram, gramPerMillilitre, millilitre } from '../units.ts';
import { amountOf, fractionOf, measured, spiritOf } from './composition.ts';
import { AT_20C, type Reference } from './reference.ts';

/** Density of ethanol at 20 C from the formula of OIML R 22 itself: 789.2391233 g/L, printed there as 789.24. */
export const ethanolDensity = (): Quantity => quantity(AT_20C.ethanol.div(1000), gramPerMillilitre);

/**
 * The British unit of alcohol is 10 mL of ethanol; "8 g" is the same thing rounded (10 mL weigh 7.89 g at 20 C), so that
 * counting by 8 g gives 1.3 % less. The volume is what counts here.
 */
export const UK_UNIT: Cited = {
  key: 'uk-unit-of-alcohol',
  body: 'common practice in the United Kingdom',
  title: 'one unit of alcohol: 10 mL (about 8 g) of ethanol',
  reading: 'practice',
};

const ML_IN_A_UNIT = exact(10);

/** The ethanol in an amount: g, mL at the reference temperature, and British units (a bare number). */
export interface EthanolHeld {
  readonly mass: Quantity;
  readonly volume: Quantity;
  readonly ukUnits: Exact;
}

/**
 * The ethanol in a volume or mass of spirit: mL = volume x % v/v / 100; g = mass x % m/m / 100, each from the other by
 * the density. Volumes at the reference temperature. Of a tincture, whose extract makes it heavier, give a volume.
 * Errors: a strength without basis or outside 0 to 100 %; an amount that is not above 0, or neither mass nor volume.
 */
export function ethanolIn(amount: Quantity, strength: Strength, at: Reference = AT_20C): Result<EthanolHeld> {
  const volume = ethanolVolume(amount, strength, at);
  if (!volume.ok) return volume;
  return ok({
    mass: quantity(volume.value.times(at.ethanol).div(1000), gram),
    volume: quantity(volume.value, millilitre),
    ukUnits: volume.value.div(ML_IN_A_UNIT),
  });
}

function ethanolVolume(amount: Quantity, strength: Strength, at: Reference): Result<Exact> {
  const given = amountOf(amount);
  if (!given.ok) return given;
  const fraction = fractionOf(strength);
  if (!fraction.ok) return fraction;
  // A dose in mL at % v/v needs no density; for thousands of doses in a row nothing is solved.
  const plain = given.value.unit === millilitre && strength.unit.dimension === 'share v/v';
  if (plain) return ok(given.value.value.times(fraction.value));
  const spirit = spiritOf(strength, at);
  if (!spirit.ok) return spirit;
  const all = measured(given.value, spirit.value);
  return all.ok ? ok(all.value.volume.value.times(spirit.value.volumeFraction)) : all;
}
