import type { Preparation } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { ok, type Result } from '../measure/result.ts';
import { blended } from './liquid-blend.ts';
import type { Making, MakingContext } from './making.ts';

/**
 * Drops: a liquid, or several in one bottle, taken by the drop. A drop has no size of its own: the formula says how many
 * this very dropper gives of this very liquid, counted into a small measure.
 */
export function drops(p: Extract<Preparation, { kind: 'drops' }>, context: MakingContext): Result<Making> {
  const blend = blended(context);
  if (!blend.ok) return blend;
  const dropsPerMl = given(p.drops_per_ml, 'drops per mL, from the formula');
  return ok({ ...blend.value, dropsPerMl, facts: [{ label: 'the dropper gives', value: dropsPerMl }] });
}
