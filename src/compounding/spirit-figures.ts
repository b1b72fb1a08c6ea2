import { addUp } from '../measure/add-up.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import type { Strength } from '../measure/parse.ts';
import { minus, plus, type Quantity, quantity } from '../measure/quantity.ts';
import { OIML_R22 } from '../measure/spirit/coefficients.ts';
import { type Measured, spiritOf } from '../measure/spirit/composition.ts';
import type { Reference } from '../measure/spirit/reference.ts';
import { gramPerMillilitre } from '../measure/units.ts';

/** What is poured together: volume at the reference temperature, mass, strength. */
export interface PouredFigures {
  readonly says: string;
  readonly volume: Figure<Quantity>;
  readonly mass: Figure<Quantity>;
  readonly strength: Figure<Quantity> | null;
}

/** A mixing of spirits and water by mass, every figure with its sum. */
export interface MixingFigures {
  readonly poured: readonly PouredFigures[];
  readonly mixture: { readonly volume: Figure<Quantity>; readonly mass: Figure<Quantity> };
  readonly strength: { readonly byVolume: Figure<Quantity>; readonly byMass: Figure<Quantity> };
  readonly ethanol: Figure<Quantity>;
  /** Sum of the volumes poured less the volume that comes of it. */
  readonly contraction: Figure<Quantity>;
}

/** The density of a spirit as a figure of its own, from the published formula. */
function densityFigure(strength: Strength, says: string, at: Reference): Figure<Quantity> {
  const spirit = spiritOf(strength, at);
  if (!spirit.ok) throw new Error(spirit.why);
  return given(
    quantity(spirit.value.density, gramPerMillilitre),
    `density of ${says} at ${at.says}`,
    OIML_R22,
  );
}

/**
 * The figures of a mixing that has been solved: masses from volumes by the density of each, the mixture's mass as
 * their sum, its volume by its own density, the contraction as what the volumes lose. Volumes are never subtracted
 * to find what to add.
 */
export function mixingFigures(
  parts: readonly { readonly says: string; readonly amount: Measured; readonly strength: Strength | null }[],
  made: Measured & {
    readonly massStrength: Strength;
    readonly volumeStrength: Strength;
    readonly ethanol: Quantity;
  },
  at: Reference,
): MixingFigures {
  const water = quantity(0, '%{v/v}');
  const poured = parts.map(({ says, amount, strength }): PouredFigures => {
    const volume = given(amount.volume, `${says}, volume at ${at.says}`);
    const density = densityFigure(strength ?? water, says, at);
    const mass = worked(amount.mass, `${says}, mass`, '{} x {}', [volume, density]);
    return { says, volume, mass, strength: strength && given(strength, `strength of ${says}`) };
  });
  const mass = addUp(
    poured.map((p) => p.mass),
    'mass of the mixture',
  );
  const ethanolParts = poured.filter((p) => p.strength !== null);
  const ethanol = worked(
    made.ethanol,
    'ethanol in the mixture, by mass',
    ethanolParts.map(() => '{} of {}').join(' + '),
    ethanolParts.flatMap((p) => [byMassFigure(p, at), p.mass]),
  );
  const byMass = worked(made.massStrength, 'strength by mass', '{} / {}', [ethanol, mass]);
  const density = densityFigure(made.massStrength, 'the mixture', at);
  const pure = densityFigure(quantity(100, '%{v/v}'), 'ethanol', at);
  const byVolume = worked(made.volumeStrength, 'strength by volume', '{} x {} / {}', [byMass, density, pure]);
  const volume = worked(made.volume, `volume of the mixture at ${at.says}`, '{} / {}', [mass, density]);
  const before = poured.map((p) => p.volume);
  const contraction = worked(
    minus(before.map((f) => f.value).reduce(plus), made.volume),
    'contraction',
    `${before.map(() => '{}').join(' + ')} - {}`,
    [...before, volume],
  );
  return { poured, mixture: { volume, mass }, strength: { byVolume, byMass }, ethanol, contraction };
}

function byMassFigure(p: PouredFigures, at: Reference): Figure<Quantity> {
  const strength = p.strength as Figure<Quantity>;
  if (strength.value.unit.dimension === 'share m/m') return strength;
  const spirit = spiritOf(strength.value, at);
  if (!spirit.ok) throw new Error(spirit.why);
  return worked(
    quantity(spirit.value.massFraction.times(100), '%{m/m}'),
    `${p.says}, strength by mass`,
    '{} by the published formula',
    [strength],
    OIML_R22,
  );
}
