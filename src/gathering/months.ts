import { nearest } from '../measure/nearest.ts';
import { bad, ok, type Result } from '../measure/result.ts';

export const MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
] as const;

/** `june`, `Jun` or `6` as 1 to 12. */
export function parseMonth(text: string): Result<number> {
  const t = text.trim().toLowerCase();
  const byNumber = /^\d{1,2}$/.test(t) ? Number(t) : 0;
  if (byNumber >= 1 && byNumber <= 12) return ok(byNumber);
  const at = t.length < 3 ? [] : MONTHS.filter((m) => m.startsWith(t));
  const [only, ...more] = at;
  if (only !== undefined && more.length === 0) return ok(MONTHS.indexOf(only) + 1);
  const near = nearest(t, MONTHS);
  return bad(
    `"${text}" is not a month: ${near.length > 0 ? `did you mean ${near.join(' or ')}?` : 'write such as june'}`,
  );
}

/** `....MJ......`: the letter of each month in season, in twelve columns. */
export function monthBar(months: ReadonlySet<number>): string {
  return MONTHS.map((m, i) => (months.has(i + 1) ? (m[0] ?? '').toUpperCase() : '.')).join('');
}

export const monthName = (n: number): string => {
  const name = MONTHS[n - 1] ?? '';
  return name.charAt(0).toUpperCase() + name.slice(1);
};
