import { Composer, type CST, type Document, Parser, type YAMLError } from 'yaml';
import { cleanLine } from '../reports/escape.ts';
import { type Fault, plainValues } from './plain.ts';
import { lineStartsOf, offsetOf, type Path, type Position, positionAt } from './positions.ts';
import type { Problem } from './problem.ts';
import { plainFault, saysUnclosed, syntaxCode, unclosed } from './syntax.ts';

/** A parsed file before anything is known of its meaning: maps, lists and texts, and where each stands. */
export interface ParsedYaml {
  readonly value: unknown;
  /** What is already wrong, though the rest of the file can still be judged. */
  readonly faults: readonly Problem[];
  at(path: Path): { line: number; column: number; excerpt: string };
}

/** No file of ours goes past ten levels; the readers below go down by recursion. */
const DEEPEST = 50;

/** After this many faults in the writing the rest are their consequences. */
const MOST_FAULTS = 100;

const LONGEST_EXCERPT = 120;

/** What YAML itself does not let a file hold: control characters other than tab and line break. */
const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u0084\u0086-\u009f\ufffe\uffff]/g;

/**
 * YAML 1.2 with the failsafe schema: every scalar stays text, so `no`, `0.5`, `1e400` and `012` reach our own
 * parsers as written. Syntax errors, several documents, control characters and too deep a nesting end the reading;
 * duplicate keys, tags and wrong aliases are reported together with what else is wrong.
 */
export function parseYaml(
  text: string,
  file: string,
): { ok: true; value: ParsedYaml } | { ok: false; why: Problem[] } {
  // A mark at the start and line ends of older systems: neither moves what follows it.
  const plain = text.replace(/^\ufeff/, '').replace(/\r(?!\n)/g, '\n');
  const lineStarts = lineStartsOf(plain);
  const place = (offset: number) => {
    const position = positionAt(lineStarts, Math.min(offset, plain.length));
    return { ...position, excerpt: excerpt(plain, lineStarts, position) };
  };
  const problem = ({ code, message, offset }: Fault): Problem => ({
    code,
    file,
    message: cleanLine(message),
    ...place(offset),
  });

  const control = controlIn(plain);
  if (control) return { ok: false, why: [problem(control)] };
  const composed = compose(plain);
  if (!composed.ok) return { ok: false, why: composed.why.sort((a, b) => a.offset - b.offset).map(problem) };
  const { value, places, faults } = plainValues(composed.doc);
  if (value === '') {
    return {
      ok: false,
      why: [{ code: 'empty', file, line: 1, column: 1, message: 'the file is empty', excerpt: '' }],
    };
  }
  const start = composed.doc.contents?.range?.[0] ?? 0;
  const at = (path: Path) => place(offsetOf(places, value, start, path));
  return { ok: true, value: { value, faults: [...composed.faults, ...faults].map(problem), at } };
}

/** The line that something stands on, or as much of a long one as leads up to it and follows. */
function excerpt(text: string, lineStarts: readonly number[], { line, column }: Position): string {
  const start = lineStarts[line - 1] ?? 0;
  const end = lineStarts[line] ?? text.length;
  const from = column > LONGEST_EXCERPT - 20 ? start + column - LONGEST_EXCERPT / 2 : start;
  const shown = text.slice(from, Math.min(end, from + LONGEST_EXCERPT)).replace(/\r?\n$/, '');
  return cleanLine(from > start ? `...${shown}` : shown);
}

function controlIn(text: string): Fault | undefined {
  const found = text.match(CONTROL);
  const [first] = found ?? [];
  if (found === null || first === undefined) return undefined;
  const sign = `U+${(first.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`;
  const more = found.length > 1 ? `, the first of ${found.length} such characters` : '';
  return {
    code: 'not-text',
    message: `a character that is not text (${sign}) stands here${more}: delete it`,
    offset: text.indexOf(first),
  };
}

type Composed = { ok: true; doc: Document.Parsed; faults: Fault[] } | { ok: false; why: Fault[] };

function compose(text: string): Composed {
  // Keys that stand twice are found by plainValues: the library compares every key with every other.
  const composer = new Composer({
    schema: 'failsafe',
    version: '1.2',
    resolveKnownTags: false,
    uniqueKeys: false,
  });
  const docs: Document.Parsed[] = [];
  const open: Fault[] = [];
  let strays = 0;
  for (const token of new Parser().parse(text)) {
    const deep = token.type === 'document' ? lookThrough(token.value, open) : undefined;
    if (deep) return { ok: false, why: [deep] };
    docs.push(...composer.next(token));
    if (token.type === 'error') strays += 1;
    if (strays === MOST_FAULTS) break;
  }
  docs.push(...composer.end(true, text.length));
  const [doc, second] = docs;
  if (doc === undefined) throw new Error('the YAML library gave no document');
  const found = [...doc.errors, ...doc.warnings].filter((e) => open.length === 0 || !saysUnclosed(e.message));
  const faults = [...open, ...found.slice(0, MOST_FAULTS).map((e) => faultOf(e, text))];
  if (second)
    faults.push({
      code: 'several-documents',
      message: plainFault('MULTIPLE_DOCS', '', ''),
      offset: second.range[0],
    });
  return faults.every((f) => f.code === 'custom-tag')
    ? { ok: true, doc, faults }
    : { ok: false, why: faults };
}

const faultOf = (e: YAMLError, text: string): Fault => ({
  code: syntaxCode(e.code),
  message: plainFault(e.code, e.message, text.slice(e.pos[0], e.pos[0] + 40)),
  offset: Math.max(0, e.pos[0]),
});

/** Finds brackets and quotation marks that stay open, into `open`; returns where the nesting goes too deep. */
function lookThrough(root: CST.Token | undefined, open: Fault[]): Fault | undefined {
  let level = root ? [root] : [];
  for (let depth = 1; level.length > 0; depth += 1) {
    const below: CST.Token[] = [];
    for (const token of level) {
      const mark = openMark(token);
      if (mark) open.push({ code: 'syntax', message: unclosed(mark), offset: token.offset });
      if (!('items' in token)) continue;
      if (depth > DEEPEST) return tooDeep(token.offset);
      for (const { key, value } of token.items) {
        if (key) below.push(key);
        if (value) below.push(value);
      }
    }
    level = below;
  }
  return undefined;
}

const tooDeep = (offset: number): Fault => ({
  code: 'too-deep',
  message: `lists and maps go more than ${DEEPEST} levels deep here: write them flatter`,
  offset,
});

function openMark(token: CST.Token): string | undefined {
  if (token.type === 'flow-collection') {
    const closed = token.start.type === 'flow-seq-start' ? 'flow-seq-end' : 'flow-map-end';
    return token.end.some((t) => t.type === closed) ? undefined : token.start.source;
  }
  if (token.type !== 'double-quoted-scalar' && token.type !== 'single-quoted-scalar') return undefined;
  const mark = token.type === 'double-quoted-scalar' ? '"' : "'";
  return token.source.length < 2 || !token.source.endsWith(mark) ? mark : undefined;
}
