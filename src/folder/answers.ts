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
