import type { Exact } from '../exact.ts';
import type { Strength } from '../parse.ts';
import { type Quantity, quantity, type Range } from '../quantity.ts';
import { ok, type Result } from '../result.ts';
import { gram } from '../units.ts';
import { measuredMass } from './composition.ts';
import { combine, type Mixture, type Poured, pour, waterAt } from './mixing.ts';
import { plantWater } from './plant-water.ts';
import { AT_20C, type Reference } from './reference.ts';

/**
 * Spirit on a fresh plant: the water of the plant thins it. Final mass fraction = ethanol / (spirit + plant water), by
 * mass; the volume follows from the density. All of the plant's water is taken to mix with the spirit, and what
 * dissolves of the plant is left out, so this is the strength of the liquid in the jar before pressing; the marc keeps
 * some of it, at the same strength.
 * Source: a mass balance with OIML R 22. That the moisture is found and allowed for is a rule of the British
 * Homoeopathic Pharmacopoeia, Tinctures.
 */

/** The liquid in the jar, with the plant's own water (g) in it. */
export interface FreshLiquid extends Mixture {
  readonly plantWater: Quantity;
}

/** One liquid at each end of the moisture, the same twice where it is one figure; a wetter plant ends weaker. */
export interface Fresh {
  /** % v/v and % m/m, from the wettest to the driest. */
  readonly volumeStrength: Range;
  readonly massStrength: Range;
  /** mL at the reference temperature, from the driest to the wettest. */
  readonly volume: Range;
  readonly driest: FreshLiquid;
  readonly wettest: FreshLiquid;
}

/** The spirit poured on a plant with so many g of water in it. */
export function onPlant(spirit: Poured, water: Exact, at: Reference): FreshLiquid {
  const pure = waterAt(at);
  const mixed = combine([spirit, { ...measuredMass(water, pure), spirit: pure }], at);
  return { ...mixed, plantWater: quantity(water, gram) };
}

/**
 * How strong a fresh plant leaves the spirit. `plant` is its mass, `moisture` its water by mass (`%` or `% m/m`), one
 * figure or a range; `spirit` a volume at the reference temperature or a mass.
 * Errors: as `mixture`; a plant or moisture that cannot be.
 */
export function finalStrength(
  asked: {
    readonly plant: Quantity;
    readonly moisture: Quantity | Range;
    readonly spirit: Quantity;
    readonly strength: Strength;
  },
  at: Reference = AT_20C,
): Result<Fresh> {
  const water = plantWater(asked.plant, asked.moisture);
  if (!water.ok) return water;
  const spirit = pour({ amount: asked.spirit, strength: asked.strength }, at);
  if (!spirit.ok) return spirit;
  const driest = onPlant(spirit.value, water.value.least, at);
  const wettest = onPlant(spirit.value, water.value.most, at);
  return ok({
    volumeStrength: { low: wettest.volumeStrength, high: driest.volumeStrength },
    massStrength: { low: wettest.massStrength, high: driest.massStrength },
    volume: { low: driest.volume, high: wettest.volume },
    driest,
    wettest,
  });
}
