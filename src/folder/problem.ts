/** Everything that can be wrong with a file. Scripts rely on the codes; people read the message. */
export type ProblemCode =
  | 'not-found'
  | 'unreadable'
  | 'too-large'
  | 'not-text'
  | 'syntax'
  | 'duplicate-key'
  | 'custom-tag'
  | 'bad-key'
  | 'bad-alias'
  | 'too-many-aliases'
  | 'too-deep'
  | 'several-documents'
  | 'empty'
  | 'unknown-key'
  | 'missing-key'
  | 'wrong-type'
  | 'not-a-choice'
  | 'bad-value'
  | 'wrong-id'
  | 'unknown-reference'
  | 'no-folder';

/** One thing wrong in one place; line and column count from 1. */
export interface Problem {
  readonly code: ProblemCode;
  readonly file: string;
  readonly line?: number;
  readonly column?: number;
  readonly message: string;
  /** The line of the file that it stands on. */
  readonly excerpt?: string;
}

/** `file:line:column: message`, as compilers and editors write it. */
export function writeProblem(p: Problem): string {
  const at = p.line === undefined ? p.file : `${p.file}:${p.line}:${p.column ?? 1}`;
  return `${at}: ${p.message}`;
}
