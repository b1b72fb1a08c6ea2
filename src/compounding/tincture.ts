import type { Preparation } from '../folder/schema/formula.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import type { Quantity, Range } from '../measure/quantity.ts';
import { ok, type Result } from '../measure/result.ts';
import { finalStrength } from '../measure/spirit/fresh.ts';
import type { Making, MakingContext, MethodLine } from './making.ts';
import { marcKeeps, yieldOf } from './marc.ts';
import { ethanolPerMl, type Menstruum, menstruum } from './menstruum.ts';
import { ownWater } from './own-water.ts';
import { byRatio, PLAIN } from './product.ts';

/**
 * Tincture by maceration: the herb stands in spirit and is parted from it. The ratio is that of herb to the spirit
 * poured on, which is the ratio that doses are stated by; what is got is less by what the marc keeps, so that the
 * ratio obtained is narrower (1:5 poured is about 1:4 to 1:4.5 obtained).
 * The strength is that of the spirit, less what the herb's own water thins it by where its moisture is stated.
 */
export function tincture(
  p: Extract<Preparation, { kind: 'tincture' }>,
  context: MakingContext,
): Result<Making> {
  const { base } = context;
  const liquid = menstruum(byRatio(base, p.ratio, 'spirit to pour'), p.spirit, p.from);
  if (!liquid.ok) return liquid;
  const ended = strengthAfter(liquid.value, context);
  if (!ended.ok) return ended;
  const drawn = yieldOf(liquid.value.volume, base, marcKeeps(p, context.shelf.marc));
  if (!drawn.ok) return drawn;
  const { strength, least, most } = ended.value;
  return ok({
    ...PLAIN,
    base,
    makes: liquid.value.volume,
    yields: drawn.value,
    added: [{ says: 'spirit', amount: liquid.value.volume, also: liquid.value.mass }],
    spirit: liquid.value.mixing,
    strength,
    ethanol: ethanolPerMl(most, 'ethanol in 1 mL of the tincture'),
    solvent: { ratio: p.ratio, spirit: p.spirit },
    contents: {
      ethanol: least,
      byMass: new Map(),
      fresh: context.ingredients.some((i) => i.form === 'fresh'),
    },
    method: maceration(base, liquid.value, p),
  });
}

/** The strength that the herb's own water leaves, as a figure or a range, and its two ends. */
export function strengthAfter(
  liquid: Menstruum,
  context: MakingContext,
): Result<{ strength: Figure<Quantity> | Figure<Range>; least: Figure<Quantity>; most: Figure<Quantity> }> {
  const water = ownWater(context);
  if (!water.ok) return water;
  if (water.value === null)
    return ok({ strength: liquid.strength, least: liquid.strength, most: liquid.strength });
  const { moisture, plant, herbs } = water.value;
  const ended = finalStrength({
    plant: plant.value,
    moisture: moisture.value,
    spirit: liquid.volume.value,
    strength: liquid.strength.value,
  });
  if (!ended.ok) return ended;
  const inputs = [liquid.volume, liquid.strength, plant, moisture];
  const by = '{} of {} with the water of {} at {}, by mass';
  const end = (q: Quantity | null, says: string): Figure<Quantity> => worked(q as Quantity, says, by, inputs);
  const { low, high } = ended.value.volumeStrength;
  const [least, most] = [
    end(low, 'strength at the end, at the least'),
    end(high, 'strength at the end, at the most'),
  ];
  const single = low !== null && high !== null && low.value.eq(high.value);
  return ok({
    strength: single
      ? end(low, `strength at the end, with the water of ${herbs}`)
      : worked(ended.value.volumeStrength, `strength at the end, with the water of ${herbs}`, by, inputs),
    least,
    most,
  });
}

/** The steps of a maceration in spirit. */
export function maceration(
  herb: Figure<Quantity>,
  { volume, strength, mixing }: Menstruum,
  p: { readonly macerate?: Quantity | undefined; readonly marc?: string | undefined },
): MethodLine[] {
  return [
    ...(mixing
      ? [
          [
            'Weigh',
            mixing.poured[0]?.mass ?? '',
            'of the strong spirit and',
            mixing.poured[1]?.mass ?? '',
            'of water, mix and let cool.',
          ] as const,
        ]
      : []),
    ['Pour', volume, 'of spirit of', strength, 'on', herb, 'of cut or bruised herb, close it well.'],
    [
      'Let stand',
      ...(p.macerate ? [given(p.macerate, 'time to macerate, from the formula')] : []),
      'away from light, shaking daily.',
    ],
    [
      `Strain, ${p.marc === 'hand-squeezed' ? 'squeeze the marc by hand' : 'press the marc'}, let settle and filter.`,
    ],
  ];
}
