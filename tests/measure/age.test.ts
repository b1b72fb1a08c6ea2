import { describe, expect, it } from 'vitest';
import {
  type Age,
  type AgeBand,
  ageOn,
  all,
  any,
  type Birth,
  birthFromAge,
  hasReached,
  not,
  parseAge,
  parseAgeBand,
  type Ternary,
  withinBand,
  writeAgeBand,
  writeAgeOn,
} from '../../src/measure/age.ts';
import { type CalendarDate, parseDate, parseDateInterval, writeDate } from '../../src/measure/calendar.ts';

function on(text: string): CalendarDate {
  const r = parseDate(text);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

function born(text: string): Birth {
  const r = parseDateInterval(text);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

function age(text: string): Age {
  const r = parseAge(text);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

function band(text: string): AgeBand {
  const r = parseAgeBand(text);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

const within = (birth: string, ages: string, day: string): Ternary =>
  withinBand(born(birth), band(ages), on(day));

describe('an age', () => {
  it.each([
    ['34 years', 408],
    ['34y', 408],
    ['18 months', 18],
    ['1 month', 1],
    ['2.5 years', 30],
  ])('%s is %i completed months', (text, months) => {
    expect(age(text).months).toBe(months);
  });

  it.each(['34', 'old', '-3 years', '1.3 years', '140 years', '1,5 years', '\u0663 years', ''])(
    '"%s" is not an age',
    (text) => {
      expect(parseAge(text).ok).toBe(false);
    },
  );
});

describe('an age band', () => {
  it.each([
    ['12+ years', '12 years and over'],
    ['6-12 years', '6 years to under 12 years'],
    ['6\u201312 years', '6 years to under 12 years'],
    ['6-24 months', '6 months to under 24 months'],
    ['under 12 years', 'under 12 years'],
    ['all ages', 'all ages'],
  ])('%s means %s', (text, meant) => {
    expect(writeAgeBand(band(text))).toBe(meant);
  });

  it.each(['12 years', '12-6 years', '6-6 years', 'adults', '6 months-2 years', 'over 12 years'])(
    '"%s" is not a band',
    (text) => {
      expect(parseAgeBand(text).ok).toBe(false);
    },
  );

  it('begins on the birthday itself', () => {
    expect(within('2014-05-02', '12+ years', '2026-05-01')).toBe(false);
    expect(within('2014-05-02', '12+ years', '2026-05-02')).toBe(true);
  });

  it('ends on the day before the birthday', () => {
    expect(within('2014-05-02', '6-12 years', '2026-05-01')).toBe(true);
    expect(within('2014-05-02', '6-12 years', '2026-05-02')).toBe(false);
  });

  it('two bands that meet hold each person once', () => {
    for (const day of ['2026-05-01', '2026-05-02', '2026-05-03']) {
      const younger = within('2014-05-02', '6-12 years', day);
      const older = within('2014-05-02', '12+ years', day);
      expect([younger, older].filter((t) => t === true)).toHaveLength(1);
    }
  });

  it('in months, for the very young', () => {
    expect(within('2025-11-15', '6-24 months', '2026-05-14')).toBe(false);
    expect(within('2025-11-15', '6-24 months', '2026-05-15')).toBe(true);
    expect(within('2024-05-15', '6-24 months', '2026-05-14')).toBe(true);
    expect(within('2024-05-15', '6-24 months', '2026-05-15')).toBe(false);
  });

  it('of which the edge falls into the month of birth is not known to hold the person', () => {
    expect(within('2014-05', '12+ years', '2026-04-30')).toBe(false);
    expect(within('2014-05', '12+ years', '2026-05-01')).toBe('unknown');
    expect(within('2014-05', '12+ years', '2026-05-15')).toBe('unknown');
    expect(within('2014-05', '12+ years', '2026-05-30')).toBe('unknown');
    expect(within('2014-05', '12+ years', '2026-05-31')).toBe(true);
  });
});

describe('someone born on 29 February', () => {
  it('completes a year on 1 March where there is no 29th', () => {
    expect(hasReached(born('2008-02-29'), 18 * 12, on('2026-02-28'))).toBe(false);
    expect(hasReached(born('2008-02-29'), 18 * 12, on('2026-03-01'))).toBe(true);
  });

  it('completes it on the day itself in a leap year', () => {
    expect(hasReached(born('2008-02-29'), 16 * 12, on('2024-02-28'))).toBe(false);
    expect(hasReached(born('2008-02-29'), 16 * 12, on('2024-02-29'))).toBe(true);
  });
});

describe('an age that was given, as of the day it was asked', () => {
  const dates = (b: Birth): string[] => [writeDate(b.earliest), writeDate(b.latest)];

  it('of 34 years leaves one year of birthdays open', () => {
    expect(dates(birthFromAge(age('34 years'), on('2026-05-02')))).toEqual(['1991-05-03', '1992-05-02']);
  });

  it('in months leaves one month open', () => {
    expect(dates(birthFromAge(age('18 months'), on('2026-05-02')))).toEqual(['2024-10-03', '2024-11-02']);
  });

  it('asked on 29 February leaves out whoever has the birthday on 1 March', () => {
    expect(dates(birthFromAge(age('34 years'), on('2024-02-29')))).toEqual(['1989-03-01', '1990-02-28']);
    expect(dates(birthFromAge(age('34 years'), on('2024-03-01')))).toEqual(['1989-03-02', '1990-03-01']);
  });

  it('is the age on that day, whatever the day', () => {
    for (const day of ['2024-02-28', '2024-02-29', '2024-03-01', '2026-03-31', '2026-12-31', '2026-01-01']) {
      for (const given of ['34 years', '1 year', '5 months']) {
        const birth = birthFromAge(age(given), on(day));
        expect(hasReached(birth, age(given).months, on(day))).toBe(true);
        expect(hasReached(birth, age(given).months + (given.includes('year') ? 12 : 1), on(day))).toBe(false);
      }
    }
  });

  it('grows uncertain as time passes', () => {
    const birth = birthFromAge(age('17 years'), on('2026-05-02'));
    expect(withinBand(birth, band('18+ years'), on('2026-05-02'))).toBe(false);
    expect(withinBand(birth, band('18+ years'), on('2026-09-01'))).toBe('unknown');
    expect(withinBand(birth, band('18+ years'), on('2027-05-02'))).toBe(true);
  });
});

describe('an age on a sheet', () => {
  it('is in years from two on, in months before', () => {
    expect(writeAgeOn(born('1991-06-14'), on('2026-06-13'))).toBe('34 years');
    expect(writeAgeOn(born('1991-06-14'), on('2026-06-14'))).toBe('35 years');
    expect(writeAgeOn(born('2025-04-02'), on('2026-05-02'))).toBe('13 months');
    expect(writeAgeOn(born('2026-04-02'), on('2026-05-02'))).toBe('1 month');
  });

  it('shows what the answers leave open', () => {
    expect(writeAgeOn(born('1991'), on('2026-05-02'))).toBe('34 or 35 years');
    expect(writeAgeOn(birthFromAge(age('1 year'), on('2026-05-02')), on('2026-05-02'))).toBe(
      '12 to 23 months',
    );
  });

  it('of someone not yet born is 0', () => {
    expect(ageOn(born('2026-06-01'), on('2026-05-02'))).toEqual({ least: 0, most: 0 });
  });
});

describe('a question to which the answer may be missing', () => {
  it('all must hold: one no settles it, one missing answer leaves it open', () => {
    expect(all([true, true])).toBe(true);
    expect(all([true, 'unknown'])).toBe('unknown');
    expect(all(['unknown', false])).toBe(false);
    expect(all([])).toBe(true);
  });

  it('one must hold: one yes settles it, one missing answer leaves it open', () => {
    expect(any([false, false])).toBe(false);
    expect(any([false, 'unknown'])).toBe('unknown');
    expect(any(['unknown', true])).toBe(true);
    expect(any([])).toBe(false);
  });

  it('the opposite of not known is not known', () => {
    expect([true, false, 'unknown' as const].map(not)).toEqual([false, true, 'unknown']);
  });
});
