import { type Exact, exact } from './exact.ts';
import { volumeToMass } from './liquid.ts';
import type { Strength } from './parse.ts';
import { inUnit, type Quantity, quantity } from './quantity.ts';
import { bad, ok, type Result } from './result.ts';
import { type Dimension, gram, milligram, millilitre, per, type Unit } from './units.ts';
import { write } from './write.ts';

/**
 * Strengths: what a quantity holds, how much of a strength can be made, and the ways of writing one. Nothing here
 * adds volumes up: a solution is made up to its volume, and spirit and water shrink when they meet.
 *
 * Source of the rules: US Army Medical Department Center and School, Subcourse MD0802, Pharmaceutical calculations,
 * lesson 2 (percent: g in 100 g, g in 100 mL, mL in 100 mL of the finished product); University of Kent, Student
 * Learning Advisory Service, "At a glance: converting strengths" (1 in n, parts per million, amount strengths).
 */

/** What is counted in what: g in g, mL in mL, g in mL, mL in g. */
export type Basis = 'm/m' | 'v/v' | 'w/v' | 'v/m';

interface Kind {
  readonly basis: Basis;
  /** The unit of the whole, and of what it holds. */
  readonly whole: Unit;
  readonly part: Unit;
  readonly percent: string;
}

const KINDS: readonly Kind[] = [
  { basis: 'm/m', whole: gram, part: gram, percent: '%{m/m}' },
  { basis: 'v/v', whole: millilitre, part: millilitre, percent: '%{v/v}' },
  { basis: 'w/v', whole: millilitre, part: gram, percent: '%{w/v}' },
  { basis: 'v/m', whole: gram, part: millilitre, percent: '%{v/m}' },
];

/** Parts of a whole of one kind are never more than the whole; g in 100 mL and mL in 100 g may pass a hundred. */
const bounded = (k: Kind): boolean => k.whole === k.part;

const kindOf = (basis: Basis): Kind => KINDS.find((k) => k.basis === basis) as Kind;

/** A strength as a fraction: `over / under` of the part (g or mL) in one g or mL of the whole. */
interface Content {
  readonly kind: Kind;
  readonly over: Exact;
  readonly under: Exact;
}

/** Reads percents with a basis and contents such as mg/5 mL, mg/g or mL/kg as one and the same thing. */
function contentOf(strength: Quantity): Result<Content> {
  const { value, unit } = strength;
  const [size, under] = unit.size;
  const inHundred = KINDS.find((k) => unit.dimension === `share ${k.basis}`);
  const each = KINDS.find((k) => unit.dimension === perDimension(k));
  const kind = inHundred ?? each;
  if (unit.dimension === 'share')
    return bad(`${write(strength)} lacks its basis: write % m/m, % w/v or % v/v`);
  if (!kind) return bad(`${write(strength)} is not a strength: write such as 5 % w/v or 30 mg/5 mL`);
  if (value.lt(0)) return bad(`${write(strength)} is below 0`);
  const content = { kind, over: value.times(size), under: inHundred ? under.times(100) : under };
  if (bounded(kind) && content.over.gt(content.under))
    return bad(`${write(strength)} is more than the whole`);
  return ok(content);
}

const perDimension = (k: Kind): Dimension => `${k.part.dimension} per ${k.whole.dimension}`;

const mismatch = (strength: Quantity, wants: Unit, got: Quantity): string =>
  `${write(strength)} is reckoned with a ${wants.dimension}: write such as 100 ${wants.symbol}, not ${write(got)}`;

/**
 * What `amount` of a strength holds = amount x strength: g of a mass at % m/m or of a volume at % w/v, mL of a volume
 * at % v/v or of a mass at % v/m. Contents such as mg/mL, mg/g and mL/kg count as strengths too.
 * Errors: a percent without its basis, an amount of the wrong kind, anything below 0, more than the whole.
 */
export function held(strength: Strength, amount: Quantity): Result<Quantity> {
  const content = contentOf(strength);
  if (!content.ok) return content;
  const { kind, over, under } = content.value;
  if (amount.unit.dimension !== kind.whole.dimension) return bad(mismatch(strength, kind.whole, amount));
  if (amount.value.lt(0)) return bad(`${write(amount)} is below 0`);
  return ok(quantity(inUnit(amount, kind.whole).value.times(over).div(under), kind.part));
}

