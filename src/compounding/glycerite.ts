import type { Preparation } from '../folder/schema/formula.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { GLYCEROL_DENSITY, glycerolDensity, glycerolFraction } from '../measure/glycerol.ts';
import { minus, plus, type Quantity, quantity } from '../measure/quantity.ts';
import { ok, type Result } from '../measure/result.ts';
import { gram, millilitre } from '../measure/units.ts';
import type { Making, MakingContext } from './making.ts';
import { marcKeeps, yieldOf } from './marc.ts';
import { anyFresh, broughtBy, dryMatter, type OwnWater, ownWater } from './own-water.ts';
import { bothByRatio, PLAIN } from './product.ts';

/**
 * Glycerite: herb drawn with glycerol and water, weighed out, because glycerol is too thick to measure well. The
 * water of fresh herb thins it; whether what is left still keeps is judged by weight.
 */
export function glycerite(
  p: Extract<Preparation, { kind: 'glycerite' }>,
  context: MakingContext,
): Result<Making> {
  const { base } = context;
  const fraction = glycerolFraction(p.glycerol);
  if (!fraction.ok) return fraction;
  const density = glycerolDensity(fraction.value);
  if (!density.ok) return density;
  const rho = given(density.value, 'density of the glycerol mixture at 20 C', GLYCEROL_DENSITY);
  const both = bothByRatio(base, p.ratio, rho, 'glycerol mixture', 'glycerol mixture to pour');
  if (!both.ok) return both;
  const { volume, mass } = both.value;
  const stated = given(p.glycerol, 'glycerol in the mixture, from the formula');
  const share = worked(
    quantity(fraction.value.times(100), '%{m/m}'),
    'glycerol in the mixture by weight',
    '{} by the published density',
    [stated],
    GLYCEROL_DENSITY,
  );
  const glycerol = worked(
    quantity(mass.value.value.times(fraction.value), gram),
    'glycerol to weigh',
    '{} x {}',
    [mass, share],
  );
  const water = worked(minus(mass.value, glycerol.value), 'water to weigh', '{} - {}', [mass, glycerol]);
  const own = ownWater(context);
  if (!own.ok) return own;
  const drawn = own.value
    ? yieldOf(withWater(volume, own.value), dryMatter(own.value, base), marcKeeps(p, context.shelf.marc))
    : yieldOf(volume, base, marcKeeps(p, context.shelf.marc));
  if (!drawn.ok) return drawn;
  const ended = own.value ? shareAtEnd(mass, glycerol, own.value) : share;
  return ok({
    ...PLAIN,
    base,
    makes: volume,
    yields: drawn.value,
    density: rho,
    added: [
      { says: 'glycerol', amount: glycerol },
      { says: 'water', amount: water },
    ],
    solvent: { ratio: p.ratio, spirit: null },
    contents: {
      byMass: new Map([['glycerol', ended]]),
      fresh: anyFresh(context.ingredients),
    },
    facts: [{ label: 'glycerol at the end', value: ended }],
    method: [
      ['Mix', glycerol, 'of glycerol with', water, 'of water.'],
      ['Pour it on', base, 'of cut or bruised herb.'],
      [
        'Let stand',
        ...(p.macerate ? [given(p.macerate, 'time to macerate, from the formula')] : []),
        'warm, turning daily; press and strain.',
      ],
    ],
  });
}

/** The mixture with the least water that the fresh herb brings, of which 1 g counts as 1 mL. */
function withWater(volume: Figure<Quantity>, own: OwnWater): Figure<Quantity> {
  const { plant, moisture } = own;
  return worked(
    plus(volume.value, quantity(broughtBy(own, 'low').value, millilitre)),
    'liquid with the water of the herb, at the least',
    '{} + {} x {}',
    [volume, plant, moisture],
  );
}

/** Glycerol by weight with the most water that the fresh herb may bring: g / (mixture + water). */
function shareAtEnd(mass: Figure<Quantity>, glycerol: Figure<Quantity>, own: OwnWater): Figure<Quantity> {
  const { plant, moisture, herbs } = own;
  const all = plus(mass.value, broughtBy(own, 'high'));
  return worked(
    quantity(glycerol.value.value.times(100).div(all.value), '%{m/m}'),
    `glycerol at the end, with the water of ${herbs}`,
    '{} / ({} + {} x {})',
    [glycerol, mass, plant, moisture],
  );
}
