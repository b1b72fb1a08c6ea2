import { type Exact, one } from '../exact.ts';
import { inUnit, type Quantity, type Range } from '../quantity.ts';
import { bad, ok, type Result } from '../result.ts';
import { gram } from '../units.ts';
import { write } from '../write.ts';

/** The water in a fresh plant, in g: the least and the most of it, equal where the moisture is one figure. */
export interface PlantWater {
  readonly least: Exact;
  readonly most: Exact;
}

/**
 * Water = plant x moisture. The moisture is by mass (`%` or `% m/m`), one figure or from one to another.
 * Errors: a plant that is no mass above 0; a moisture by volume, open at one end, below 0 or not below 100 %.
 */
export function plantWater(plant: Quantity, moisture: Quantity | Range): Result<PlantWater> {
  if (plant.unit.dimension !== 'mass')
    return bad(`${plant.unit.symbol} measures ${plant.unit.dimension}: a plant is weighed, such as 300 g`);
  if (!plant.value.gt(0)) return bad(`a plant must weigh more than ${write(plant)}: write such as 300 g`);
  const ends = 'unit' in moisture ? { low: moisture, high: moisture } : moisture;
  if (ends.low === null || ends.high === null)
    return bad('the moisture is open at one end: write from and to, such as 75-80 %');
  const [low, high] = [fraction(ends.low), fraction(ends.high)];
  if (!low.ok) return low;
  if (!high.ok) return high;
  if (low.value.gt(high.value))
    return bad(`the moisture runs downward: write ${write(ends.high)} to ${write(ends.low)}`);
  const mass = inUnit(plant, gram).value;
  return ok({ least: mass.times(low.value), most: mass.times(high.value) });
}

function fraction(moisture: Quantity): Result<Exact> {
  const { dimension, symbol } = moisture.unit;
  if (dimension !== 'share' && dimension !== 'share m/m')
    return bad(`${symbol} measures ${dimension}: moisture is written by mass, such as 75 %`);
  const share = moisture.value.div(100);
  if (share.gte(0) && share.lt(one)) return ok(share);
  return bad(`a moisture of ${write(moisture)} cannot be: write from 0 to below 100 %, such as 75 %`);
}
