import type { Taking } from '../dosing/directions.ts';
import { exact } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { OIML_R22 } from '../measure/spirit/coefficients.ts';
import { ethanolDensity, UK_UNIT } from '../measure/spirit/ethanol.ts';
import { gram, kilogram, milligram, per } from '../measure/units.ts';
import type { Making } from './making.ts';

/** The ethanol that a person takes with a preparation, in g, at the most; British units as a bare number. */
export interface EthanolTaken {
  readonly perDose: Figure<Quantity>;
  readonly perDay: Figure<Quantity>;
  readonly ukUnitsADay: Figure;
}

/** g in a dose = dose in mL x g in 1 mL; null where the preparation holds no ethanol. */
export function ethanolTaken(making: Making, { dose, timesMost }: Taking): EthanolTaken | null {
  if (making.kind !== 'product' || making.ethanol === null || dose.value.unit.dimension !== 'volume')
    return null;
  const once = dose.value.value.times(making.ethanol.value.value);
  const perDose = worked(quantity(once, gram), 'ethanol in a dose', '{} x {}', [dose, making.ethanol]);
  const perDay = worked(quantity(once.times(timesMost.value.value), gram), 'ethanol in a day', '{} x {}', [
    perDose,
    timesMost,
  ]);
  const density = given(ethanolDensity(), 'density of ethanol at 20 C', OIML_R22);
  const unit = given(exact(10), 'mL of ethanol in a British unit', UK_UNIT);
  const units = perDay.value.value.div(density.value.value).div(10);
  return {
    perDose,
    perDay,
    ukUnitsADay: worked(units, 'British units of alcohol in a day', '{} / {} / {}', [perDay, density, unit]),
  };
}

/** mg of ethanol in a dose for each kg of a body weight, which is what the European guideline counts. */
export function ethanolPerKg(taken: EthanolTaken, weight: Figure<Quantity>): Figure<Quantity> {
  const kg = inUnit(weight.value, kilogram).value;
  const unit = per(milligram, kilogram);
  return worked(
    quantity(taken.perDose.value.value.times(1000).div(kg), unit),
    'ethanol in a dose by body weight',
    '{} / {}',
    [taken.perDose, weight],
  );
}
