import { isUtf8 } from 'node:buffer';
import type { Problem } from './problem.ts';

/** The text of a file; null where its bytes are not UTF-8. */
export function decode(bytes: Uint8Array): string | null {
  return isUtf8(bytes) ? new TextDecoder('utf-8').decode(bytes) : null;
}

const LINE_FEED = 10;

/** Says where the first byte stands that is not UTF-8, so that the letter can be found and typed again. */
export function notText(bytes: Uint8Array, file: string): Problem {
  const message = 'this is not UTF-8 text: save the file as UTF-8';
  let line = 1;
  for (let start = 0; start < bytes.length; line += 1) {
    const feed = bytes.indexOf(LINE_FEED, start);
    const end = feed < 0 ? bytes.length : feed;
    const written = bytes.subarray(start, end);
    if (!isUtf8(written))
      return { code: 'not-text', file, line, column: lettersBefore(written) + 1, message };
    start = end + 1;
  }
  return { code: 'not-text', file, message };
}

function lettersBefore(line: Uint8Array): number {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let letters = 0;
  try {
    for (let i = 0; i < line.length; i += 1)
      letters += decoder.decode(line.subarray(i, i + 1), { stream: true }).length;
  } catch {
    return letters;
  }
  return letters;
}
