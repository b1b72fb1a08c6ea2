import { type Figure, given, worked } from '../measure/figure.ts';
import type { Strength } from '../measure/parse.ts';
import { type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { OIML_R22 } from '../measure/spirit/coefficients.ts';
import { type Measured, measured, spiritOf } from '../measure/spirit/composition.ts';
import { ethanolDensity } from '../measure/spirit/ethanol.ts';
import { dilute } from '../measure/spirit/mixing.ts';
import { AT_20C } from '../measure/spirit/reference.ts';
import { toVolumeStrength } from '../measure/spirit/strength.ts';
import { gramPerMillilitre } from '../measure/units.ts';
import { type MixingFigures, mixingFigures } from './spirit-figures.ts';

/** The spirit that herbs are drawn with: its volume and weight at 20 C, and how it is made from what is in the store. */
export interface Menstruum {
  readonly volume: Figure<Quantity>;
  readonly mass: Figure<Quantity>;
  readonly strength: Figure<Quantity>;
  readonly mixing: MixingFigures | null;
}

/**
 * So much spirit of a strength, a volume or a mass, each from the other by the density of OIML R 22 at 20 C. With
 * `from`, the strong spirit and the water that make it: masses that add up, volumes that do not.
 * Errors: a strength that cannot be, or that the strong spirit does not reach.
 */
export function menstruum(
  amount: Figure<Quantity>,
  strength: Strength,
  from: Strength | undefined,
): Result<Menstruum> {
  const spirit = spiritOf(strength, AT_20C);
  if (!spirit.ok) return spirit;
  const both = measured(amount.value, spirit.value);
  if (!both.ok) return both;
  const byVolume = toVolumeStrength(strength);
  if (!byVolume.ok) return byVolume;
  const made = from === undefined ? ok(null) : dilution(amount, strength, from);
  if (!made.ok) return made;
  return ok({
    ...asFigures(amount, both.value, strength, spirit.value.density),
    strength: strengthFigure(strength, byVolume.value),
    mixing: made.value,
  });
}

function asFigures(
  amount: Figure<Quantity>,
  both: Measured,
  strength: Strength,
  density: Quantity['value'],
): { volume: Figure<Quantity>; mass: Figure<Quantity> } {
  const rho = given(
    quantity(density, gramPerMillilitre),
    `density of spirit of ${strength.value.toFixed()} ${strength.unit.symbol} at 20 C`,
    OIML_R22,
  );
  return amount.value.unit.dimension === 'volume'
    ? { volume: amount, mass: worked(both.mass, 'spirit to pour, by weight', '{} x {}', [amount, rho]) }
    : { mass: amount, volume: worked(both.volume, 'spirit to pour, by volume', '{} / {}', [amount, rho]) };
}

function strengthFigure(strength: Strength, byVolume: Quantity): Figure<Quantity> {
  const stated = given(strength, 'strength of the spirit, from the formula');
  return strength.unit.dimension === 'share v/v'
    ? stated
    : worked(byVolume, 'strength of the spirit by volume', '{} by the published formula', [stated], OIML_R22);
}

/** Null where the spirit in the store is already of this strength. */
function dilution(amount: Figure<Quantity>, to: Strength, from: Strength): Result<MixingFigures | null> {
  const d = dilute({ to, make: amount.value, from });
  if (!d.ok) return bad(d.why);
  const { stock, water, made } = d.value;
  if (water.mass.value.isZero()) return ok(null);
  return ok(
    mixingFigures(
      [
        { says: 'strong spirit', amount: stock, strength: from },
        { says: 'water', amount: water, strength: null },
      ],
      made,
      AT_20C,
    ),
  );
}

/** g of ethanol in 1 mL of a liquid of this strength: v/v x the density of ethanol. */
export function ethanolPerMl(strength: Figure<Quantity>, says: string): Figure<Quantity> {
  const density = given(ethanolDensity(), 'density of ethanol at 20 C', OIML_R22);
  const value = strength.value.value.div(100).times(density.value.value);
  return worked(quantity(value, gramPerMillilitre), says, '{} x {}', [strength, density]);
}
