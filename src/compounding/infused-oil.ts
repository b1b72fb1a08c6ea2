import type { Preparation } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { Making, MakingContext } from './making.ts';
import { marcKeeps, yieldOf } from './marc.ts';
import { anyFresh } from './own-water.ts';
import { bothByRatio, PLAIN } from './product.ts';

/**
 * Infused oil: herb drawn with a fixed oil and pressed out. Dried herb, or fresh that has wilted: water left in the
 * oil lets it spoil, and plants under oil can let the toxin of botulism form (Ohio State University Extension, flavoured oils).
 */
export function infusedOil(
  p: Extract<Preparation, { kind: 'infused-oil' }>,
  context: MakingContext,
): Result<Making> {
  const { base } = context;
  const oil = context.shelf.vehicle(p.oil);
  if (!oil.ok) return oil;
  const { density, term } = oil.value;
  if (density === null)
    return bad(`${p.oil} has no density in the table of vehicles: add it to vehicles.own.yaml`);
  const both = bothByRatio(base, p.ratio, density, term, `${term} to pour`);
  if (!both.ok) return both;
  const { volume, mass } = both.value;
  const drawn = yieldOf(volume, base, marcKeeps(p, context.shelf.marc));
  if (!drawn.ok) return drawn;
  const fresh = anyFresh(context.ingredients);
  return ok({
    ...PLAIN,
    base,
    makes: volume,
    yields: drawn.value,
    density,
    added: [{ says: term, amount: volume, also: mass }],
    solvent: { ratio: p.ratio, spirit: null },
    contents: { byMass: new Map(), fresh },
    method: [
      ...(fresh ? [['Let the fresh herb wilt until it is limp and dry to the touch.'] as const] : []),
      ['Pour', volume, `of ${term} on`, base, 'of herb; all of it must be covered.'],
      [
        'Keep it warm',
        ...(p.warm ? ['for', given(p.warm, 'time kept warm, from the formula')] : []),
        ...(p.macerate ? ['and let it stand', given(p.macerate, 'time to macerate, from the formula')] : []),
        '.',
      ],
      ['Press through cloth, let stand over night and pour off any water that settles.'],
    ],
  });
}
