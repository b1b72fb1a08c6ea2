import type { Preparation } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { ok, type Result } from '../measure/result.ts';
import type { Making, MakingContext } from './making.ts';
import { fillPot, potHerbs } from './pot.ts';

/**
 * Infusion: boiling water poured on the herb, left to stand, strained. Nothing is taken to boil off.
 * For flowers, leaves and whatever owes its worth to volatile or easily dissolved matter (common practice).
 */
export function infusion(
  p: Extract<Preparation, { kind: 'infusion' }>,
  context: MakingContext,
): Result<Making> {
  const herbs = potHerbs(p, context);
  if (!herbs.ok) return herbs;
  const pot = fillPot({
    herb: herbs.value.herb,
    water: p.water,
    strained: p.strained,
    makeUpTo: p.make_up_to,
    herbs: herbs.value.herbs,
  });
  if (!pot.ok) return pot;
  const stand = given(p.infuse, 'time to infuse, from the formula');
  return ok({
    kind: 'pot',
    pot: pot.value,
    inPot: herbs.value.inPot,
    method: [
      ['Pour', pot.value.water, 'of boiling water on', pot.value.herb, 'of the blend.'],
      [p.covered === false ? 'Let stand' : 'Cover, let stand', stand, 'and strain.'],
      ...(pot.value.makeUpTo
        ? [['Pour water through the strainer to', pot.value.makeUpTo, 'in all.'] as const]
        : []),
    ],
  });
}
