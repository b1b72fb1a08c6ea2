import { type Exact, one } from '../exact.ts';
import type { Ratio, Strength } from '../parse.ts';
import { inUnit, type Quantity, quantity, type Range } from '../quantity.ts';
import { bad, ok, type Result } from '../result.ts';
import { gram, millilitre } from '../units.ts';
import { write, writeRatio } from '../write.ts';
import {
  byMass,
  byVolume,
  type Measured,
  measured,
  measuredMass,
  NOTHING,
  type Spirit,
  spiritOf,
  spiritOfMassFraction,
  stronger,
} from './composition.ts';
import { type FreshLiquid, onPlant } from './fresh.ts';
import { type Dilution, dilute } from './mixing.ts';
import { plantWater } from './plant-water.ts';
import { AT_20C, type Reference } from './reference.ts';
import { risingRoot } from './root.ts';

/**
 * The spirit that a fresh plant brings down to the wanted strength. With a juicy plant there may be none: then the answer
 * is the best that can be had from the same pouring, and how much would be enough.
 * Source: the mass balance of fresh.ts turned round, with the density of OIML R 22.
 */

/** A spirit of this strength, poured in this amount, ends at the target. */
export interface Needed {
  readonly reachable: true;
  readonly massStrength: Strength;
  readonly volumeStrength: Strength;
  readonly poured: Measured;
  /** How to make it from the spirit in hand and water; null where none was named. */
  readonly madeFrom: Dilution | null;
  readonly ends: FreshLiquid;
}

/** No spirit, or not the one in hand, ends at the target when so much is poured. */
export interface OutOfReach {
  readonly reachable: false;
  /** The strongest there is, undiluted, and where it ends: the one in hand, or absolute ethanol. */
  readonly strongest: Strength;
  readonly best: FreshLiquid;
  /** How much of the strongest, undiluted, would end at the target; null where no amount does. */
  readonly enough: Measured | null;
  /** The strength (% v/v), above the one in hand, that would end at the target; null where not even absolute ethanol does. */
  readonly wouldDo: Strength | null;
  readonly says: string;
}

/** The answer at each end of the moisture, the same twice where it is one figure. */
export interface SpiritNeeded {
  readonly driest: Needed | OutOfReach;
  readonly wettest: Needed | OutOfReach;
}

interface Asked {
  readonly plant: Quantity;
  readonly moisture: Quantity | Range;
  /** The spirit to pour, after any diluting: a volume at the reference temperature, or a mass. */
  readonly pour: Quantity;
  readonly target: Strength;
  /** A spirit in hand, such as 96.3 % v/v; left out, anything up to absolute ethanol will do. */
  readonly from?: Strength | undefined;
}

/**
 * The spirit to pour by a ratio: `1:2` w/v is 2 mL, w/w is 2 g of spirit to each g of fresh plant.
 * Errors: a plant that is no mass; a ratio with a range in it.
 */
export function pourByRatio(plant: Quantity, ratio: Ratio, measure: 'w/v' | 'w/w'): Result<Quantity> {
  if (plant.unit.dimension !== 'mass')
    return bad(`${plant.unit.symbol} measures ${plant.unit.dimension}: a plant is weighed, such as 300 g`);
  const [herb, spirit] = [single(ratio.herb), single(ratio.product)];
  if (herb === null || spirit === null) {
    return bad(`${writeRatio(ratio)} has a range in it: write one figure a side, such as 1:2`);
  }
  const unit = measure === 'w/v' ? millilitre : gram;
  return ok(quantity(inUnit(plant, gram).value.times(spirit).div(herb), unit));
}

const single = (r: Ratio['herb']): Exact | null => (r.low !== null && r.high?.eq(r.low) ? r.high : null);

/**
 * The strength to pour, and how to make it from the spirit in hand. Poured as a mass m: p = p_target x (m + water) / m.
 * Poured as a volume V, p solves V rho(p) (p - p_target) = p_target x water, the left side of which rises with p.
 * Errors: as `finalStrength`; a target of 0. A target out of reach is an answer, not an error.
 */
