import type { ProblemCode } from './problem.ts';

/** What the YAML library finds wrong with the writing of a file, said in plain English with what to write instead. */

const CODES: Partial<Record<string, ProblemCode>> = {
  TAG_RESOLVE_FAILED: 'custom-tag',
  BAD_COLLECTION_TYPE: 'custom-tag',
  MULTIPLE_DOCS: 'several-documents',
};

export const syntaxCode = (code: string): ProblemCode => CODES[code] ?? 'syntax';

/** True for a fault that says no more than that a bracket or quotation mark stays open; `unclosed` says it better. */
export const saysUnclosed = (message: string): boolean =>
  /end with a? ?[\]}]$|^Missing closing ["']quote$/.test(message);

export const unclosed = (mark: string): string =>
  mark === '"' || mark === "'"
    ? `this quotation mark is not closed: add ${mark} where the text ends`
    : `this ${mark} is not closed: add ${mark === '[' ? ']' : '}'}, and indent every line between them`;

const SAYS: Partial<Record<string, string>> = {
  TAG_RESOLVE_FAILED: 'words with ! are tags, which these files do not use: write the plain value',
  BAD_COLLECTION_TYPE: 'words with ! are tags, which these files do not use: write the plain value',
  MULTIPLE_DOCS:
    'a file holds one document: remove this --- or ... and what follows, or make it a file of its own',
  TAB_AS_INDENT: 'indented with a tab: use spaces',
  BAD_INDENT:
    'this line begins in the wrong column: keys of one map, and items of one list, begin in one column',
  BLOCK_AS_IMPLICIT_KEY:
    'a second colon or dash makes a map or list begin here: put a text that holds ": " in quotes, and begin a new key or item on its own line',
  BLOCK_IN_FLOW:
    'inside brackets an entry has no dash, and a comma must part it from the next: write such as {a: b, c: d} or [a, b]',
  BAD_DQ_ESCAPE: 'a backslash in double quotes has a meaning of its own: put the text in single quotes',
  MULTILINE_IMPLICIT_KEY:
    'a line that is neither a key nor an item: write "key: value" with a space after the colon, or indent it to go on with the text above',
  KEY_OVER_1024_CHARS: 'this key is longer than 1024 characters: a colon or a quotation mark is missing',
  ALIAS_PROPS: 'a * stands where nothing else may: write the value out',
  BAD_ALIAS: 'a text that begins with & or * must stand in quotes',
  BAD_PROP_ORDER: 'a text that begins with & or ! must stand in quotes',
  MULTIPLE_ANCHORS: 'two & stand before one value: keep one',
  MULTIPLE_TAGS: 'words with ! are tags, which these files do not use: write the plain value',
  BAD_DIRECTIVE: 'a line that begins with % is not used in these files: remove it',
};

const BLOCK_TEXT = 'the lines of a text after | or > are indented alike, further than the key: use spaces';

/** `found` is the text of the file from the fault onward. */
export function plainFault(code: string, message: string, found: string): string {
  if (code === 'BAD_SCALAR_START') return `a text cannot begin with ${found.slice(0, 1)}: put it in quotes`;
  if (code === 'BAD_INDENT' && message.startsWith('Block scalar')) return BLOCK_TEXT;
  if (code === 'MISSING_CHAR') return missing(message);
  if (code === 'UNEXPECTED_TOKEN') return unexpected(message, found);
  return SAYS[code] ?? 'this cannot be read as YAML: put a text with signs in it in quotes';
}

function missing(message: string): string {
  if (message.startsWith('Missing ,'))
    return 'a comma is missing between this entry and the one before it, or quotes round a text';
  if (message.startsWith('Missing space after :')) return 'write a space after the colon';
  if (message.startsWith('Comments must')) return 'write a space before #, or put the text in quotes';
  if (message.startsWith('Implicit map keys'))
    return 'no colon follows: write "key: value", or a dash where this is an item';
  if (message.startsWith('Sequence item')) return 'a list goes on here: write "- " before the item';
  if (message.startsWith('Block collection')) return 'begin on the line after ---';
  if (message.startsWith('Missing directives-end')) return 'put a text that begins with % in quotes';
  if (message.startsWith('Tags and anchors'))
    return 'a word that begins with & or ! runs into the next: put the text in quotes';
  if (message.startsWith('Block scalar')) return BLOCK_TEXT;
  return 'something is missing here: put a text with signs in it in quotes';
}

function unexpected(message: string, found: string): string {
  const mark = found.slice(0, 1);
  if (mark === ']' || mark === '}')
    return `this ${mark} closes nothing: remove it, or write ${mark === ']' ? '[' : '{'} before it`;
  if (mark === ',') return 'a comma without an entry before it: remove it';
  if (message.includes('at node end'))
    return `"${firstWord(found)}" follows a value that has ended: begin it on a new line, or put the whole text in quotes`;
  if (mark === '-') return 'a list begins on the line after its key: move it down';
  if (mark === '|' || mark === '>')
    return `a text after ${mark} begins on the next line: move it down, or put it in quotes`;
  return `"${firstWord(found)}" cannot stand here: put a text with signs in it in quotes`;
}

const firstWord = (found: string): string => /[^\s"']+/.exec(found)?.[0].slice(0, 30) ?? found.slice(0, 1);
