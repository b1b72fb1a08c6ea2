import { isStockForm } from '../folder/forms.ts';
import type { Ingredient } from '../folder/schema/formula.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { OIML_R22 } from '../measure/spirit/coefficients.ts';
import { spiritOf } from '../measure/spirit/composition.ts';
import { AT_20C } from '../measure/spirit/reference.ts';
import { gram, gramPerMillilitre, millilitre, per, type Unit } from '../measure/units.ts';

/**
 * What stands on the shelf, drawn out before: the herb in one mL or g of it, by the ratio on its label.
 */

const GRAM_PER_G = per(gram, gram);

/**
 * Herb in one unit of the stock, in g: herb / solvent where the ratio counts as the line is measured; else by the
 * density, which the formula gives or, for a tincture, that of its spirit without what is dissolved in it.
 * Null for what is weighed itself. Error: a density is needed and not known.
 */
export function herbIn(i: Ingredient, lineUnit: Unit): Result<Figure<Quantity> | null> {
  if (i.form === 'essential-oil' && i.density) {
    const oil = given(
      inUnit(i.density, gramPerMillilitre),
      `density of the oil of ${i.herb}, from the formula`,
    );
    const weighed = given(quantity(1, GRAM_PER_G), `the oil of ${i.herb} is weighed as itself`);
    return ok(lineUnit === millilitre ? oil : weighed);
  }
  if (!isStockForm(i.form) || i.ratio === undefined) return ok(null);
  const { herb, solvent, basis, text } = i.ratio;
  const what = `${i.herb}, herb in 1 ${lineUnit.symbol} of its ${i.form}`;
  const ratio = [given(herb, `herb in the ratio ${text}`), given(solvent, `${i.form} in the ratio ${text}`)];
  const poured = lineUnit === millilitre;
  const unit = poured ? gramPerMillilitre : GRAM_PER_G;
  if (poured === (basis === 'w/v'))
    return ok(worked(quantity(herb.div(solvent), unit), what, '{} / {}', ratio));
  const density = stockDensity(i);
  if (density === null)
    return bad(
      `${i.herb}: a ratio of ${text} is counted by the other measure than the line is: add the density: of its ${i.form}`,
    );
  const rho = density.value.value;
  const value = poured ? herb.times(rho).div(solvent) : herb.div(solvent.times(rho));
  return ok(
    worked(quantity(value, unit), what, poured ? '{} / {} x {}' : '{} / ({} x {})', [...ratio, density]),
  );
}

/** The weight of 1 mL of a stock; null where neither the formula nor its spirit tells. */
export function stockDensity(i: Ingredient): Figure<Quantity> | null {
  if (i.density) {
    return given(inUnit(i.density, gramPerMillilitre), `density of ${i.herb ?? i.vehicle}, from the formula`);
  }
  if (!i.spirit) return null;
  const spirit = spiritOf(i.spirit, AT_20C);
  if (!spirit.ok) return null;
  return given(
    quantity(spirit.value.density, gramPerMillilitre),
    `density of the spirit in ${i.herb} at 20 C, without what is dissolved`,
    OIML_R22,
  );
}
