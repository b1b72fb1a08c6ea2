import { describe, expect, it } from 'vitest';
import {
  type CalendarDate,
  compareDates,
  daysBetween,
  daysInMonth,
  monthsBefore,
  parseDate,
  parseDateInterval,
  plusDays,
  plusMonths,
  writeDate,
} from '../../src/measure/calendar.ts';

function on(text: string): CalendarDate {
  const r = parseDate(text);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

const why = (r: { ok: boolean; why?: string }): string => r.why ?? 'read';

describe('a date', () => {
  it('is written as year, month and day', () => {
    expect(writeDate(on('2026-05-02'))).toBe('2026-05-02');
    expect(writeDate(on(' 2024-02-29 '))).toBe('2024-02-29');
  });

  it.each(['2026-02-29', '2026-13-01', '2026-00-10', '2026-04-31', '2026-05-00'])(
    '%s is not in the calendar',
    (text) => {
      expect(why(parseDate(text))).toBe(
        `"${text}" is not in the calendar: write year-month-day, such as 2026-05-02`,
      );
      expect(why(parseDateInterval(text))).toBe(
        `"${text}" is not in the calendar: write year-month-day, such as 2026-05-02`,
      );
    },
  );

  it.each(['02/05/2026', '2026-5-2', '26-05-02', '2026-05-02T10:00', 'yesterday', ''])(
    '"%s" is not a date',
    (text) => {
      expect(why(parseDate(text))).toBe(`"${text}" is not a date: write year-month-day, such as 2026-05-02`);
    },
  );

  it('of a slipped pen makes nobody centuries old', () => {
    expect(why(parseDate('0191-06-14'))).toBe(
      '"0191-06-14" is not in the years 1900 to 2199: write the year in four figures',
    );
    expect(why(parseDateInterval('1091'))).toContain('is not in the years');
    expect(why(parseDateInterval('20260-05'))).toContain('is not a date');
  });

  it('may be known to the month or the year only', () => {
    const dates = (text: string): string[] => {
      const r = parseDateInterval(text);
      return r.ok ? [writeDate(r.value.earliest), writeDate(r.value.latest)] : [r.why];
    };
    expect(dates('1991-06-14')).toEqual(['1991-06-14', '1991-06-14']);
    expect(dates('1992-02')).toEqual(['1992-02-01', '1992-02-29']);
    expect(dates('1991')).toEqual(['1991-01-01', '1991-12-31']);
    expect(dates('1991-13')).toEqual(['"1991-13" is not in the calendar: months run from 01 to 12']);
  });
});

describe('counting on the calendar', () => {
  it('knows the leap years: 2000 was one, 1900 was not', () => {
    expect([1900, 2000, 2023, 2024].map((y) => daysInMonth(y, 2))).toEqual([28, 29, 28, 29]);
  });

  it('a month on from a day that the next month lacks is the first of the one after', () => {
    expect(writeDate(plusMonths(on('2026-01-31'), 1))).toBe('2026-03-01');
    expect(writeDate(plusMonths(on('2024-02-29'), 12))).toBe('2025-03-01');
    expect(writeDate(plusMonths(on('2024-02-29'), 48))).toBe('2028-02-29');
    expect(writeDate(plusMonths(on('2026-11-30'), 2))).toBe('2027-01-30');
    expect(writeDate(plusMonths(on('2026-03-15'), -15))).toBe('2024-12-15');
  });

  it('the last day from which so many months are completed', () => {
    expect(writeDate(monthsBefore(on('2026-03-31'), 1))).toBe('2026-02-28');
    expect(writeDate(monthsBefore(on('2024-02-29'), 12 * 34))).toBe('1990-02-28');
    expect(writeDate(monthsBefore(on('2026-01-15'), 1))).toBe('2025-12-15');
  });

  it('days pass over the end of a year and a leap day', () => {
    expect(writeDate(plusDays(on('2025-12-31'), 1))).toBe('2026-01-01');
    expect(writeDate(plusDays(on('2024-03-01'), -1))).toBe('2024-02-29');
    expect(daysBetween(on('2024-02-28'), on('2024-03-01'))).toBe(2);
    expect(daysBetween(on('2026-05-02'), on('2026-04-28'))).toBe(-4);
    // A clock put forward for summer makes that day shorter, but it is still one day.
    expect(daysBetween(on('2026-03-28'), on('2026-03-30'))).toBe(2);
  });

  it('knows which came first', () => {
    expect(compareDates(on('2026-05-02'), on('2026-05-03'))).toBeLessThan(0);
    expect(compareDates(on('2026-05-02'), on('2025-12-31'))).toBeGreaterThan(0);
    expect(compareDates(on('2026-05-02'), on('2026-05-02'))).toBe(0);
  });
});
