import { type Exact, exact } from './exact.ts';
import { bad, ok, type Result } from './result.ts';

/** Figures as a person writes them: whole, decimal, fractional, and from one to another. */

/** More digits than this is a slip or an attack, not a measurement. */
const MOST_DIGITS = 24;

/** No quantity that a person writes is longer, and no message should echo more. */
const LONGEST = 120;

// biome-ignore format: a table
const VULGAR: Readonly<Record<string, string>> = {
  '¼': '1/4', '½': '1/2', '¾': '3/4', '⅐': '1/7', '⅑': '1/9', '⅒': '1/10', '⅓': '1/3', '⅔': '2/3', '⅕': '1/5',
  '⅖': '2/5', '⅗': '3/5', '⅘': '4/5', '⅙': '1/6', '⅚': '5/6', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8',
};

/** One spelling for the signs that keyboards and pages vary: fractions, dashes, spaces. */
export function plain(text: string): string {
  if (/^[!-~]+(?: [!-~]+)*$/.test(text)) return text;
  return text
    .replace(/[¼½¾⅐-⅞]/g, (sign) => ` ${VULGAR[sign] ?? sign} `)
    .replace(/\u2044/g, '/')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/\s+/g, ' ')
    .trim();
}

/**
 * Why a text cannot be trusted to say what it shows: hidden characters, figures of another script, or a length
 * that no measurement has. Undefined where nothing is wrong.
 */
export function notAsItLooks(text: string): string | undefined {
  if (text.length > LONGEST)
    return `"${plain(text.slice(0, 30))}..." is too long: write one figure and its unit, such as 1.5 g`;
  if (/^[ -~]*$/.test(text)) return undefined;
  const hidden = /\p{Cf}|(?!\s)\p{Cc}/u.exec(text)?.[0];
  if (hidden !== undefined) {
    const code = (hidden.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0');
    const shown = plain(text.replace(/\p{Cf}|(?!\s)\p{Cc}/gu, ''));
    return `"${shown}" holds a hidden character (U+${code}): delete it and type the figure and unit again`;
  }
  const foreign = /(?![0-9])\p{Nd}/u.exec(text)?.[0];
  if (foreign !== undefined)
    return `"${foreign}" is a figure of another script: write it with the figures 0 to 9`;
  return undefined;
}

const EXPONENT = /^[-+]?[\d.,]*\d[eE][-+]?\d/;

/** True where a text starts with a number in exponent form. */
export function startsInExponentForm(text: string): boolean {
  return EXPONENT.test(text);
}

export const IN_EXPONENT_FORM = 'is in exponent form: write the figure out, such as 0.001 or 1000';

/**
 * Reads a whole, decimal or fractional number: `12`, `0.5`, `1/2`, `1 1/2`. Never an exponent, a sign or a comma.
 * A needless zero in front and a fraction of one or more are refused: `05` may have lost its point, and `11/2`
 * is what pages make of 1 1/2.
 */
export function parseNumber(text: string): Result<Exact> {
  const odd = notAsItLooks(text);
  if (odd !== undefined) return bad(odd);
  const t = plain(text);
  if (t === '') return bad('a number is missing: write such as 3 or 0.5');
  if (t.startsWith('-')) return bad(`"${t}" is negative: amounts start at 0`);
  if (t.startsWith('+')) return bad(`"${t}" has a plus sign: leave it out`);
  if (t.includes(',')) return bad(`"${t}" has a comma: write a decimal point, and no sign between thousands`);
  if (/^\.\d/.test(t)) return bad(`"${t}" lacks its leading zero: write 0${t}`);
  if (/^\d+\.$/.test(t)) return bad(`"${t}" ends in a point: write ${t.slice(0, -1)}`);
  if (startsInExponentForm(t)) return bad(`"${t}" ${IN_EXPONENT_FORM}`);
  if (/^[\d./]+-[\d./]+$/.test(t)) return bad(`"${t}" is a range: write one figure here`);
  if (t.replace(/\D/g, '').length > MOST_DIGITS) {
    return bad(`"${t}" has more than ${MOST_DIGITS} digits: write only as many as were measured`);
  }
  if (/^0+\d/.test(t)) {
    return bad(
      `"${t}" starts with a needless 0: write ${t.replace(/^0+(?=\d)/, '')}, or put back a lost decimal point`,
    );
  }
  if (/^\d+(\.\d+)?$/.test(t)) return ok(exact(t));
  const fraction = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(t);
  if (!fraction) return bad(`"${t}" is not a number: write such as 3, 0.5 or 1 1/2`);
  const [, whole = '0', top = '', bottom = ''] = fraction;
  if (/^0+$/.test(bottom)) return bad(`"${t}" divides by nothing: write a fraction such as 1/2`);
  if (exact(top).gte(exact(bottom))) return bad(`the fraction of "${t}" is not below 1: write such as 1 1/2`);
  return ok(exact(whole).plus(exact(top).div(exact(bottom))));
}

/** A range of bare numbers, as in `times: 1-3` or either side of a ratio; an open end is null. */
export interface NumberRange {
  readonly low: Exact | null;
  readonly high: Exact | null;
}

/** Reads `1-3`, `1 to 3`, `up to 3`, `at least 2`, or one figure (low = high). */
export function parseNumberRange(text: string): Result<NumberRange> {
  const odd = notAsItLooks(text);
  if (odd !== undefined) return bad(odd);
  const t = plain(text);
  const open = /^(up to|at most|at least|from) (.+)$/i.exec(t);
  if (open) {
    const n = parseNumber(open[2] ?? '');
    if (!n.ok) return n;
    return ok(
      /^(up to|at most)$/i.test(open[1] ?? '') ? { low: null, high: n.value } : { low: n.value, high: null },
    );
  }
  const cut = /^(\d[\d./ ]*?)\s*(?:-| to )\s*(\d.*)$/i.exec(t);
  if (!cut) {
    const n = parseNumber(t);
    return n.ok ? ok({ low: n.value, high: n.value }) : n;
  }
  const low = parseNumber(cut[1] ?? '');
  const high = parseNumber(cut[2] ?? '');
  if (!low.ok) return low;
  if (!high.ok) return high;
  if (low.value.gt(high.value)) return bad(runsDownward(t));
  return ok({ low: low.value, high: high.value });
}

/** `1-1/2` is how some write one and a half: such a "range" must not be turned round and accepted. */
export function runsDownward(text: string): string {
  if (/^\d+ ?- ?\d+\/\d+/.test(text)) {
    return `"${text}" runs downward: for a whole and a fraction write a space, such as 1 1/2; for a range the smaller figure first`;
  }
  return `"${text}" runs downward: write the smaller figure first`;
}