export function spiritNeeded(asked: Asked, at: Reference = AT_20C): Result<SpiritNeeded> {
  const water = plantWater(asked.plant, asked.moisture);
  if (!water.ok) return water;
  const target = spiritOf(asked.target, at);
  if (!target.ok) return target;
  if (asked.target.value.isZero()) return bad(`${write(asked.target)} is water: write a strength above 0`);
  const strongest = asked.from ?? quantity(100, '%{v/v}');
  const top = spiritOf(strongest, at);
  if (!top.ok) return top;
  const limit: Limit = { strength: strongest, spirit: top.value, inHand: asked.from !== undefined };
  const { least, most } = water.value;
  const driest = answer(asked, target.value, limit, least, at);
  if (!driest.ok) return driest;
  const wettest = most.eq(least) ? driest : answer(asked, target.value, limit, most, at);
  return wettest.ok ? ok({ driest: driest.value, wettest: wettest.value }) : wettest;
}

interface Limit {
  readonly strength: Strength;
  readonly spirit: Spirit;
  readonly inHand: boolean;
}

function answer(
  asked: Asked,
  target: Spirit,
  limit: Limit,
  water: Exact,
  at: Reference,
): Result<Needed | OutOfReach> {
  const atBest = measured(asked.pour, limit.spirit);
  if (!atBest.ok) return atBest;
  const p = toPour(asked.pour, target.massFraction, water, at);
  const exactly = p === null ? null : spiritOfMassFraction(p, at);
  if (exactly === null || stronger(exactly, limit.spirit)) {
    const best = onPlant({ ...atBest.value, spirit: limit.spirit }, water, at);
    return ok(outOfReach(asked.pour, target, limit, water, best, exactly));
  }
  const needed = stronger(limit.spirit, exactly) ? exactly : limit.spirit;
  const poured = measured(asked.pour, needed);
  if (!poured.ok) return poured;
  const made = limit.inHand
    ? dilute({ to: byMass(needed), make: poured.value.mass, from: limit.strength }, at)
    : null;
  if (made !== null && !made.ok) return made;
  return ok({
    reachable: true,
    massStrength: byMass(needed),
    volumeStrength: byVolume(needed),
    poured: poured.value,
    madeFrom: made === null ? null : made.value,
    ends: onPlant({ ...poured.value, spirit: needed }, water, at),
  });
}

/** The mass fraction to pour; null where not even absolute ethanol ends at the target. */
function toPour(pour: Quantity, target: Exact, water: Exact, at: Reference): Exact | null {
  if (pour.unit.dimension === 'mass') {
    const mass = inUnit(pour, gram).value;
    return atMostOne(target.times(mass.plus(water)).div(mass));
  }
  const owed = target.times(water).times(1000).div(inUnit(pour, millilitre).value);
  const left = at.ethanol.times(one.minus(target)).minus(owed);
  if (left.lte(0)) return left.gte(NOTHING.neg()) ? one : null;
  return risingRoot(
    (p) => {
      const { value, slope } = at.density(p);
      const over = p.minus(target);
      return { value: value.times(over).minus(owed), slope: value.plus(slope.times(over)) };
    },
    target,
    one,
  );
}

function atMostOne(p: Exact): Exact | null {
  if (p.lte(1)) return p;
  return p.minus(1).lte(NOTHING) ? one : null;
}

function outOfReach(
  pour: Quantity,
  target: Spirit,
  limit: Limit,
  water: Exact,
  best: FreshLiquid,
  exactly: Spirit | null,
): OutOfReach {
  const { strength, spirit, inHand } = limit;
  const surplus = spirit.massFraction.minus(target.massFraction);
  const enough = stronger(spirit, target)
    ? measuredMass(water.times(target.massFraction).div(surplus), spirit)
    : null;
  const name = inHand ? `${write(strength)}, undiluted,` : 'absolute ethanol';
  const end = `not reachable: ${write(pour)} of ${name} ends at ${write(best.volumeStrength)}`;
  const more =
    enough === null ? 'no amount of it is enough' : `${write(enough.volume)} of it would be enough`;
  return {
    reachable: false,
    strongest: strength,
    best,
    enough,
    wouldDo: exactly === null ? null : byVolume(exactly),
    says: `${end}; ${more}`,
  };
}
