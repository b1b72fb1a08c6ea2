import type { Held } from '../folder/held.ts';
import { keyOf } from '../folder/ingredients.ts';
import type { Ingredient, Preparation } from '../folder/schema/formula.ts';
import { type Exact, exact, greatest, least, one, sum, zero } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { GLYCEROL_DENSITY, glycerolDensity, glycerolFraction } from '../measure/glycerol.ts';
import { type Quantity, quantity } from '../measure/quantity.ts';
import { ok, type Result } from '../measure/result.ts';
import { toMassStrength, toVolumeStrength } from '../measure/spirit/strength.ts';
import { millilitre } from '../measure/units.ts';
import type { Making, MakingContext } from './making.ts';
import { ethanolPerMl } from './menstruum.ts';
import { PLAIN, type Product } from './product.ts';
import { herbIn, stockDensity } from './stock.ts';

/**
 * Liquids dispensed together in one bottle: tinctures, liquid extracts, glycerites, syrups. Parts are by volume. The
 * strength of the blend is the ethanol of all of it in all that was poured; what little the strengths lose in volume
 * as they meet is left out, for no published density covers what is dissolved in them. Whether it keeps is judged
 * of the blend, never of its parts: 70 mL at 25 % with 30 mL of syrup is 17.5 %.
 */
export function liquidBlend(
  _: Extract<Preparation, { kind: 'liquid-blend' }>,
  context: MakingContext,
): Result<Making> {
  const blend = blended(context);
  return blend.ok ? ok(blend.value) : blend;
}

/** The blend of the lines, for whatever is taken of it. */
export function blended(context: MakingContext): Result<Product> {
  const { base, ingredients } = context;
  const volumes = context.masses(base);
  if (!volumes.ok) return volumes;
  const volume = (i: Ingredient): Figure<Quantity> => volumes.value.get(keyOf(i)) as Figure<Quantity>;
  const holds = new Map<string, Figure<Quantity>>();
  for (const i of ingredients) {
    const herb = herbIn(i, millilitre);
    if (!herb.ok) return herb;
    if (herb.value !== null && i.herb !== undefined) holds.set(i.herb, herb.value);
  }
  const strength = strengthOf(ingredients, volume, base);
  if (!strength.ok) return strength;
  const byMass = sharesByMass(ingredients, volume, context);
  if (!byMass.ok) return byMass;
  return ok({
    ...PLAIN,
    lineUnit: millilitre,
    base,
    makes: base,
    holds,
    strength: strength.value,
    ethanol: strength.value && ethanolPerMl(strength.value, 'ethanol in 1 mL of the blend'),
    contents: {
      ...(strength.value ? { ethanol: strength.value } : {}),
      byMass: byMass.value,
      fresh: false,
    },
    facts: [],
    method: [
      ...apart(ingredients, context),
      ['Pour them one after the other into the measure up to the fill lines below, then mix and bottle.'],
    ],
  });
}

/** Final % v/v = sum of mL x % v/v / all mL; null where nothing in it holds ethanol. */
function strengthOf(
  ingredients: readonly Ingredient[],
  volume: (i: Ingredient) => Figure<Quantity>,
  base: Figure<Quantity>,
): Result<Figure<Quantity> | null> {
  const strong = ingredients.filter((i) => i.spirit !== undefined);
  if (strong.length === 0) return ok(null);
  const inputs: Figure<Quantity>[] = [];
  let ethanol = zero;
  for (const i of strong) {
    const byVolume = byVolumeFigure(i);
    if (!byVolume.ok) return byVolume;
    inputs.push(volume(i), byVolume.value);
    ethanol = ethanol.plus(volume(i).value.value.times(byVolume.value.value.value));
  }
  const by = `(${strong.map(() => '{} x {}').join(' + ')}) / {}`;
  const value = quantity(ethanol.div(base.value.value), '%{v/v}');
  return ok(worked(value, 'strength of the blend', by, [...inputs, base]));
}

