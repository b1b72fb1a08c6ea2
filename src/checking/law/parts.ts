import type { LegalLimits } from '../../folder/schema/reference.ts';
import { normal } from '../../vocabulary/normal.ts';

/** The part of a plant that is used, beside the part that a law names. */

/**
 * `named`: the law means this part, or the whole plant. `near`: it may be the same part by another word. `not told`: no
 * part was said. `other`: another part than the law names.
 */
export type PartNamed = 'named' | 'near' | 'not told' | 'other';

type Table = Pick<LegalLimits, 'parts'>;

const splitWords = (text: string): string[] => normal(text).split(/[^\p{L}]+/u);

/** Every single word that tells a part. */
export function wordsOfParts({ parts }: Table): Set<string> {
  return new Set(parts.flatMap((p) => [...splitWords(p.part), ...(p.also ?? [])]));
}

/** The parts that a text speaks of: `root bark` is of the root and of the bark. */
export function partsIn({ parts }: Table, text: string): Set<string> {
  const words = splitWords(text);
  return new Set(
    parts
      .filter((p) => [p.part, ...(p.also ?? [])].some((w) => splitWords(w).every((x) => words.includes(x))))
      .map((p) => p.part),
  );
}

export function partNamed(
  { parts }: Table,
  limit: { readonly parts?: readonly string[] | undefined },
  used: ReadonlySet<string>,
): PartNamed {
  if (limit.parts === undefined) return 'named';
  if (used.size === 0) return 'not told';
  if (limit.parts.some((p) => used.has(p))) return 'named';
  const near = parts.filter((p) => used.has(p.part)).flatMap((p) => p.near ?? []);
  return limit.parts.some((p) => near.includes(p)) ? 'near' : 'other';
}
