import { type Exact, one, sum, zero } from '../exact.ts';
import type { Strength } from '../parse.ts';
import { type Quantity, quantity } from '../quantity.ts';
import { bad, ok, type Result } from '../result.ts';
import { gram, millilitre } from '../units.ts';
import { write } from '../write.ts';
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
import { AT_20C, type Reference } from './reference.ts';

/**
 * Mixing by mass balance: mass in is mass out, ethanol in is ethanol out, and the volume follows from the density.
 * The water to add is never one volume less another, for spirit and water shrink when they meet. Volumes hold at the
 * reference temperature, so a mixture is measured after it has cooled to it: mixing warms it.
 * Source of the density: OIML R 22.
 */

/** A finished mixture. g, mL, % m/m, % v/v. */
export interface Mixture extends Measured {
  readonly ethanol: Quantity;
  readonly massStrength: Strength;
  readonly volumeStrength: Strength;
  /**
   * Sum of the volumes put in less the volume that comes of it. Below 0 where weak spirit is thinned further: under
   * 19.4 % v/v at 20 C the curve of volumes bends the other way, and the mixture swells by up to 0.15 %.
   */
  readonly contraction: Quantity;
}

/** An amount, mass or volume, of a liquid of some strength; water is 0 % v/v. */
export interface Part {
  readonly amount: Quantity;
  readonly strength: Strength;
}

/** A part that has been measured, and what it is made of. */
export interface Poured extends Measured {
  readonly spirit: Spirit;
}

const massOf = (m: Measured): Exact => m.mass.value;
const volumeOf = (m: Measured): Exact => m.volume.value;

/** The mixture of parts that together weigh something. */
export function combine(parts: readonly Poured[], at: Reference): Mixture {
  const mass = sum(parts.map(massOf));
  const ethanol = sum(parts.map((p) => massOf(p).times(p.spirit.massFraction)));
  return described(measuredAs(mass, ethanol, at), sum(parts.map(volumeOf)));
}

function measuredAs(mass: Exact, ethanol: Exact, at: Reference): Poured {
  const spirit = spiritOfMassFraction(ethanol.div(mass), at);
  return { ...measuredMass(mass, spirit), spirit };
}

function described(made: Poured, putIn: Exact): Mixture {
  const { mass, volume, spirit } = made;
  const gap = putIn.minus(volume.value);
  return {
    mass,
    volume,
    ethanol: quantity(mass.value.times(spirit.massFraction), gram),
    massStrength: byMass(spirit),
    volumeStrength: byVolume(spirit),
    contraction: quantity(gap.abs().lte(NOTHING) ? zero : gap, millilitre),
  };
}

/** A part read and measured; the errors are those of its strength and its amount. */
export function pour(part: Part, at: Reference): Result<Poured> {
  const spirit = spiritOf(part.strength, at);
  if (!spirit.ok) return spirit;
  const m = measured(part.amount, spirit.value);
  return m.ok ? ok({ ...m.value, spirit: spirit.value }) : m;
}

/**
 * What comes of mixing. Errors: no parts; a strength without basis or outside 0 to 100 %; an amount that is not above 0,
 * or neither mass nor volume.
 */
export function mixture(parts: readonly Part[], at: Reference = AT_20C): Result<Mixture> {
  if (parts.length === 0) return bad('nothing to mix: give at least one amount with its strength');
  const poured: Poured[] = [];
  for (const part of parts) {
    const p = pour(part, at);
    if (!p.ok) return p;
    poured.push(p.value);
  }
  return ok(combine(poured, at));
}

/** How much of the stock and of water, and what comes of it. */
export interface Dilution {
  readonly stock: Measured;
  readonly water: Measured;
  readonly made: Mixture;
}

/** Pure water at the reference. */
export const waterAt = (at: Reference): Spirit => spiritOfMassFraction(zero, at);

/** Target and stock of a dilution, read. */
interface Steps {
  readonly to: Spirit;
  readonly from: Spirit;
}

function steps(to: Strength, from: Strength, at: Reference): Result<Steps> {
  const [target, stock] = [spiritOf(to, at), spiritOf(from, at)];
  if (!target.ok) return target;
  if (!stock.ok) return stock;
  if (to.value.isZero()) return bad(`${write(to)} is water: write a strength above 0`);
  if (stronger(target.value, stock.value))
    return bad(`${write(to)} cannot be made from ${write(from)}: water only weakens it`);
  return ok({ to: target.value, from: stock.value });
}

/**
 * `make` of strength `to`, from a stock and water. Stock mass = made mass x % m/m to / % m/m from; stock volume =
 * made volume x % v/v to / % v/v from, which is exact; water mass = the rest of the mass, its volume by its density.
 * `make` is a volume at the reference temperature or a mass.
 * Errors: as `mixture`; a target of 0 or above the stock.
 */
export function dilute(
  asked: { readonly to: Strength; readonly make: Quantity; readonly from: Strength },
  at: Reference = AT_20C,
): Result<Dilution> {
  const s = steps(asked.to, asked.from, at);
  if (!s.ok) return s;
  const { to, from } = s.value;
  const made = measured(asked.make, to);
  if (!made.ok) return made;
  const stock: Measured = {
    mass: quantity(massOf(made.value).times(to.massFraction).div(from.massFraction), gram),
    volume: quantity(volumeOf(made.value).times(to.volumeFraction).div(from.volumeFraction), millilitre),
  };
  return ok(diluted(stock, made.value, s.value, at));
}

/**
 * A given amount of stock, mass or volume, brought down to strength `to` with water: the water to add and what there
 * will be. Made mass = stock mass x % m/m from / % m/m to. Errors: as `dilute`.
 */
export function useUp(
  asked: { readonly from: Strength; readonly amount: Quantity; readonly to: Strength },
  at: Reference = AT_20C,
): Result<Dilution> {
  const s = steps(asked.to, asked.from, at);
  if (!s.ok) return s;
  const { to, from } = s.value;
  const stock = measured(asked.amount, from);
  if (!stock.ok) return stock;
  const made: Measured = {
    mass: quantity(massOf(stock.value).times(from.massFraction).div(to.massFraction), gram),
    volume: quantity(volumeOf(stock.value).times(from.volumeFraction).div(to.volumeFraction), millilitre),
  };
  return ok(diluted(stock.value, made, s.value, at));
}

function diluted(stock: Measured, made: Measured, s: Steps, at: Reference): Dilution {
  const undiluted = !stronger(s.from, s.to);
  const added = undiluted ? zero : massOf(made).times(one.minus(s.to.massFraction.div(s.from.massFraction)));
  const water = measuredMass(added, waterAt(at));
  const putIn = undiluted ? volumeOf(made) : volumeOf(stock).plus(volumeOf(water));
  return { stock, water, made: described({ ...made, spirit: s.to }, putIn) };
}
