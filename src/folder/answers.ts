import { parseNumber, parseQuantity } from '../measure/parse.ts';
import { compareQuantities, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';

/** The answer to "are you pregnant": no, yes, or yes and since how many completed weeks. */
export type Pregnant = { readonly is: false } | { readonly is: true; readonly weeks: number | null };

/** Longer than any pregnancy; a larger figure is a slip. */
const MOST_WEEKS = 45;

export function parsePregnant(text: string): Result<Pregnant> {
  const t = text.trim();
  if (/^(no|false)$/i.test(t)) return ok({ is: false });
  if (/^(yes|true)$/i.test(t)) return ok({ is: true, weeks: null });
  const weeks = /^(\d+)\s*weeks?$/i.exec(t);
  if (!weeks) return bad(`"${t}": write no, yes, or the weeks, such as 30 weeks`);
  const n = Number(weeks[1]);
  return n <= MOST_WEEKS ? ok({ is: true, weeks: n }) : bad(`"${t}" is longer than a pregnancy`);
}

export function parseYesNo(text: string): Result<boolean> {
  if (/^(yes|true)$/i.test(text.trim())) return ok(true);
  if (/^(no|false)$/i.test(text.trim())) return ok(false);
  return bad(`"${text.trim()}": write yes or no`);
}

/** Wider than any person: only what is certainly a slip of the pen is refused. */
const HEAVIEST = quantity(500, 'kg');
const SHORTEST = quantity(25, 'cm');
const TALLEST = quantity(275, 'cm');

export function parseWeight(text: string): Result<Quantity> {
  // What is read of a person in grams is a slip, so that grams are not what is suggested.
  const bare = text.trim();
  if (parseNumber(bare).ok) return bad(`"${bare}" has no unit: write such as ${bare} kg`);
  const w = parseQuantity(text, undefined, ['mass']);
  if (!w.ok || (w.value.value.gt(0) && compareQuantities(w.value, HEAVIEST) <= 0)) return w;
  return bad("this weight is not a person's: write such as 68 kg");
}

export function parseHeight(text: string): Result<Quantity> {
  const h = parseQuantity(text, undefined, ['length']);
  const isTheirs = (q: Quantity): boolean =>
    compareQuantities(q, SHORTEST) >= 0 && compareQuantities(q, TALLEST) <= 0;
  return !h.ok || isTheirs(h.value) ? h : bad("this height is not a person's: write such as 122 cm");
}
