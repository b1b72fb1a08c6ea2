import type { Problem } from '../folder/problem.ts';
import type { Line, Sheet } from '../reports/sheet.ts';

/** One answer of a command: a sheet for people, and the same for machines. Several people make several. */
export interface Answer {
  /** What a file of its own would be called. */
  readonly name: string;
  readonly sheet: Sheet;
  readonly result: unknown;
  /** What is printed as it stands instead of the sheet, which then serves Markdown alone. */
  readonly document?: string;
  readonly findings?: readonly unknown[];
  /** What an index of many sheets says of this one. */
  readonly listed?: readonly { readonly head: string; readonly value: Line }[];
}

/** What a command comes to. Problems mean that nothing was computed and nothing is written. */
export type Outcome =
  | { readonly ok: true; readonly answers: readonly Answer[]; readonly exit: number }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const answered = (answers: readonly Answer[], exit = 0): Outcome => ({ ok: true, answers, exit });
export const failed = (problems: readonly Problem[]): Outcome => ({ ok: false, problems });

/** A fault of the command line itself. */
export function misused(message: string): Outcome {
  return failed([usage(message)]);
}

export function usage(message: string): Problem {
  return { code: 'bad-value', file: 'command line', message };
}
