import type { Preparation } from '../folder/schema/formula.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import type { Strength } from '../measure/parse.ts';
import type { Quantity, Range } from '../measure/quantity.ts';
import { ok, type Result } from '../measure/result.ts';
import { finalStrength } from '../measure/spirit/fresh.ts';
import type { Making, MakingContext, MethodLine } from './making.ts';
import { marcKeeps, yieldOf } from './marc.ts';
import { ethanolPerMl, type Menstruum, menstruum } from './menstruum.ts';
import { anyFresh, dryMatter, ownWater } from './own-water.ts';
import { byRatio, PLAIN, type Product } from './product.ts';

type Drawn = Pick<Extract<Preparation, { kind: 'tincture' }>, 'ratio' | 'marc' | 'keeps' | 'macerate'>;

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
  return drawnWithSpirit(liquid.value, p.spirit, p, context);
}

/** The tincture that comes of spirit on the herbs; `spirit` is the strength by which doses of it are stated. */
export function drawnWithSpirit(
  liquid: Menstruum,
  spirit: Strength,
  p: Drawn,
  context: MakingContext,
): Result<Product> {
  const ended = inJar(liquid, context);
  if (!ended.ok) return ended;
  const { strength, least, most } = ended.value;
  const drawn = yieldOf(ended.value.liquid, ended.value.dry, marcKeeps(p, context.shelf.marc));
  if (!drawn.ok) return drawn;
  return ok({
    ...PLAIN,
    base: context.base,
    makes: liquid.volume,
    yields: drawn.value,
    added: [{ says: 'spirit', amount: liquid.volume, also: liquid.mass }],
    spirit: liquid.mixing,
    strength,
    ethanol: ethanolPerMl(most, 'ethanol in 1 mL of the tincture, at the most'),
    solvent: { ratio: p.ratio, spirit },
    contents: {
      ethanol: least,
      byMass: new Map(),
      fresh: anyFresh(context.ingredients),
    },
    method: maceration(context.base, liquid, p),
  });
}

/** What stands in the jar: the strength as a figure or a range and its two ends, the liquid, the dry matter in it. */
export interface InJar {
  readonly strength: Figure<Quantity> | Figure<Range>;
  readonly least: Figure<Quantity>;
  readonly most: Figure<Quantity>;
  /** mL at the least, with the water of the herb in it. */
  readonly liquid: Figure<Quantity>;
  /** g at the most: what the marc keeps is counted by it. */
  readonly dry: Figure<Quantity>;
}

/** What the herb's own water makes of the spirit; as it was poured where no moisture is stated. */
export function inJar(poured: Menstruum, context: MakingContext): Result<InJar> {
  const water = ownWater(context);
  if (!water.ok) return water;
  const { volume, strength } = poured;
  if (water.value === null)
    return ok({ strength, least: strength, most: strength, liquid: volume, dry: context.base });
  const { moisture, plant, herbs } = water.value;
  const ended = finalStrength({
    plant: plant.value,
    moisture: moisture.value,
    spirit: volume.value,
    strength: strength.value,
  });
  if (!ended.ok) return ended;
  const inputs = [volume, strength, plant, moisture];
  const by = '{} of {} with the water of {} at {}, by mass';
  const end = (q: Quantity | null, says: string): Figure<Quantity> => worked(q as Quantity, says, by, inputs);
  const { low, high } = ended.value.volumeStrength;
  const single = low !== null && high !== null && low.value.eq(high.value);
  const says = `strength at the end, with the water of ${herbs}`;
  return ok({
    strength: single ? end(low, says) : worked(ended.value.volumeStrength, says, by, inputs),
    least: end(low, 'strength at the end, at the least'),
    most: end(high, 'strength at the end, at the most'),
    liquid: end(ended.value.volume.low, 'liquid in the jar, at the least'),
    dry: dryMatter(water.value, context.base),
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
