const PLAIN = /^[a-z0-9]+(?: [a-z0-9]+)*$/;
/** Signs that have no accent and no other form; the Greek mu of a microgram among them. */
const UNACCENTED = /^[\x20-\x7e\u03bc]*$/;

/**
 * The one form in which words of the vocabulary are compared: lower case, no accents, straight quotes, a space for
 * hyphen, slash and underscore, single spaces, no final full stop. Nothing else is changed, so that two words which
 * differ by a letter stay two words.
 */
export function normal(word: string): string {
  if (PLAIN.test(word)) return word;
  const base = UNACCENTED.test(word) ? straightQuotes(word.toLowerCase()) : withoutAccents(word);
  return base
    .replace(/[-\u2010-\u2015\u2212/_]/g, ' ')
    .replace(/\s+/g, ' ')
    .replace(/[\s.]+$/, '')
    .trimStart();
}

/** Quotes first and again: the compatibility form makes a space of one sort of quote, and a quote of other signs. */
function withoutAccents(word: string): string {
  return straightQuotes(straightQuotes(word).normalize('NFKD').toLowerCase().normalize('NFKD'))
    .replace(/[\p{M}\p{Cf}]/gu, '')
    .replace(/œ/g, 'oe')
    .replace(/æ/g, 'ae');
}

function straightQuotes(word: string): string {
  return word.replace(/[\u2018\u2019\u02bc\u2032`\u00b4]/g, "'").replace(/[\u201c\u201d\u2033]/g, '"');
}
