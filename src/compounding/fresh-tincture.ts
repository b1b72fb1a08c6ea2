import type { Preparation } from '../folder/schema/formula.ts';
import { type Figure, given } from '../measure/figure.ts';
import type { Strength } from '../measure/parse.ts';
import type { Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { spiritNeeded } from '../measure/spirit/spirit-needed.ts';
import type { Making, MakingContext } from './making.ts';
import { menstruum } from './menstruum.ts';
import { ownWater } from './own-water.ts';
import { byRatio } from './product.ts';
import { drawnWithSpirit } from './tincture.ts';

type FreshTincture = Extract<Preparation, { kind: 'fresh-tincture' }>;

/**
 * Tincture of fresh herb. The herb's own water thins the spirit, so the strength at the end is worked out, or, from
 * the strength that it is to end at, the spirit to pour: for the wettest that the herb may be, so that it is not too weak.
 * Where nothing in the store reaches it the best that can be had is said. Doses are stated by the ratio of fresh herb to
 * the spirit poured on. The marc is taken to keep what its dry matter would.
 */
export function freshTincture(p: FreshTincture, context: MakingContext): Result<Making> {
  const { base } = context;
  const water = ownWater(context);
  if (!water.ok) return water;
  if (water.value === null)
    return bad('a fresh-tincture needs the moisture of its herbs: add such as moisture: 78 %');
  const amount = byRatio(base, p.ratio, 'spirit to pour');
  const poured =
    p.spirit === undefined ? spiritFor(p, amount, base, water.value.moisture.value) : ok(p.spirit);
  if (!poured.ok) return poured;
  const liquid = menstruum(amount, poured.value, p.from);
  if (!liquid.ok) return liquid;
  const made = drawnWithSpirit(liquid.value, poured.value, p, context);
  if (!made.ok || p.target === undefined) return made;
  const target = given(p.target, 'strength to end at, from the formula');
  return ok({ ...made.value, facts: [{ label: 'to end at', value: target }] });
}

/** The strength to pour so that even the wettest herb leaves the target; the best there is, said, where none does. */
function spiritFor(
  p: FreshTincture,
  amount: Figure<Quantity>,
  plant: Figure<Quantity>,
  moisture: { readonly low: Quantity | null; readonly high: Quantity | null },
): Result<Strength> {
  if (p.target === undefined) return bad('write spirit: or target:');
  const needed = spiritNeeded({
    plant: plant.value,
    moisture,
    pour: amount.value,
    target: p.target,
    from: p.from,
  });
  if (!needed.ok) return needed;
  const { wettest } = needed.value;
  return wettest.reachable ? ok(wettest.volumeStrength) : bad(wettest.says);
}
