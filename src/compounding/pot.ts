import { sum } from '../measure/exact.ts';
import { type Cited, type Figure, given, worked } from '../measure/figure.ts';
import { compareQuantities, inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gram, millilitre, minute, per } from '../measure/units.ts';
import { write } from '../measure/write.ts';
import type { MakingContext } from './making.ts';
import { keptBy } from './marc.ts';

/** How much water a gram of herb keeps back after straining, in mL/g, and who says so. */
export interface HeldBack {
  readonly perGram: Quantity;
  readonly source?: Cited | undefined;
  readonly says: string;
}

/** One making of a water preparation: what goes into the pot and what is strained off. */
export interface Pot {
  readonly herb: Figure<Quantity>;
  readonly water: Figure<Quantity>;
  readonly strained: Figure<Quantity>;
  /** True where the strained volume was worked out and not measured or made up. */
  readonly estimated: boolean;
  /** Water to pass through the strainer until this volume is reached. */
  readonly makeUpTo?: Figure<Quantity>;
}

export interface PotAsked {
  readonly herb: Figure<Quantity>;
  readonly water: Quantity;
  readonly strained?: Quantity | undefined;
  readonly makeUpTo?: Quantity | undefined;
  readonly boiledOff?: Figure<Quantity> | undefined;
  /** What one pot holds of each herb, and the water that it keeps back. */
  readonly herbs: readonly {
    readonly key: string;
    readonly inPot: Figure<Quantity>;
    readonly heldBack: HeldBack;
  }[];
}

/**
 * The strained volume of a pot, in mL: as measured; or as made up; or water in - water held back by the herb
 * (sum of g x mL/g) - water boiled off. Source of the balance: Russian Federation pharmacopoeia, general article
 * OFS.1.5.3.0012.15 (water absorption coefficient), restated; each coefficient carries its own source.
 * Errors: a strained volume above the water in, or nothing left to strain.
 */
export function fillPot(asked: PotAsked): Result<Pot> {
  const { herb } = asked;
  const water = given(inUnit(asked.water, millilitre), 'water in one pot, from the formula');
  if (asked.makeUpTo) {
    const strained = given(inUnit(asked.makeUpTo, millilitre), 'strained and made up to, from the formula');
    return ok({ herb, water, strained, estimated: false, makeUpTo: strained });
  }
  if (asked.strained) {
    if (compareQuantities(asked.strained, asked.water) > 0)
      return bad(
        `${write(asked.strained)} strained off is more than the ${write(asked.water)} of water put in`,
      );
    return ok({
      herb,
      water,
      strained: given(inUnit(asked.strained, millilitre), 'strained volume as measured, from the formula'),
      estimated: false,
    });
  }
  const held = asked.herbs.map(({ key, inPot, heldBack }) => {
    const rate = given(heldBack.perGram, `${heldBack.says} (${key})`, heldBack.source);
    return worked(keptBy(inPot.value, heldBack.perGram), `water held back by ${key}, estimate`, '{} x {}', [
      inPot,
      rate,
    ]);
  });
  const lost = asked.boiledOff ? [...held, asked.boiledOff] : held;
  const left = water.value.value.minus(sum(lost.map((f) => f.value.value)));
  if (left.lte(0)) {
    const taker = asked.boiledOff
      ? `${write(herb.value)} of herb and the boiling take`
      : `${write(herb.value)} of herb takes`;
    return bad(`nothing strains off: ${taker} up all of ${write(asked.water)}`);
  }
  return ok({
    herb,
    water,
    strained: worked(
      quantity(left, millilitre),
      'strained volume, estimate',
      `{}${' - {}'.repeat(lost.length)}`,
      [water, ...lost],
    ),
    estimated: true,
  });
}

/** What boils off in a time, at the rate that the practice measured for its own pan and hob. */
export function boiledOff(rate: Quantity, boiling: Quantity): Figure<Quantity> {
  const perMinute = inUnit(rate, per(millilitre, minute)).value;
  const inputs = [
    given(rate, 'boils off, measured by the practice'),
    given(boiling, 'boiled for, from the formula'),
  ];
  return worked(
    quantity(perMinute.times(inUnit(boiling, minute).value), millilitre),
    'boiled off, estimate',
    '{} x {}',
    inputs,
  );
}

/** The herb of one pot, what it holds of each, and the water that each keeps back. */
export function potHerbs(
  p: { readonly herb: Quantity; readonly holds?: Quantity | undefined },
  context: MakingContext,
): Result<{
  herb: Figure<Quantity>;
  inPot: ReadonlyMap<string, Figure<Quantity>>;
  herbs: PotAsked['herbs'];
}> {
  const herb = given(inUnit(p.herb, gram), 'herb in one pot, from the formula');
  const masses = context.masses(herb);
  if (!masses.ok) return masses;
  const own: HeldBack | undefined = p.holds && {
    perGram: p.holds,
    says: 'water kept back by this blend, from the formula',
  };
  return ok({
    herb,
    inPot: masses.value,
    herbs: [...masses.value].map(([key, inPot]) => ({ key, inPot, heldBack: own ?? context.heldBack(key) })),
  });
}
