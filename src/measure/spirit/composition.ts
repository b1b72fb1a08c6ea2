import { type Exact, exact } from '../exact.ts';
import type { Strength } from '../parse.ts';
import { inUnit, type Quantity, quantity } from '../quantity.ts';
import { bad, ok, type Result } from '../result.ts';
import { gram, millilitre } from '../units.ts';
import { write } from '../write.ts';
import type { Reference } from './reference.ts';
import { risingRoot } from './root.ts';

/** A mixture of ethanol and water in the figures that every sum starts from; volumes at the reference temperature. */
export interface Spirit {
  /** g of ethanol in 1 g. */
  readonly massFraction: Exact;
  /** mL of ethanol in 1 mL. */
  readonly volumeFraction: Exact;
  /** g in 1 mL. */
  readonly density: Exact;
}

/** q = p x rho(p) / rho(1), both at the reference temperature (OIML R 22). */
export function spiritOfMassFraction(p: Exact, at: Reference): Spirit {
  const { value } = at.density(p);
  return { massFraction: p, volumeFraction: p.times(value).div(at.ethanol), density: value.div(1000) };
}

/** The mass fraction that has this volume fraction: no closed form, but q rises with p, so it is the only one. */
function massFractionOf(q: Exact, at: Reference): Exact {
  if (q.isZero() || q.eq(1)) return q;
  const target = q.times(at.ethanol);
  return risingRoot(
    (p) => {
      const { value, slope } = at.density(p);
      return { value: p.times(value).minus(target), slope: value.plus(p.times(slope)) };
    },
    exact(0),
    exact(1),
  );
}

/** A strength as a fraction of its own basis. Errors: no basis, a basis other than mass or volume, outside 0 to 100 %. */
export function fractionOf(strength: Strength): Result<Exact> {
  const { value, unit } = strength;
  if (unit.dimension === 'share')
    return bad(`${write(strength)} lacks its basis: write % v/v (by volume) or % m/m (by mass)`);
  if (unit.dimension !== 'share v/v' && unit.dimension !== 'share m/m')
    return bad(`${write(strength)} is not a strength of spirit: write such as 45 % v/v or 38 % m/m`);
  if (!(value.gte(0) && value.lte(100)))
    return bad(`${write(strength)} is outside 0 to 100 %: write such as 45 ${unit.symbol}`);
  return ok(value.div(100));
}

/** Reads a strength. Errors: as `fractionOf`. */
export function spiritOf(strength: Strength, at: Reference): Result<Spirit> {
  const read = fractionOf(strength);
  if (!read.ok) return read;
  const fraction = read.value;
  if (strength.unit.dimension === 'share m/m') return ok(spiritOfMassFraction(fraction, at));
  const p = massFractionOf(fraction, at);
  // The given fraction is kept as it is, so that stock = volume x target / stock comes out to the last figure.
  return ok({ massFraction: p, volumeFraction: fraction, density: at.density(p).value.div(1000) });
}

export const byVolume = (s: Spirit): Strength => quantity(s.volumeFraction.times(100), '%{v/v}');
export const byMass = (s: Spirit): Strength => quantity(s.massFraction.times(100), '%{m/m}');

/** The strength in the basis that the asker used. */
export const inBasisOf = (s: Spirit, like: Strength): Strength =>
  like.unit.dimension === 'share m/m' ? byMass(s) : byVolume(s);

/** How much of a liquid there is: g, and mL at the reference temperature. */
export interface Measured {
  readonly mass: Quantity;
  readonly volume: Quantity;
}

export const measuredMass = (mass: Exact, s: Spirit): Measured => ({
  mass: quantity(mass, gram),
  volume: quantity(mass.div(s.density), millilitre),
});

export const measuredVolume = (volume: Exact, s: Spirit): Measured => ({
  mass: quantity(volume.times(s.density), gram),
  volume: quantity(volume, millilitre),
});

/** An amount in g or in mL, as it was given. Errors: neither a mass nor a volume; not above 0. */
export function amountOf(amount: Quantity): Result<Quantity> {
  const { dimension, symbol } = amount.unit;
  if (dimension !== 'mass' && dimension !== 'volume')
    return bad(`${symbol} measures ${dimension}: an amount of spirit is written such as 500 mL or 400 g`);
  if (!amount.value.gt(0))
    return bad(`an amount must be above 0: write such as 500 ${symbol}, not ${write(amount)}`);
  return ok(inUnit(amount, dimension === 'mass' ? gram : millilitre));
}

/** An amount of spirit as both, from whichever is given. Errors: as `amountOf`. */
export function measured(amount: Quantity, s: Spirit): Result<Measured> {
  const given = amountOf(amount);
  if (!given.ok) return given;
  const { value, unit } = given.value;
  return ok(unit === gram ? measuredMass(value, s) : measuredVolume(value, s));
}

/** What two figures must differ by to be two: what the last digits of a sum leave over is no difference. */
export const NOTHING = exact('1e-40');

export const stronger = (a: Spirit, b: Spirit): boolean => a.massFraction.minus(b.massFraction).gt(NOTHING);
