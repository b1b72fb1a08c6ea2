const PLAIN = /^[a-z0-9]+(?: [a-z0-9]+)*$/;

/**
 * The one form in which words of the vocabulary are compared: lower case, no accents, straight quotes, a space for
 * hyphen, slash and underscore, single spaces, no final full stop. Nothing else is changed, so that two words which
 * differ by a letter stay two words.
 */
export function normal(word: string): string {
  if (PLAIN.test(word)) return word;
  // Quotes first: the compatibility form turns a free-standing acute accent into a space.
  return word
    .replace(/[\u2018\u2019\u02bc\u2032`\u00b4]/g, "'")
    .replace(/[\u201c\u201d\u2033]/g, '"')
    .normalize('NFKC')
    .toLowerCase()
    .replace(/œ/g, 'oe')
    .replace(/æ/g, 'ae')
    .normalize('NFD')
    .replace(/[\p{M}\p{Cf}]/gu, '')
    .replace(/[-\u2010-\u2015\u2212/_]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .replace(/\s*\.+$/, '');
}
