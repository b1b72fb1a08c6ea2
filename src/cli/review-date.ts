import type { Case } from '../checking/case.ts';
import { timesStated } from '../checking/clocks.ts';
import { type CalendarDate, compareDates, parseDate, writeDate } from '../measure/calendar.ts';
import { parseQuantity } from '../measure/parse.ts';
import { plusTime } from '../measure/plus-time.ts';
import { inUnit, type Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { day } from '../measure/units.ts';

/**
 * When the person is seen again: as typed, a day or a time from now; else the end of the course, or the earliest time after which
 * a source of any of the herbs sends to a doctor. Null where nothing says.
 */
export function reviewDate(
  typed: string | undefined,
  c: Case,
  on: CalendarDate,
): Result<CalendarDate | null> {
  if (typed !== undefined) {
    const date = /^\d{4}-/.test(typed.trim()) ? parseDate(typed) : inDays(typed, on);
    if (!date.ok) return bad(`--review ${date.why}`);
    return compareDates(date.value, on) > 0
      ? date
      : bad(`--review ${writeDate(date.value)} is not after ${writeDate(on)}`);
  }
  const times: Quantity[] = c.formulas.flatMap((f) => [
    ...(f.batch.taking?.course ? [f.batch.taking.course.value] : []),
    ...f.herbs.flatMap((h) =>
      timesStated({ ...h, formula: f.formula }, 'refer_after')
        .slice(0, 1)
        .map((s) => s.limit.value),
    ),
  ]);
  const dates = times.map((t) => plusTime(on, inUnit(t, day))).sort(compareDates);
  return ok(dates[0] ?? null);
}

function inDays(text: string, on: CalendarDate): Result<CalendarDate> {
  const q = parseQuantity(text, undefined, ['time']);
  return q.ok ? ok(plusTime(on, q.value)) : bad(`${q.why}; or write a day, such as 2026-05-16`);
}
