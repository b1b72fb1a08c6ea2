import type { Preparation } from '../folder/schema/formula.ts';
import { given, worked } from '../measure/figure.ts';
import { inUnit, minus, over, type Quantity, quantity, times } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gram } from '../measure/units.ts';
import { write } from '../measure/write.ts';
import type { Making, MakingContext } from './making.ts';
import { PLAIN, wholeOf } from './product.ts';

/**
 * Suppositories: powder in a melted base. The powder takes the place of some of it: base = number x what the mould holds of
 * the plain base - powder / displacement value, where the displacement value is the g of this powder that take the
 * place of 1 g of this base. It is found by a trial batch (`displacementOf`), and never assumed.
 * Source: pharmacy teaching on displacement values (worked cases in tests/reference).
 */
export function suppository(
  p: Extract<Preparation, { kind: 'suppository' }>,
  context: MakingContext,
): Result<Making> {
  const { base: powder } = context;
  const base = context.shelf.vehicle(p.base);
  if (!base.ok) return base;
  const each = given(inUnit(p.each, gram), 'herb in each, from the formula');
  const makes = worked(
    quantity(powder.value.value.div(each.value.value), '{suppository}'),
    'suppositories',
    '{} / {}',
    [powder, each],
  );
  const mould = given(inUnit(p.mould, gram), 'base that one mould holds, from the formula');
  const displacement = given(p.displacement, 'displacement value, from the formula');
  const needed = baseNeeded(powder.value, makes.value.value, mould.value, p.displacement);
  if (!needed.ok) return needed;
  const toMelt = worked(needed.value, `${base.value.term} to melt`, '{} x {} - {} / {}', [
    makes,
    mould,
    powder,
    displacement,
  ]);
  const { yields } = wholeOf(makes);
  return ok({
    ...PLAIN,
    base: powder,
    makes,
    yields,
    added: [{ says: base.value.term, amount: toMelt }],
    facts: [{ label: 'displacement value', value: displacement }],
    method: [
      [
        'Melt',
        toMelt,
        `of ${base.value.term} as gently as it will; rub`,
        powder,
        'of fine powder into a little of it.',
      ],
      ['Stir in the rest, pour just before it sets, a little above the rim, and trim when cold.'],
      ['Make one or two more than are asked for: some of the mass stays in the dish.'],
    ],
  });
}

/** Base in g for so many moulds, with so much powder in them all together. Error: the powder alone overfills them. */
export function baseNeeded(
  powder: Quantity,
  moulds: Quantity['value'],
  mould: Quantity,
  displacement: Quantity['value'],
): Result<Quantity> {
  const needed = minus(times(inUnit(mould, gram), moulds), over(inUnit(powder, gram), displacement));
  return needed.value.gt(0)
    ? ok(needed)
    : bad(`${write(powder)} of powder fills the moulds by itself: put less into each or take a larger mould`);
}

/**
 * The displacement value of a trial batch: powder / (moulds x mould - (batch - powder)). Masses in any unit.
 * Error: a batch that weighs less than its powder, or in which no base was displaced.
 */
export function displacementOf(trial: {
  readonly moulds: Quantity['value'];
  readonly mould: Quantity;
  readonly powder: Quantity;
  readonly batch: Quantity;
}): Result<Quantity['value']> {
  const base = minus(inUnit(trial.batch, gram), inUnit(trial.powder, gram));
  if (!base.value.gte(0)) return bad('the batch weighs less than the powder in it');
  const displaced = minus(times(inUnit(trial.mould, gram), trial.moulds), base);
  if (!displaced.value.gt(0)) return bad('the batch holds as much base as plain ones: nothing was displaced');
  return ok(inUnit(trial.powder, gram).value.div(displaced.value));
}
