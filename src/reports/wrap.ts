import stringWidth from 'string-width';

/** Breaking text into lines of so many columns, as a terminal counts them. */

const NBSP = '\u00a0';

/** Columns on a terminal: wide characters take two. */
export function widthOf(text: string): number {
  return /^[\x20-\x7e\u00a0]*$/.test(text) ? text.length : stringWidth(text);
}

/** A text that must stay on one line as long as a line can hold it. */
export function unbroken(text: string): string {
  return text.replaceAll(' ', NBSP);
}

/** In words, a number stays with its unit, both ends of a range together, and a reference `[2]` with what it numbers. */
export function keepNumbers(text: string): string {
  return text
    .replace(/(?<=\d) (?=[\p{L}\d%])/gu, NBSP)
    .replace(/(?<=%) (?=[mvw]\/[mvw])/g, NBSP)
    .replace(/(?<=\d\u00a0to) (?=\d)/g, NBSP)
    .replace(/(?<=\S) (?=\[\d+\])/g, NBSP);
}

/** Lines of at most `width` columns: broken at words, and inside a word only where the word is longer than a line. */
export function wrap(text: string, width: number): string[] {
  const chopped = (part: string): string[] =>
    fill(part.split(/(?<=[/-])/), '', width, (bit) => chop(bit, width));
  const lines = fill(text.split(' '), ' ', width, (word) => fill(word.split(NBSP), NBSP, width, chopped));
  return lines.map((line) => line.replaceAll(NBSP, ' '));
}

function fill(
  words: readonly string[],
  space: string,
  width: number,
  tooLong: (word: string) => string[],
): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words) {
    if (word === '') continue;
    const joined = line === '' ? word : line + space + word;
    if (widthOf(joined) <= width) {
      line = joined;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = widthOf(word) <= width ? [word] : tooLong(word);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? '';
  }
  return [...lines, line];
}

function chop(word: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  let taken = 0;
  for (const { segment } of new Intl.Segmenter().segment(word)) {
    const wide = widthOf(segment);
    if (taken + wide > width && line !== '') {
      lines.push(line);
      line = '';
      taken = 0;
    }
    line += segment;
    taken += wide;
  }
  return [...lines, line];
}

/** Words at most this long are never chopped to make a column narrower. */
const WORD = 10;

/** The narrowest column that a text stands in without a number parted from its unit. */
export function leastWidth(text: string): number {
  const needs = text
    .split(' ')
    .map((word) =>
      word.includes(NBSP) || /^[\d.,]+$/.test(word) ? widthOf(word) : Math.min(widthOf(word), WORD),
    );
  return Math.max(1, ...needs);
}