/**
 * How much of a strength a held amount makes = held / strength: g at % m/m and % v/m, mL at % w/v and % v/v.
 * With `held` it is every dilution of one stock: makes(stock, held(wanted, volume)) is the stock to take.
 * Errors: as `held`, and a strength of 0, which makes no end of it.
 */
export function makes(strength: Strength, part: Quantity): Result<Quantity> {
  const content = contentOf(strength);
  if (!content.ok) return content;
  const { kind, over, under } = content.value;
  if (part.unit.dimension !== kind.part.dimension) return bad(mismatch(strength, kind.part, part));
  if (part.value.lt(0)) return bad(`${write(part)} is below 0`);
  if (over.isZero()) return bad('a strength of 0 can be made without end: write one above 0');
  return ok(quantity(inUnit(part, kind.part).value.times(under).div(over), kind.whole));
}

/**
 * The strength of `whole` that holds `part` = part x 100 / whole, in % of the basis that the two units make.
 * Errors: a whole that is not above 0, a part below 0 or, in one kind of unit, above the whole; other dimensions.
 */
export function strengthOf(part: Quantity, whole: Quantity): Result<Strength> {
  const kind = KINDS.find(
    (k) => k.part.dimension === part.unit.dimension && k.whole.dimension === whole.unit.dimension,
  );
  if (!kind) return bad(`${write(part)} in ${write(whole)} is not a strength: write masses or volumes`);
  if (!whole.value.gt(0)) return bad('a strength needs a whole above 0: write such as 100 mL');
  const share = inUnit(part, kind.part).value.times(100).div(inUnit(whole, kind.whole).value);
  return checked(quantity(share, kind.percent));
}

/** A strength just made, or why it cannot be one. */
function checked(strength: Strength): Result<Strength> {
  const content = contentOf(strength);
  return content.ok ? ok(strength) : content;
}

/** 1 in n as a percent of the basis = 100 / n. Errors: n not above 0, or less than the one part in it. */
export function ratioStrength(n: Exact, basis: Basis): Result<Strength> {
  if (!n.gt(0)) return bad('1 in n needs an n above 0: write such as 1 in 500');
  return checked(quantity(exact(100).div(n), kindOf(basis).percent));
}

/** The n of 1 in n = whole / part; the other way round from `ratioStrength`. Errors: a strength of 0, or none. */
export function oneIn(strength: Strength): Result<Exact> {
  const content = contentOf(strength);
  if (!content.ok) return content;
  const { over, under } = content.value;
  return over.isZero() ? bad('a strength of 0 is 1 in nothing') : ok(under.div(over));
}

const MG_PER_ML = per(milligram, millilitre);

/** g in 100 mL as mg/mL = % w/v x 10. Error: a percent of another basis, for which a density would be needed. */
export function asAmountStrength(strength: Strength): Result<Quantity> {
  const content = contentOf(strength);
  if (!content.ok) return content;
  const { kind, over, under } = content.value;
  if (kind.basis !== 'w/v') return bad(`${write(strength)} is not % w/v, so it has no mg in a mL of its own`);
  return ok(quantity(over.times(1000).div(under), MG_PER_ML));
}

/**
 * % m/m (also written % w/w) as % w/v = % m/m x density of the finished liquid in g/mL, at that density's temperature.
 * Errors: a percent of another basis; what is no density of a liquid.
 */
export function massToVolumeStrength(strength: Strength, density: Quantity): Result<Strength> {
  const whole = quantity(100, millilitre);
  const weighs = volumeToMass(whole, density);
  if (!weighs.ok) return weighs;
  const part = held(strength, weighs.value);
  if (!part.ok) return part;
  if (part.value.unit !== gram) return bad(`${write(strength)} is not % m/m`);
  return strengthOf(part.value, whole);
}

const MILLION = exact(1_000_000);

/** Parts per million of a basis as a percent = ppm x 100 / 1,000,000; 1 ppm w/v is 1 microgram in 1 mL. */
export function partsPerMillion(ppm: Exact, basis: Basis): Result<Strength> {
  return checked(quantity(ppm.times(100).div(MILLION), kindOf(basis).percent));
}

/** A strength in parts per million, the other way round from `partsPerMillion`. */
export function inPartsPerMillion(strength: Strength): Result<Exact> {
  const content = contentOf(strength);
  return content.ok ? ok(content.value.over.times(MILLION).div(content.value.under)) : content;
}