function byVolumeFigure(i: Ingredient): Result<Figure<Quantity>> {
  const spirit = i.spirit as Quantity;
  const stated = given(spirit, `strength of the ${i.form} of ${i.herb}, from the formula`);
  if (spirit.unit.dimension === 'share v/v') return ok(stated);
  const v = toVolumeStrength(spirit);
  return v.ok
    ? ok(
        worked(v.value, `strength of the ${i.form} of ${i.herb} by volume`, '{} by the published formula', [
          stated,
        ]),
      )
    : v;
}

/** What of the blend, by weight, can make it keep; nothing is said where the weight of a part is not known. */
function sharesByMass(
  ingredients: readonly Ingredient[],
  volume: (i: Ingredient) => Figure<Quantity>,
  context: MakingContext,
): Result<Map<Held, Figure<Quantity>>> {
  const masses: Exact[] = [];
  const held = new Map<Held, Exact>();
  const inputs: Figure[] = [];
  for (const i of ingredients) {
    const part = contentsOf(i, context);
    if (!part.ok) return part;
    if (part.value === null) return ok(new Map());
    const mass = volume(i).value.value.times(part.value.density.value.value);
    masses.push(mass);
    inputs.push(volume(i), part.value.density);
    for (const [what, share] of part.value.holds)
      held.set(what, (held.get(what) ?? zero).plus(mass.times(share)));
  }
  const all = sum(masses);
  return ok(
    new Map(
      [...held].map(([what, mass]) => [
        what,
        worked(
          quantity(mass.times(100).div(all), '%{m/m}'),
          `${what} in the blend, by weight`,
          `${what} of the parts in ${ingredients.map(() => '{} x {}').join(' + ')}`,
          inputs,
        ),
      ]),
    ),
  );
}

/** The weight of 1 mL of a part, and the shares of it that count for keeping; null where the weight is not known. */
function contentsOf(
  i: Ingredient,
  context: MakingContext,
): Result<{ density: Figure<Quantity>; holds: ReadonlyMap<Held, Exact> } | null> {
  if (i.vehicle !== undefined) {
    const v = context.shelf.vehicle(i.vehicle);
    if (!v.ok) return v;
    const density = stockDensity(i) ?? v.value.density;
    return ok(density && { density, holds: v.value.holds });
  }
  if (i.glycerol) {
    const fraction = glycerolFraction(i.glycerol);
    if (!fraction.ok) return fraction;
    const density = glycerolDensity(fraction.value);
    if (!density.ok) return density;
    const rho = given(density.value, `density of the glycerol in ${i.herb} at 20 C`, GLYCEROL_DENSITY);
    const holds = new Map<Held, Exact>([
      ['glycerol', fraction.value],
      ['water', one.minus(fraction.value)],
    ]);
    return ok({ density: stockDensity(i) ?? rho, holds });
  }
  const density = stockDensity(i);
  const spirit = i.spirit && toMassStrength(i.spirit);
  const holds = new Map<Held, Exact>(spirit?.ok ? [['water', one.minus(spirit.value.value.div(100))]] : []);
  return ok(density && { density, holds });
}

/** Where strengths stand far apart, what one holds may fall out in the other: common practice, no source. */
function apart(ingredients: readonly Ingredient[], { shelf }: MakingContext): Making['method'][number][] {
  const strengths = ingredients.flatMap((i) => {
    const s = i.spirit && toVolumeStrength(i.spirit);
    return s?.ok ? [s.value.value] : i.vehicle !== undefined || i.spirit === undefined ? [exact(0)] : [];
  });
  const [low, high] = [least(strengths), greatest(strengths)];
  if (low === undefined || high === undefined || high.minus(low).lt(shelf.sediment.value)) return [];
  return [
    [
      'Strengths from',
      given(quantity(low, '%{v/v}'), 'weakest part'),
      'to',
      given(quantity(high, '%{v/v}'), 'strongest part'),
      'meet: a sediment may fall. Begin with the strongest, let stand a day, shake before use.',
    ],
  ];
}
