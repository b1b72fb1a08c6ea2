import type { Supply } from '../dosing/supply.ts';
import { type CalendarDate, plusDays } from '../measure/calendar.ts';
import { one } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { comparable, type Quantity, quantity, ratioOf } from '../measure/quantity.ts';
import { roundTo } from '../measure/round.ts';

/** How long what was handed over lasts, at the most that is taken. */
export interface Lasts {
  readonly days: Figure<Quantity>;
  /** The last full day. */
  readonly until: CalendarDate;
}

/** Full days = handed over / taken in a day, rounded down; null where nothing says what a day takes. */
export function lastsFor(amount: Quantity, supply: Supply | null, on: CalendarDate): Lasts | null {
  if (!supply || !comparable(supply.perDay.value.unit, amount.unit) || supply.perDay.value.value.isZero())
    return null;
  const days = roundTo(ratioOf(amount, supply.perDay.value), one, 'down');
  const lasts = worked(quantity(days, 'd'), 'full days that it lasts', '{} / {}, rounded down', [
    given(amount, 'handed over'),
    supply.perDay,
  ]);
  return { days: lasts, until: plusDays(on, Math.max(0, days.toNumber() - 1)) };
}
