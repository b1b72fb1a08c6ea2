import type { Held } from '../folder/held.ts';
import type { Preparation } from '../folder/schema/formula.ts';
import { type Exact, one } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { minus, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gram, gramPerMillilitre, millilitre } from '../measure/units.ts';
import type { Making, MakingContext } from './making.ts';
import { marcKeeps, yieldOf } from './marc.ts';
import { anyFresh } from './own-water.ts';
import { bothByRatio, PLAIN } from './product.ts';

/**
 * Oxymel: herb drawn with honey and vinegar. The formula says the share of honey by weight; the rest is vinegar of the
 * strength in acetic acid that its label states, because kitchen vinegar is about 5 % and the acid of old formularies a third.
 */
export function oxymel(p: Extract<Preparation, { kind: 'oxymel' }>, context: MakingContext): Result<Making> {
  const { base } = context;
  const [honey, vinegar] = [context.shelf.vehicle('honey'), context.shelf.vehicle('vinegar')];
  if (!honey.ok) return honey;
  if (!vinegar.ok) return vinegar;
  const [rhoHoney, rhoVinegar] = [honey.value.density, vinegar.value.density];
  if (rhoHoney === null || rhoVinegar === null)
    return bad('honey and vinegar need a density in the table of vehicles');
  // Its water would thin the honey and the acid.
  if (anyFresh(context.ingredients))
    return bad(
      'an oxymel is reckoned of dried herb, for the water of the fresh lets it ferment: dry the herb first',
    );
  const h = p.honey.value.div(100);
  if (!h.gt(0) || !h.lt(one)) return bad('honey must lie between 0 and 100 %: write such as honey: 80 %');
  // 1 g of the mixture fills h / rho + (1 - h) / rho mL: honey and vinegar are taken to neither shrink nor swell.
  const perGram = h.div(rhoHoney.value.value).plus(one.minus(h).div(rhoVinegar.value.value));
  const share = given(p.honey, 'honey in the mixture, from the formula');
  const density = worked(
    quantity(one.div(perGram), gramPerMillilitre),
    'weight of 1 mL of the mixture',
    '1 / ({} / {} + the rest / {})',
    [share, rhoHoney, rhoVinegar],
  );
  const both = bothByRatio(base, p.ratio, density, 'honey and vinegar');
  if (!both.ok) return both;
  const { volume, mass } = both.value;
  const ofHoney = worked(quantity(mass.value.value.times(h), gram), 'honey to weigh', '{} x {}', [
    mass,
    share,
  ]);
  const ofVinegar = worked(minus(mass.value, ofHoney.value), 'vinegar to weigh', '{} - {}', [mass, ofHoney]);
  const poured = worked(
    quantity(ofVinegar.value.value.div(rhoVinegar.value.value), millilitre),
    'vinegar to pour',
    '{} / {}',
    [ofVinegar, rhoVinegar],
  );
  const acid = acidAtEnd(p, ofVinegar, poured, mass);
  const water = waterAtEnd(
    [ofHoney, honey.value.holds.get('water')],
    [ofVinegar, vinegar.value.holds.get('water')],
    mass,
  );
  const drawn = yieldOf(volume, base, marcKeeps(p, context.shelf.marc));
  if (!drawn.ok) return drawn;
  return ok({
    ...PLAIN,
    base,
    makes: volume,
    yields: drawn.value,
    density,
    added: [
      { says: 'honey', amount: ofHoney },
      { says: 'vinegar', amount: poured, also: ofVinegar },
    ],
    solvent: { ratio: p.ratio, spirit: null },
    contents: {
      byMass: new Map<Held, Figure<Quantity>>([
        ['acid', acid],
        ['honey', share],
        ...(water ? [['water', water] as const] : []),
      ]),
      fresh: false,
    },
    facts: [
      { label: 'honey', value: share },
      { label: 'acetic acid at the end', value: acid },
    ],
    method: [
      [
        'Pour',
        poured,
        'of vinegar on',
        base,
        'of cut or bruised herb, let stand',
        ...(p.macerate ? [given(p.macerate, 'time to macerate, from the formula')] : []),
        ', shaking daily; strain and press.',
      ],
      ['Stir in', ofHoney, 'of honey, warm it gently and let settle.'],
    ],
  });
}

/** Water in the finished mixture, by weight: of the honey and of the vinegar; null where the table does not say. */
function waterAtEnd(
  [honey, inHoney]: readonly [Figure<Quantity>, Exact | undefined],
  [vinegar, inVinegar]: readonly [Figure<Quantity>, Exact | undefined],
  whole: Figure<Quantity>,
): Figure<Quantity> | null {
  if (inHoney === undefined || inVinegar === undefined) return null;
  const value = honey.value.value.times(inHoney).plus(vinegar.value.value.times(inVinegar));
  const share = (s: Exact, of: string): Figure =>
    given(quantity(s.times(100), '%{m/m}'), `water in the ${of}`);
  const inputs = [honey, share(inHoney, 'honey'), vinegar, share(inVinegar, 'vinegar'), whole];
  const by = '({} x {} + {} x {}) / {}';
  return worked(quantity(value.times(100).div(whole.value.value), '%{m/m}'), 'water at the end', by, inputs);
}

/** Acetic acid in the finished mixture, by weight. */
function acidAtEnd(
  p: { readonly acid: Quantity },
  weight: Figure<Quantity>,
  volume: Figure<Quantity>,
  whole: Figure<Quantity>,
): Figure<Quantity> {
  const stated = given(p.acid, 'acetic acid in the vinegar, from its label');
  // % w/v counts g in 100 mL of vinegar, % m/m g in 100 g.
  const of = p.acid.unit.dimension === 'share w/v' ? volume : weight;
  const acid = of.value.value.times(p.acid.value).div(100);
  return worked(
    quantity(acid.times(100).div(whole.value.value), '%{m/m}'),
    'acetic acid at the end, by weight',
    '{} x {} / {}',
    [stated, of, whole],
  );
}
