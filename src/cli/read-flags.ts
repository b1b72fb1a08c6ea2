import { bad, ok, type Result } from '../measure/result.ts';

/** Reads flags one by one and gathers what is wrong with each, so that everything is told at once. */
export function flagReader(faults: string[]) {
  return <G, T>(flag: string, given: G | undefined, parser: (g: G) => Result<T>): T | undefined => {
    if (given === undefined) return undefined;
    const r = parser(given);
    if (r.ok) return r.value;
    faults.push(`${flag} ${r.why}`);
    return undefined;
  };
}

/** A text that must say something. */
export const someWords = (text: string): Result<string> =>
  text.trim() === '' ? bad('is empty: write some words') : ok(text.trim());

/** Who does it: the initials that stand in the record. */
export function initialsOf(text: string | undefined): Result<string> {
  const by = (text ?? '').trim();
  return by === '' ? bad('who does this? add --initials, such as --initials KR') : ok(by);
}
