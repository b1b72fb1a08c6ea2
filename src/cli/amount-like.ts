import { parseQuantity } from '../measure/parse.ts';
import { comparable, inUnit, type Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';

/** An amount above 0 in the unit of what there is, as it was typed behind a flag. */
export function amountLike(flag: string, typed: string, like: Quantity): Result<Quantity> {
  const q = parseQuantity(typed, undefined, ['mass', 'volume', 'count']);
  if (!q.ok) return bad(`${flag} ${q.why}`);
  if (!q.value.value.gt(0)) return bad(`${flag} must be above 0`);
  return comparable(q.value.unit, like.unit)
    ? ok(inUnit(q.value, like.unit))
    : bad(`${flag} "${typed}": this is measured in ${like.unit.symbol}`);
}
