import { isStockForm } from '../folder/forms.ts';
import type { Held } from '../folder/held.ts';
import { keyOf } from '../folder/ingredients.ts';
import type { Ingredient, Preparation } from '../folder/schema/formula.ts';
import { type Exact, zero } from '../measure/exact.ts';
import { type Figure, worked } from '../measure/figure.ts';
import { type Quantity, quantity } from '../measure/quantity.ts';
import { ok, type Result } from '../measure/result.ts';
import { gram } from '../measure/units.ts';
import type { Making, MakingContext } from './making.ts';
import { anyFresh } from './own-water.ts';
import { PLAIN } from './product.ts';
import { herbIn } from './stock.ts';

/**
 * Ointment: infused oils, fats and wax melted together, all by weight. The wax sets it: about 6 % in soft paraffin, 15 to
 * 20 % in ointments of oil or lard, a third in a stiff cerate (British Pharmaceutical Codex 1911; USP IX simple ointment, 20 %).
 */
export function ointment(
  _: Extract<Preparation, { kind: 'ointment' }>,
  context: MakingContext,
): Result<Making> {
  const { base, ingredients } = context;
  const masses = context.masses(base);
  if (!masses.ok) return masses;
  const mass = (i: Ingredient): Figure<Quantity> => masses.value.get(keyOf(i)) as Figure<Quantity>;
  const holds = new Map<string, Figure<Quantity>>();
  const sums = new Map<Held, { value: Exact; inputs: Figure[] }>();
  for (const i of ingredients) {
    const herb = herbIn(i, gram);
    if (!herb.ok) return herb;
    if (herb.value !== null && i.herb !== undefined) holds.set(i.herb, herb.value);
    if (i.vehicle === undefined) continue;
    const v = context.shelf.vehicle(i.vehicle);
    if (!v.ok) return v;
    for (const [what, share] of v.value.holds) {
      const before = sums.get(what) ?? { value: zero, inputs: [] };
      sums.set(what, {
        value: before.value.plus(mass(i).value.value.times(share)),
        inputs: [...before.inputs, mass(i)],
      });
    }
  }
  const byMass = new Map(
    [...sums].map(([what, { value, inputs }]) => [
      what,
      worked(
        quantity(value.times(100).div(base.value.value), '%{m/m}'),
        `${what}, by weight`,
        `(${inputs.map(() => '{}').join(' + ')}) / {}`,
        [...inputs, base],
      ),
    ]),
  );
  const wax = byMass.get('wax');
  const watery = ingredients.some(
    (i) => i.form === 'tincture' || i.form === 'fresh' || i.form === 'liquid-extract',
  );
  return ok({
    ...PLAIN,
    base,
    makes: base,
    holds,
    contents: { byMass, fresh: anyFresh(ingredients) },
    facts: wax ? [{ label: 'wax', value: wax }] : [],
    method: [
      ['Melt the wax and fats over warm water, the hardest first.'],
      ...(ingredients.some((i) => i.form !== undefined && isStockForm(i.form))
        ? [['Stir in the oils warm.'] as const]
        : []),
      ...(watery
        ? [['Stir in what is watery last, a little at a time; it may part from the fat.'] as const]
        : []),
      ['Test a drop on a cold plate; stir until it sets, then fill the jars.'],
    ],
  });
}
