/**
 * The one place where text from files and people is made safe to print. Control characters, terminal escapes and
 * marks that change the direction of writing never reach a terminal or a file that the program writes.
 */
const UNSAFE = /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufff9-\ufffb]/g;

/** One line of plain text: unsafe characters become a visible mark, line breaks a space. */
export function cleanLine(text: string): string {
  return text.replace(/\r\n|[\r\n\t]/g, ' ').replace(UNSAFE, '\ufffd');
}

/** Text for a Markdown table cell or paragraph: nothing in it can open a tag, a link, a column or emphasis. */
export function markdownText(text: string): string {
  return cleanLine(text)
    .replace(/\\/g, '\\\\')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/([`*_{}[\]|~])/g, '\\$1')
    .replace(/^(\s*)([#+-]|\d+[.)])(?=\s)/, '$1\\$2')
    .replace(/^([=@])/, '&#8203;$1')
    .replace(/(https?):\/\//gi, '$1:&#47;&#47;');
}
