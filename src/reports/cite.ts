import type { Cited, Reading } from '../measure/figure.ts';

/** How a source was read, in the words that stand behind every citation. */
export const READING_WORDS: Readonly<Record<Reading, string>> = {
  original: 'original',
  'product-text': 'product text',
  restated: 'restated',
  computed: 'computed',
  memory: 'from memory, not read',
  practice: 'common practice, no source',
};

/** `EMA/HMPC, European Union herbal monograph on ..., EMA/HMPC/434892/2010, 2011 (restated)` */
export function cite(source: Cited): string {
  const parts = [source.body, source.title, source.ref, source.year].filter(
    (part) => part !== undefined && part !== '',
  );
  return `${parts.join(', ')} (${READING_WORDS[source.reading]})`;
}

/** For a narrow column: `EMA/HMPC 2011 (restated)`. What has no source names none, and its reading says it. */
export function citeShort(source: Cited): string {
  if (source.reading === 'practice') return READING_WORDS.practice;
  return `${[source.body, source.year].filter((part) => part !== undefined && part !== '').join(' ')} (${READING_WORDS[source.reading]})`;
}
