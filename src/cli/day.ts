import { type CalendarDate, parseDate } from '../measure/calendar.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { CommonOptions } from './options.ts';

/** The day to reckon from: --on, else today by the computer's clock. */
export function dayOf(options: CommonOptions): Result<CalendarDate> {
  if (options.on !== undefined) {
    const d = parseDate(options.on);
    return d.ok ? d : bad(`--on ${d.why}`);
  }
  const now = new Date();
  return ok({ year: now.getFullYear(), month: now.getMonth() + 1, day: now.getDate() });
}
