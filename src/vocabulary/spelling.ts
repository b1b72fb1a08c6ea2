/** A rule between two customs of spelling, such as `oe` for `e`. */
export interface SpellingRule {
  readonly from: string;
  readonly to: string;
}

/**
 * The other spellings that the rules make of a word, each rule alone and together with others. They are candidates:
 * whoever looks them up accepts one only where a single answer comes of it.
 */
export function otherSpellings(word: string, rules: readonly SpellingRule[]): string[] {
  const made = new Set([word]);
  for (const spelling of made) {
    for (const { from, to } of rules) made.add(spelling.replaceAll(from, to));
  }
  made.delete(word);
  return [...made];
}
