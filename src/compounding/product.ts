import type { Held } from '../folder/held.ts';
import { one } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { massToVolume, volumeToMass } from '../measure/liquid.ts';
import type { SolventRatio, Strength } from '../measure/parse.ts';
import { type Quantity, quantity, type Range } from '../measure/quantity.ts';
import { ok, type Result } from '../measure/result.ts';
import { roundTo } from '../measure/round.ts';
import { gram, millilitre, type Unit } from '../measure/units.ts';
import type { MethodLine } from './making.ts';
import type { MixingFigures } from './spirit-figures.ts';

/** What goes in beside the lines, such as the oil that herbs are drawn with. */
export interface Added {
  readonly says: string;
  readonly amount: Figure<Quantity>;
  /** The same by the other measure: its weight, where it is poured. */
  readonly also?: Figure<Quantity>;
}

/** What a mixture holds that decides whether it keeps; null where it cannot be told. */
export interface Contents {
  /** % v/v at the least, as a figure. */
  readonly ethanol?: Figure<Quantity>;
  /** By mass, in % m/m. */
  readonly byMass: ReadonlyMap<Held, Figure<Quantity>>;
  /** True where it was made of fresh herb, whose water spoils an oil. */
  readonly fresh: boolean;
}

/** A finished product: what its lines come to, and what of them a dose holds. */
export interface Product {
  readonly kind: 'product';
  /** What the lines are measured in: g, or mL where liquids are poured together. */
  readonly lineUnit: Unit;
  /** The lines of one making together. */
  readonly base: Figure<Quantity>;
  /**
   * What the base comes to in the unit that a dose is measured in, by the ratio as it is given: a dose holds
   * base x dose / makes.
   */
  readonly makes: Figure<Quantity>;
  /** What is in hand after parting it from the marc, where that is less. */
  readonly yields: Figure<Range> | null;
  /** Weight of 1 mL, where a dose may be measured by either. */
  readonly density: Figure<Quantity> | null;
  /** Drops of it in one mL, where it is taken by the drop. */
  readonly dropsPerMl: Figure<Quantity> | null;
  /** Herb (g) in one unit of a line; a line without one is the herb itself, or a vehicle. */
  readonly holds: ReadonlyMap<string, Figure<Quantity>>;
  readonly added: readonly Added[];
  /** The spirit, made from what is in the store. */
  readonly spirit: MixingFigures | null;
  /** Strength of the finished liquid in % v/v, a range where the moisture is one. */
  readonly strength: Figure<Quantity> | Figure<Range> | null;
  /** Ethanol in one mL of it, in g, at the most. */
  readonly ethanol: Figure<Quantity> | null;
  /** What the whole was drawn with, as a published dose names it. */
  readonly solvent: { readonly ratio: SolventRatio; readonly spirit: Strength | null } | null;
  readonly contents: Contents;
  readonly facts: readonly { readonly label: string; readonly value: Figure }[];
  readonly method: readonly MethodLine[];
}

/** What most products have nothing to say of. */
export const PLAIN = {
  kind: 'product',
  lineUnit: gram,
  yields: null,
  density: null,
  dropsPerMl: null,
  holds: new Map(),
  added: [],
  spirit: null,
  strength: null,
  ethanol: null,
  solvent: null,
  contents: { byMass: new Map(), fresh: false },
  facts: [],
} as const satisfies Partial<Product>;

/** The liquid that a ratio asks for: base x solvent / herb; mL for w/v, g for w/w. */
export function byRatio(base: Figure<Quantity>, ratio: SolventRatio, says: string): Figure<Quantity> {
  const unit = ratio.basis === 'w/v' ? millilitre : gram;
  const value = base.value.value.times(ratio.solvent).div(ratio.herb);
  return worked(quantity(value, unit), says, '{} x {} / {}', [
    base,
    given(ratio.solvent, `solvent in the ratio ${ratio.text}`),
    given(ratio.herb, `herb in the ratio ${ratio.text}`),
  ]);
}

/** The liquid that a ratio asks for, by volume and by weight; the one that the ratio does not count by the density. */
export function bothByRatio(
  base: Figure<Quantity>,
  ratio: SolventRatio,
  density: Figure<Quantity>,
  says: string,
  asked = says,
): Result<{ readonly volume: Figure<Quantity>; readonly mass: Figure<Quantity> }> {
  const amount = byRatio(base, ratio, asked);
  const poured = amount.value.unit.dimension === 'volume';
  const other = poured
    ? volumeToMass(amount.value, density.value)
    : massToVolume(amount.value, density.value);
  if (!other.ok) return other;
  const turned = worked(
    other.value,
    `${says}, by ${poured ? 'weight' : 'volume'}`,
    poured ? '{} x {}' : '{} / {}',
    [amount, density],
  );
  return ok(poured ? { volume: amount, mass: turned } : { volume: turned, mass: amount });
}

/** Whole ones of a product that is counted; half a capsule is none. */
export function wholeOf(makes: Figure<Quantity>): { whole: Figure<Quantity>; yields: Figure<Range> } {
  const value = { value: roundTo(makes.value.value, one, 'down'), unit: makes.value.unit };
  const whole = worked(value, `whole ${makes.value.unit.plural}`, '{}, rounded down', [makes]);
  return { whole, yields: { value: { low: value, high: value }, step: whole.step } };
}
