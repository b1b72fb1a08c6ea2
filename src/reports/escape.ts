/**
 * The one place where text from files and people is made safe to print. Control characters, terminal escapes,
 * invisible characters and marks that change the direction of writing never reach a terminal or a file that the
 * program writes.
 */
const UNSAFE =
  /[\u0000-\u001f\u007f-\u009f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}\p{Cs}]/gu;

/** One line of plain text: unsafe characters become a visible mark, line breaks a space. */
export function cleanLine(text: string): string {
  return text.replace(/\r\n|[\r\n\t]/g, ' ').replace(UNSAFE, '\ufffd');
}

/** What most lines are made of, and nothing of it is unsafe. */
const PLAIN = /^[\x20-\x7e]*$/;

/** JSON text in which every unsafe character is written as its escape: nothing is lost, and a line stays one line. */
export function cleanJson(json: string): string {
  if (PLAIN.test(json)) return json;
  return json.replace(UNSAFE, (found) =>
    Array.from(
      { length: found.length },
      (_, i) => `\\u${found.charCodeAt(i).toString(16).padStart(4, '0')}`,
    ).join(''),
  );
}

/** A word joiner: takes no room, and stands between two characters that would mean something side by side. */
const APART = '&#8288;';

/** A signed figure with its unit, which a spreadsheet may well read as a number. */
const SIGNED_FIGURE = /^[-+]\d[\d,.]*(?: [\p{L}%/ ]*)?$/u;

/**
 * Text for a Markdown table cell or paragraph: nothing in it can open a tag, a link, a column, a list, a heading
 * or emphasis, and a spreadsheet that the page is pasted into finds no formula.
 */
export function markdownText(text: string): string {
  const clean = cleanLine(text).trim();
  const marked = clean
    .replace(/\\/g, '\\\\')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/[`*_{}[\]|~#$]/g, '\\$&')
    .replace(/^(\d+)([.)])(?= |$)/, '$1\\$2')
    // Addresses become links by themselves in GitHub's Markdown, even where their characters are escaped.
    .replace(/\b(https?|ftp):\/\//gi, `$1:${APART}//`)
    .replace(/www\./gi, (www) => `${www.slice(0, 3)}${APART}.`)
    .replace(/(?<=\S)@/g, `${APART}@`);
  return /^[-+=@\uff1d\uff0b\uff0d\uff20]/.test(clean) && !SIGNED_FIGURE.test(clean)
    ? APART + marked
    : marked;
}
