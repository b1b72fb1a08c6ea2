import { exact } from './exact.ts';
import { inUnit, type Quantity, quantity } from './quantity.ts';
import { gram } from './units.ts';

/** Percent of a lot that is not water. */
export const solids = (moisture: Quantity): Quantity['value'] => exact(100).minus(moisture.value);

/**
 * The weight in g of a lot of one moisture when it has another: weight x (1 - moisture now) / (1 - moisture then), for
 * the solids stay and only water comes or goes. Percentages are never subtracted: 1000 kg from 25 % to 14 % are 872 kg.
 * Source: International Rice Research Institute, Moisture content calculations.
 */
export const atMoisture = (weight: Quantity, now: Quantity, then: Quantity): Quantity =>
  quantity(inUnit(weight, gram).value.times(solids(now)).div(solids(then)), gram);
