import type { Preparation } from '../folder/schema/formula.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { plus, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { Making, MakingContext } from './making.ts';
import { anyFresh, broughtBy, ownWater } from './own-water.ts';
import { bothByRatio, PLAIN } from './product.ts';
import type { Vehicle } from './shelf.ts';

/**
 * Herb in honey: fine powder stirred in and left there, or cut herb that is strained out. Above 20 % of water honey
 * ferments, so the herb's own water is counted. A dose holds herb / (herb + honey) where it stays in; strained, by the
 * ratio of herb to honey.
 */
export function honey(p: Extract<Preparation, { kind: 'honey' }>, context: MakingContext): Result<Making> {
  const { base } = context;
  const vehicle = context.shelf.vehicle('honey');
  if (!vehicle.ok) return vehicle;
  const { density } = vehicle.value;
  if (density === null) return bad('honey has no density in the table of vehicles');
  const both = bothByRatio(base, p.ratio, density, 'honey');
  if (!both.ok) return both;
  const { mass } = both.value;
  const makes = p.strained
    ? mass
    : worked(plus(mass.value, base.value), 'herb and honey', '{} + {}', [base, mass]);
  const water = waterShare(mass, makes, p.strained, vehicle.value, context);
  if (!water.ok) return water;
  return ok({
    ...PLAIN,
    base,
    makes,
    density,
    added: [{ says: 'honey', amount: mass }],
    solvent: { ratio: p.ratio, spirit: null },
    contents: {
      byMass: new Map([
        ['water', water.value],
        ['honey', given(quantity(100, '%{m/m}'), 'honey')],
      ]),
      fresh: anyFresh(context.ingredients),
    },
    facts: [{ label: 'water in it', value: water.value }],
    method: [
      p.strained
        ? ['Cover', base, 'of herb with', mass, 'of honey, stir.']
        : ['Stir', base, 'of fine powder into', mass, 'of honey, a little at a time.'],
      [
        ...(p.macerate
          ? ['Let stand', given(p.macerate, 'time to macerate, from the formula')]
          : ['Let stand']),
        'in a warm place, turning it daily',
        p.strained ? ', then warm it gently and strain.' : '.',
      ],
    ],
  });
}

/** Water at the most, by weight: of the honey and of the herb that stands in it, in what is kept. */
function waterShare(
  mass: Figure<Quantity>,
  makes: Figure<Quantity>,
  strained: boolean,
  vehicle: Vehicle,
  context: MakingContext,
): Result<Figure<Quantity>> {
  const own = vehicle.holds.get('water');
  if (own === undefined) return bad('the table of vehicles does not say how much water honey holds');
  const inHoney = given(quantity(own.times(100), '%{m/m}'), 'water in the honey', vehicle.source);
  const wet = ownWater(context);
  if (!wet.ok) return wet;
  const fromHoney = mass.value.value.times(own);
  if (wet.value === null) {
    const value = quantity(fromHoney.times(100).div(makes.value.value), '%{m/m}');
    return ok(
      strained ? inHoney : worked(value, 'water in the whole', '{} x {} / {}', [inHoney, mass, makes]),
    );
  }
  const { plant, moisture } = wet.value;
  const fromHerb = broughtBy(wet.value, 'high').value;
  const whole = strained ? mass.value.value.plus(fromHerb) : makes.value.value;
  return ok(
    worked(
      quantity(fromHoney.plus(fromHerb).times(100).div(whole), '%{m/m}'),
      'water in the whole, at the most',
      strained ? '({} x {} + {} x {}) / ({} + the same)' : '({} x {} + {} x {}) / {}',
      strained ? [inHoney, mass, plant, moisture, mass] : [inHoney, mass, plant, moisture, makes],
    ),
  );
}
