import { type CalendarDate, plusDays, plusMonths } from './calendar.ts';
import { one } from './exact.ts';
import { inUnit, type Quantity } from './quantity.ts';
import { roundTo } from './round.ts';
import { day } from './units.ts';

/** The day so much time later; whole months and years go by the calendar, all else by days, a part of one dropped. */
export function plusTime(d: CalendarDate, time: Quantity): CalendarDate {
  const months = time.unit.code === 'a' ? time.value.times(12) : time.unit.code === 'mo' ? time.value : null;
  if (months?.isInteger()) return plusMonths(d, months.toNumber());
  return plusDays(d, roundTo(inUnit(time, day).value, one, 'down').toNumber());
}
