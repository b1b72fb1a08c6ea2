import { NO_MEASURES, parseRange } from './parse.ts';
import type { Quantity } from './quantity.ts';
import { bad, ok, type Result } from './result.ts';

/** Reads water in herb by mass: one figure or a range, from 0 to below 100 %, with both its ends. */
export function parseMoisture(text: string): Result<{ readonly low: Quantity; readonly high: Quantity }> {
  const r = parseRange(text, NO_MEASURES, ['share', 'share m/m']);
  if (!r.ok) return r;
  const { low, high } = r.value;
  if (low === null || high === null) return bad(`"${text}" is open at one end: write such as 75-80 %`);
  return low.value.gte(0) && high.value.lt(100)
    ? ok({ low, high })
    : bad(`a moisture of "${text}" cannot be: write from 0 to below 100 %, such as 78 %`);
}
