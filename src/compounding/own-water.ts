import { keyOf } from '../folder/ingredients.ts';
import type { Ingredient } from '../folder/schema/formula.ts';
import { addUp } from '../measure/add-up.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { minus, type Quantity, quantity, type Range } from '../measure/quantity.ts';
import { ok, type Result } from '../measure/result.ts';
import { gram, percent } from '../measure/units.ts';
import type { MakingContext } from './making.ts';

/** The water that herbs of a stated moisture bring in: their weight, and the moisture of them together. */
export interface OwnWater {
  readonly plant: Figure<Quantity>;
  readonly moisture: Figure<Range>;
  readonly herbs: string;
}

/** Whether any of the herbs goes in fresh. */
export const anyFresh = (ingredients: readonly Ingredient[]): boolean =>
  ingredients.some((i) => i.form === 'fresh');

/** g of water that they bring, at the least or at the most. */
export const broughtBy = ({ plant, moisture }: OwnWater, end: 'low' | 'high'): Quantity =>
  quantity(plant.value.value.times(moisture.value[end]?.value ?? 0).div(100), gram);

/** Herbs whose moisture the formula states; null where it states none. */
export function ownWater({ base, masses, ingredients }: MakingContext): Result<OwnWater | null> {
  const wet = ingredients.filter((i) => i.moisture !== undefined && i.form === 'fresh');
  const [first, ...more] = wet;
  if (first === undefined) return ok(null);
  const all = masses(base);
  if (!all.ok) return all;
  const weight = (i: Ingredient): Figure<Quantity> => all.value.get(keyOf(i)) as Figure<Quantity>;
  if (more.length === 0)
    return ok({
      plant: weight(first),
      moisture: given(first.moisture as Range, `moisture of ${first.herb}, from the formula`),
      herbs: first.herb ?? '',
    });
  const weights = wet.map(weight);
  const plant = addUp(weights, 'fresh herb');
  const inputs = wet.flatMap((i, n) => [
    weights[n] as Figure<Quantity>,
    given(i.moisture as Range, `moisture of ${i.herb}, from the formula`),
  ]);
  const end = (which: 'low' | 'high'): Quantity => {
    const water = wet
      .map((i, n) => (weights[n] as Figure<Quantity>).value.value.times(i.moisture?.[which]?.value ?? 0))
      .reduce((a, b) => a.plus(b));
    return quantity(water.div(plant.value.value), percent);
  };
  const by = `(${wet.map(() => '{} x {}').join(' + ')}) / {}`;
  return ok({
    plant,
    moisture: worked({ low: end('low'), high: end('high') }, 'moisture of the fresh herb together', by, [
      ...inputs,
      plant,
    ]),
    herbs: wet.map((i) => i.herb).join(' and '),
  });
}

/** Dry herb and the dry matter of the fresh, in g at the most: all of it less the least water that the fresh holds. */
export function dryMatter(own: OwnWater, all: Figure<Quantity>): Figure<Quantity> {
  return worked(minus(all.value, broughtBy(own, 'low')), 'dry matter, at the most', '{} - {} x {}', [
    all,
    own.plant,
    own.moisture,
  ]);
}
