import { type Exact, zero } from '../exact.ts';
import type { Strength } from '../parse.ts';
import { quantity } from '../quantity.ts';
import { bad, ok, type Result } from '../result.ts';
import { byMass, byVolume, spiritOf } from './composition.ts';
import {
  coldNote,
  densityCurve,
  GRAM_PER_LITRE,
  outsideTemperatures,
  type SpiritDensity,
} from './density.ts';
import { AT_20C, type Reference } from './reference.ts';

/**
 * The two ways of stating how strong a spirit is, and what follows from a strength. A strength by mass holds at every
 * temperature; one by volume holds at its reference temperature (20 C unless 60 F is asked for).
 * Source of the definitions: Directive 76/766/EEC, annex, 1; of the formula: OIML R 22.
 */

/** % v/v as % m/m; % m/m stays. Errors: no basis, outside 0 to 100 %. */
export function toMassStrength(strength: Strength, at: Reference = AT_20C): Result<Strength> {
  const spirit = spiritOf(strength, at);
  if (!spirit.ok) return spirit;
  return ok(strength.unit.dimension === 'share m/m' ? strength : byMass(spirit.value));
}

/** % m/m as % v/v at the reference; % v/v stays, being taken to hold at that reference. Errors: as `toMassStrength`. */
export function toVolumeStrength(strength: Strength, at: Reference = AT_20C): Result<Strength> {
  const spirit = spiritOf(strength, at);
  if (!spirit.ok) return spirit;
  return ok(strength.unit.dimension === 'share v/v' ? strength : byVolume(spirit.value));
}

/**
 * Density in g/L of a spirit of this strength at a temperature in degrees C; a strength by volume holds at `at`.
 * Errors: as `toMassStrength`, and a temperature outside -20 to 40 C. Below 0 C with a note.
 */
export function densityOfSpirit(
  strength: Strength,
  celsius: Exact,
  at: Reference = AT_20C,
): Result<SpiritDensity> {
  const spirit = spiritOf(strength, at);
  if (!spirit.ok) return spirit;
  const outside = outsideTemperatures(celsius);
  if (outside !== undefined) return bad(outside);
  const { value } = densityCurve(celsius)(spirit.value.massFraction);
  return ok({ density: quantity(value, GRAM_PER_LITRE), note: coldNote(celsius) });
}

/**
 * Relative density: that of the spirit over that of water, both at this temperature in degrees C; a bare number
 * (20 C over 20 C is the pharmacopoeial figure). Errors: as `densityOfSpirit`.
 */
export function relativeDensity(strength: Strength, celsius: Exact, at: Reference = AT_20C): Result<Exact> {
  const spirit = densityOfSpirit(strength, celsius, at);
  if (!spirit.ok) return spirit;
  const water = densityCurve(celsius)(zero).value;
  return ok(spirit.value.density.value.div(water));
}

/**
 * Volume at the reference temperature over the volume at `celsius`, a bare number: density at `celsius` / density at
 * the reference. What was measured warm, times this, is its volume at 20 C; a volume at 20 C, divided by it, is what
 * the measure must show when warm. Errors: as `densityOfSpirit`.
 */
export function volumeFactor(strength: Strength, celsius: Exact, at: Reference = AT_20C): Result<Exact> {
  const there = densityOfSpirit(strength, celsius, at);
  if (!there.ok) return there;
  const here = densityOfSpirit(strength, at.celsius, at);
  return here.ok ? ok(there.value.density.value.div(here.value.density.value)) : here;
}
