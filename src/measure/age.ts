import { type CalendarDate, compareDates, monthsBefore, plusDays, plusMonths } from './calendar.ts';
import { exact } from './exact.ts';
import { parseNumber } from './parse.ts';
import { bad, ok, type Result } from './result.ts';

/** True, false, or not known: what a question has when an answer is missing or too coarse. */
export type Ternary = boolean | 'unknown';

/**
 * When a person was born, as an interval: one day where the day is known, a month where only the month is,
 * a year where only an age in whole years was given.
 */
export interface Birth {
  readonly earliest: CalendarDate;
  readonly latest: CalendarDate;
}

/** An age or the edge of an age band, in completed months; 12 years is 144. */
export interface Age {
  readonly months: number;
  readonly text: string;
}

/** A band of ages: from `from` (completed), under `under`. An open end is null. */
export interface AgeBand {
  readonly from: Age | null;
  readonly under: Age | null;
}

const inMonths = (count: string, unit: string): Result<Age> => {
  const n = parseNumber(count);
  if (!n.ok) return n;
  const months = n.value.times(/^y/i.test(unit) ? 12 : 1);
  if (!months.isInteger()) return bad(`"${count} ${unit}" is not a whole number of months`);
  if (months.gt(exact(1560))) return bad(`"${count} ${unit}" is above 130 years`);
  const plain = n.value.toFixed();
  return ok({
    months: months.toNumber(),
    text: `${plain} ${/^y/i.test(unit) ? 'year' : 'month'}${plain === '1' ? '' : 's'}`,
  });
};

const UNIT = '(y|yr|yrs|year|years|mo|month|months)';

/** Reads `34 years`, `18 months`, `34y`. */
export function parseAge(text: string): Result<Age> {
  const m = new RegExp(`^(\\d[\\d.]*)\\s*${UNIT}$`, 'i').exec(text.trim());
  if (!m) return bad(`"${text.trim()}" is not an age: write such as 34 years or 18 months`);
  return inMonths(m[1] ?? '', m[2] ?? '');
}

/** Reads `12+ years`, `6-12 years` (from 6, under 12), `6-24 months`, `under 12 years`, `all ages`. */
export function parseAgeBand(text: string): Result<AgeBand> {
  const t = text.trim().replace(/[\u2010-\u2015]/g, '-');
  if (/^all ages$/i.test(t)) return ok({ from: null, under: null });
  const m = new RegExp(
    `^(?:(\\d[\\d.]*)\\s*\\+|(\\d[\\d.]*)\\s*(?:-|to)\\s*(\\d[\\d.]*)|under\\s+(\\d[\\d.]*))\\s*${UNIT}$`,
    'i',
  ).exec(t);
  if (!m)
    return bad(
      `"${t}" is not an age band: write such as 12+ years, 6-12 years (from 6, under 12) or under 12 years`,
    );
  const [, open, low, high, below, unit = ''] = m;
  const from = open ?? low;
  const under = high ?? below;
  const f = from === undefined ? ok(null) : inMonths(from, unit);
  const u = under === undefined ? ok(null) : inMonths(under, unit);
  if (!f.ok) return f;
  if (!u.ok) return u;
  if (f.value && u.value && f.value.months >= u.value.months) return bad(`"${t}" holds nobody`);
  return ok({ from: f.value, under: u.value });
}

export function writeAgeBand(band: AgeBand): string {
  if (band.from && band.under) return `${band.from.text} to under ${band.under.text}`;
  if (band.from) return `${band.from.text} and over`;
  return band.under ? `under ${band.under.text}` : 'all ages';
}

/**
 * Whether someone has completed `months` on the day `on`; unknown where the birth interval straddles it.
 * Someone born on 29 February completes a year on 1 March of a common year (the rule of English law, from memory;
 * also the later and so the safer day for a lower age limit).
 */
export function hasReached(birth: Birth, months: number, on: CalendarDate): Ternary {
  if (compareDates(plusMonths(birth.latest, months), on) <= 0) return true;
  if (compareDates(plusMonths(birth.earliest, months), on) > 0) return false;
  return 'unknown';
}

export function not(t: Ternary): Ternary {
  return t === 'unknown' ? t : !t;
}

/** All must hold: one false settles it; otherwise one unknown leaves it open. */
export function all(terms: readonly Ternary[]): Ternary {
  if (terms.includes(false)) return false;
  return terms.includes('unknown') ? 'unknown' : true;
}

/** One must hold: one true settles it; otherwise one unknown leaves it open. */
export function any(terms: readonly Ternary[]): Ternary {
  if (terms.includes(true)) return true;
  return terms.includes('unknown') ? 'unknown' : false;
}

export function withinBand(birth: Birth, band: AgeBand, on: CalendarDate): Ternary {
  return all([
    band.from ? hasReached(birth, band.from.months, on) : true,
    band.under ? not(hasReached(birth, band.under.months, on)) : true,
  ]);
}

/** The birth interval of someone who had completed `age` and no more (years, or months) on the day they were asked. */
export function birthFromAge(age: Age, asked: CalendarDate): Birth {
  const wholeYears = /year/.test(age.text);
  const step = wholeYears ? 12 : 1;
  return {
    earliest: plusDays(monthsBefore(asked, age.months + step), 1),
    latest: monthsBefore(asked, age.months),
  };
}

/** Completed months at the least and at the most on the day `on`, for showing. */
export function ageOn(birth: Birth, on: CalendarDate): { least: number; most: number } {
  return { least: completedMonths(birth.latest, on), most: completedMonths(birth.earliest, on) };
}

function completedMonths(born: CalendarDate, on: CalendarDate): number {
  let months = (on.year - born.year) * 12 + (on.month - born.month);
  while (months > 0 && compareDates(plusMonths(born, months), on) > 0) months -= 1;
  return Math.max(0, months);
}

/** `34 years`, `18 months`, `34 or 35 years`, `12 to 23 months`: every age that the birth interval leaves open. */
export function writeAgeOn(birth: Birth, on: CalendarDate): string {
  const { least, most } = ageOn(birth, on);
  const inYears = least >= 24;
  const [a, b] = inYears ? [Math.floor(least / 12), Math.floor(most / 12)] : [least, most];
  const unit = inYears ? 'year' : 'month';
  return a === b ? `${a} ${unit}${a === 1 ? '' : 's'}` : `${a} ${b - a > 1 ? 'to' : 'or'} ${b} ${unit}s`;
}
