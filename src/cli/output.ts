import type { Writable } from 'node:stream';
import { bad, ok, type Result } from '../measure/result.ts';

/** The one way out: standard output, or a file that appears whole or not at all. */

export interface Where {
  readonly file?: string | undefined;
  readonly force?: boolean | undefined;
}

/** `reader gone`: nobody reads any longer (`scruple caseload | head`). No fault, and a reason to stop early. */
export type Written = 'written' | 'reader gone';

export interface Output {
  write(text: string): Promise<Result<Written>>;
  /** The file takes its name here. Until then nothing of it is to be seen, and a file of that name is untouched. */
  finish(): Promise<Result<undefined>>;
  /** Leaves everything as it was. */
  abandon(): Promise<void>;
}

/** Opens, writes one text, finishes. */
export async function output(
  text: string,
  where: Where,
  stdout: Writable = process.stdout,
): Promise<Result<Written>> {
  const opened = await openOutput(where, stdout);
  if (!opened.ok) return opened;
  const written = await opened.value.write(text);
  if (!written.ok) return written;
  const finished = await opened.value.finish();
  return finished.ok ? written : finished;
}

/** Refuses here, before any long work is done, what could not be finished: a file that is there, a folder that is not. */
export async function openOutput(
  { file, force = false }: Where,
  stdout: Writable = process.stdout,
): Promise<Result<Output>> {
  if (file === undefined) return ok(toStream(stdout));
  const { toFile } = await import('./output-file.ts');
  return toFile(file, force);
}

const heard = new WeakSet<Writable>();

function toStream(stream: Writable): Output {
  // A stream whose reader has gone says so twice: to the callback of the write, which answers it, and as an event.
  if (!heard.has(stream)) stream.on('error', () => {});
  heard.add(stream);
  return {
    write: (text) =>
      new Promise((done) => {
        stream.write(text, (error) => {
          if (!error) done(ok('written'));
          else if (isReaderGone(error)) done(ok('reader gone'));
          else done(bad(`standard output: ${inWords(error)}`));
        });
      }),
    finish: async () => ok(undefined),
    abandon: async () => {},
  };
}

function isReaderGone(error: NodeJS.ErrnoException): boolean {
  return error.code === 'EPIPE' || error.code === 'ERR_STREAM_DESTROYED';
}

const WHY: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder',
  ENOTDIR: 'there is no such folder',
  EACCES: 'it is not permitted',
  EPERM: 'it is not permitted',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk is full',
  ENAMETOOLONG: 'the name is too long',
};

/** What the system says of a failed write, in plain English. */
export function inWords(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code ?? '';
  return WHY[code] ?? `the system says ${code || String(error)}`;
}
