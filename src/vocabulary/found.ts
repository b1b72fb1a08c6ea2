import { nearest } from '../measure/nearest.ts';

/**
 * What became of a person's word. Only the first is an answer: an ambiguous word asks which is meant, and an
 * unknown one stays listed with the words near it in spelling, which are suggestions and never accepted by themselves.
 */
export type Found<T> =
  | { readonly kind: 'found'; readonly item: T; readonly how: How }
  | { readonly kind: 'ambiguous'; readonly word: string; readonly could: readonly string[] }
  | { readonly kind: 'unknown'; readonly word: string; readonly near: readonly string[] };

/** By which step a word was found; a spelling rule is said to the person. */
export type How = 'name' | 'code' | 'salt' | 'spelling';

export const MOST_SUGGESTIONS = 3;

/** A short token such as "iron" or "acid" is near to far too much. */
const SHORTEST_TOKEN = 6;

/** The known names nearest to any of the readings of a word: the whole first, then its longer parts. */
export function suggestions(readings: readonly string[], names: readonly string[]): string[] {
  const near = readings.flatMap((r) => nearest(r, names, MOST_SUGGESTIONS));
  const tokens =
    near.length > 0 ? [] : readings.flatMap((r) => r.split(' ')).filter((t) => t.length >= SHORTEST_TOKEN);
  return [...new Set([...near, ...tokens.flatMap((t) => nearest(t, names, 1))])].slice(0, MOST_SUGGESTIONS);
}
