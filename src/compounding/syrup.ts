import type { Preparation } from '../folder/schema/formula.ts';
import { one } from '../measure/exact.ts';
import { given, worked } from '../measure/figure.ts';
import { compareQuantities, inUnit, plus, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { SUCROSE_DENSITY, sucroseDensity } from '../measure/sucrose.ts';
import { gram, gramPerMillilitre, millilitre } from '../measure/units.ts';
import { write } from '../measure/write.ts';
import type { Making, MakingContext } from './making.ts';
import { PLAIN } from './product.ts';

/** Water weighs 0.99820 g/mL at 20 C (OIML R 22); a strained tea is taken to weigh the same. */
const WATER = given(
  quantity('0.9982', gramPerMillilitre),
  'weight of 1 mL of the strained liquid, taken as water at 20 C',
);

/**
 * Syrup: sugar dissolved in a strained infusion or decoction. Sugar to weigh = liquid x s / (1 - s) by weight, where s
 * is the share of sugar; the volume follows from the density of sugar in water. What the herb leaves dissolved is left
 * out. 85 % w/v is not 85 % by weight, so the share here is by weight.
 */
export function syrup(p: Extract<Preparation, { kind: 'syrup' }>, context: MakingContext): Result<Making> {
  const { base } = context;
  const stated = p.strained ?? p.make_up_to;
  if (stated === undefined) return bad('the sugar is weighed for the strained liquid: add strained:');
  if (p.strained && compareQuantities(p.strained, p.water) > 0)
    return bad(
      `${write(p.strained)} strained off is more than the ${write(p.water)} of water put in: measure it again`,
    );
  const perHerb = given(inUnit(p.herb, gram), 'herb in one making, from the formula');
  const strained = given(
    inUnit(stated, millilitre),
    p.strained ? 'strained volume as measured, from the formula' : 'made up to, from the formula',
  );
  const scale = base.value.value.div(perHerb.value.value);
  const liquid = worked(
    quantity(strained.value.value.times(scale), millilitre),
    'strained liquid',
    '{} x {} / {}',
    [strained, base, perHerb],
  );
  const weight = worked(
    quantity(liquid.value.value.times(WATER.value.value), gram),
    'strained liquid, by weight',
    '{} x {}',
    [liquid, WATER],
  );
  const share = given(p.sugar, 'sugar in the syrup, from the formula');
  const s = p.sugar.value.div(100);
  if (!s.lt(one)) return bad('a syrup of nothing but sugar is no syrup: write such as sugar: 65 % m/m');
  const sugar = worked(
    quantity(weight.value.value.times(s).div(one.minus(s)), gram),
    'sugar to weigh',
    '{} x {} / (100 % - {})',
    [weight, share, share],
  );
  const density = sucroseDensity(s);
  if (!density.ok) return density;
  const rho = given(density.value, 'density of the syrup at 20 C', SUCROSE_DENSITY);
  const whole = worked(plus(weight.value, sugar.value), 'syrup, by weight', '{} + {}', [weight, sugar]);
  const makes = worked(
    quantity(whole.value.value.div(rho.value.value), millilitre),
    'syrup, by volume',
    '{} / {}',
    [whole, rho],
  );
  const water = worked(
    quantity(inUnit(p.water, millilitre).value.times(scale), millilitre),
    'water',
    '{} x {} / {}',
    [given(inUnit(p.water, millilitre), 'water in one making, from the formula'), base, perHerb],
  );
  return ok({
    ...PLAIN,
    base,
    makes,
    density: rho,
    added: [
      { says: 'water', amount: water },
      { says: 'sugar', amount: sugar },
    ],
    contents: { byMass: new Map([['sucrose', share]]), fresh: false },
    facts: [{ label: 'sugar', value: share }],
    method: [
      p.by === 'infusion'
        ? [
            'Pour',
            water,
            'of boiling water on',
            base,
            'of the herbs, cover, let stand',
            ...(p.infuse ? [given(p.infuse, 'time to infuse, from the formula')] : []),
            'and strain.',
          ]
        : [
            'Put',
            base,
            'of the herbs into',
            water,
            'of cold water, bring to the boil, simmer',
            ...(p.boil ? [given(p.boil, 'time to simmer, from the formula')] : []),
            'and strain.',
          ],
      [
        p.make_up_to ? 'Make up with water to' : 'There should be',
        liquid,
        p.make_up_to ? 'in all.' : 'of it.',
      ],
      ['Dissolve', sugar, 'of sugar in it warm, without boiling it long; bottle it hot in clean bottles.'],
    ],
  });
}
