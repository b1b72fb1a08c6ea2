import type { Preparation } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { ok, type Result } from '../measure/result.ts';
import type { Making, MakingContext } from './making.ts';
import { fillPot, potHerbs } from './pot.ts';

/**
 * Cold maceration: the herb stands in cold water and is strained; for mucilage and for what heat would spoil.
 * The water is boiled beforehand and cooled (common practice), because nothing later kills what the herb brings in.
 */
export function coldMaceration(
  p: Extract<Preparation, { kind: 'cold-maceration' }>,
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
  return ok({
    kind: 'pot',
    pot: pot.value,
    inPot: herbs.value.inPot,
    method: [
      ['Pour', pot.value.water, 'of boiled and cooled water on', pot.value.herb, 'of the blend.'],
      [
        'Let stand',
        given(p.macerate, 'time to macerate, from the formula'),
        'cold, stirring now and then, and strain.',
      ],
      ...(p.boil_before_use ? [['Bring the strained liquid to the boil once before use.']] : []),
      ...(pot.value.makeUpTo
        ? [['Pour water through the strainer to', pot.value.makeUpTo, 'in all.'] as const]
        : []),
    ],
  });
}
