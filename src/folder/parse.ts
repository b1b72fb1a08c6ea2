import { type Document, LineCounter, parseDocument } from 'yaml';
import { cleanLine } from '../reports/escape.ts';
import { type Path, positionOf } from './positions.ts';
import type { Problem, ProblemCode } from './problem.ts';

/** A parsed file before anything is known of its meaning: maps, lists and texts, and where each stands. */
export interface ParsedYaml {
  readonly value: unknown;
  at(path: Path): { line: number; column: number; excerpt: string };
}

const MOST_ALIASES = 50;

const CODES: Partial<Record<string, ProblemCode>> = {
  DUPLICATE_KEY: 'duplicate-key',
  TAG_RESOLVE_FAILED: 'custom-tag',
  MULTIPLE_DOCS: 'several-documents',
};

/**
 * YAML 1.2 with the failsafe schema: every scalar stays text, so `no`, `0.5`, `1e400` and `012` reach our own
 * parsers as written. Refused: syntax errors, duplicate keys, custom tags, several documents, piled-up aliases.
 */
export function parseYaml(
  text: string,
  file: string,
): { ok: true; value: ParsedYaml } | { ok: false; why: Problem[] } {
  const lines = new LineCounter();
  const doc = parseDocument(text, {
    schema: 'failsafe',
    version: '1.2',
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: true,
  });
  const excerptAt = (line: number): string =>
    cleanLine(text.split(/\r\n|\r|\n/, line)[line - 1] ?? '').slice(0, 120);
  const problem = (code: ProblemCode, message: string, offset: number): Problem => {
    const { line, col } = lines.linePos(offset);
    const at = Math.max(1, line);
    return { code, file, line: at, column: Math.max(1, col), message, excerpt: excerptAt(at) };
  };
  const faults = [...doc.errors, ...doc.warnings];
  if (faults.length > 0) {
    return {
      ok: false,
      why: faults.map((e) => problem(CODES[e.code] ?? 'syntax', plainFault(e.code, e.message), e.pos[0])),
    };
  }
  const value = toPlain(doc);
  if (!value.ok)
    return {
      ok: false,
      why: [problem('too-many-aliases', 'aliases repeat each other too often: write the values out', 0)],
    };
  if (value.value === null || value.value === undefined || value.value === '') {
    return { ok: false, why: [{ code: 'empty', file, line: 1, column: 1, message: 'the file is empty' }] };
  }
  const at = (path: Path) => {
    const p = positionOf(doc, lines, path);
    return { ...p, excerpt: excerptAt(p.line) };
  };
  return { ok: true, value: { value: value.value, at } };
}

function toPlain(doc: Document): { ok: true; value: unknown } | { ok: false } {
  try {
    return { ok: true, value: doc.toJS({ maxAliasCount: MOST_ALIASES }) };
  } catch (error) {
    if (error instanceof ReferenceError) return { ok: false };
    throw error;
  }
}

function plainFault(code: string, message: string): string {
  switch (code) {
    case 'DUPLICATE_KEY':
      return 'this key stands twice in one map: keep one';
    case 'TAG_RESOLVE_FAILED':
      return 'tags (words with !) are not used in these files: write the plain value';
    case 'MULTIPLE_DOCS':
      return 'a file holds one document: remove the second --- and what follows, or make it a file of its own';
    case 'TAB_AS_INDENT':
      return 'indented with a tab: use spaces';
    default:
      return `YAML: ${message.split('\n')[0] ?? message}`;
  }
}
