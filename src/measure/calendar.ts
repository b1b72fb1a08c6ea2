import { bad, ok, type Result } from './result.ts';

/** A day of the Gregorian calendar, without a time or a zone: the practice's own day. */
export interface CalendarDate {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

export function daysInMonth(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return [4, 6, 9, 11].includes(month) ? 30 : 31;
}

/** The years that a practice deals with; another is a slip of the pen, and would make someone centuries old. */
const YEARS = { first: 1900, last: 2199 };

const outside = (year: number): boolean => year < YEARS.first || year > YEARS.last;
const wrongYear = (text: string): string =>
  `"${text}" is not in the years ${YEARS.first} to ${YEARS.last}: write the year in four figures`;

/** Reads `2026-05-02` (ISO 8601). */
export function parseDate(text: string): Result<CalendarDate> {
  const m = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text.trim());
  if (!m) return bad(`"${text.trim()}" is not a date: write year-month-day, such as 2026-05-02`);
  const [year, month, day] = m.slice(1).map(Number) as [number, number, number];
  if (outside(year)) return bad(wrongYear(text.trim()));
  if (month < 1 || month > 12 || day < 1 || day > daysInMonth(year, month)) {
    return bad(`"${text.trim()}" is not in the calendar: write year-month-day, such as 2026-05-02`);
  }
  return ok({ year, month, day });
}

/** Reads a day, a month (`1991-06`) or a year (`1991`) as the first and last day it may be. */
export function parseDateInterval(text: string): Result<{ earliest: CalendarDate; latest: CalendarDate }> {
  const t = text.trim();
  const coarse = /^(\d{4})(?:-(\d{2}))?$/.exec(t);
  if (!coarse) {
    const d = parseDate(t);
    if (d.ok) return ok({ earliest: d.value, latest: d.value });
    if (/^\d{4}-\d{2}-\d{2}$/.test(t)) return d;
    return bad(`"${t}" is not a date: write 1991-06-14, or 1991-06 where only the month is known`);
  }
  const year = Number(coarse[1]);
  if (outside(year)) return bad(wrongYear(t));
  if (coarse[2] === undefined)
    return ok({ earliest: { year, month: 1, day: 1 }, latest: { year, month: 12, day: 31 } });
  const month = Number(coarse[2]);
  if (month < 1 || month > 12) return bad(`"${t}" is not in the calendar: months run from 01 to 12`);
  return ok({ earliest: { year, month, day: 1 }, latest: { year, month, day: daysInMonth(year, month) } });
}

export function writeDate(d: CalendarDate): string {
  return `${String(d.year).padStart(4, '0')}-${String(d.month).padStart(2, '0')}-${String(d.day).padStart(2, '0')}`;
}

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** `2 May 2026`, which no reader takes for February. */
export const dayInWords = (d: CalendarDate): string => `${d.day} ${MONTHS[d.month - 1]} ${d.year}`;

export function compareDates(a: CalendarDate, b: CalendarDate): number {
  return a.year - b.year || a.month - b.month || a.day - b.day;
}

/** The day `months` later (or earlier, if negative). A day that the month lacks becomes the first of the next. */
export function plusMonths(d: CalendarDate, months: number): CalendarDate {
  const count = d.year * 12 + (d.month - 1) + months;
  const year = Math.floor(count / 12);
  const month = (((count % 12) + 12) % 12) + 1;
  if (d.day <= daysInMonth(year, month)) return { year, month, day: d.day };
  return month === 12 ? { year: year + 1, month: 1, day: 1 } : { year, month: month + 1, day: 1 };
}

/**
 * The last day from which `months` months are completed by `d`: 31 March less one month is 28 February, for from
 * 1 March the month is not completed until 1 April.
 */
export function monthsBefore(d: CalendarDate, months: number): CalendarDate {
  const first = plusMonths({ ...d, day: 1 }, -months);
  return { ...first, day: Math.min(d.day, daysInMonth(first.year, first.month)) };
}

const dayNumber = (d: CalendarDate): number => Math.round(Date.UTC(d.year, d.month - 1, d.day) / 86_400_000);

export function plusDays(d: CalendarDate, days: number): CalendarDate {
  const t = new Date((dayNumber(d) + days) * 86_400_000);
  return { year: t.getUTCFullYear(), month: t.getUTCMonth() + 1, day: t.getUTCDate() };
}

/** Whole days from a to b; negative where b is earlier. */
export function daysBetween(a: CalendarDate, b: CalendarDate): number {
  return dayNumber(b) - dayNumber(a);
}
