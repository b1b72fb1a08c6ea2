import { closeSync, fstatSync, openSync, readFileSync, readSync } from 'node:fs';
import { basename } from 'node:path';
import { type Measures, NO_MEASURES } from '../measure/parse.ts';
import { decode, notText } from './decode.ts';
import { sha256 } from './hash.ts';
import type { FileKind, Holds } from './kinds.ts';
import type { Problem, ProblemCode } from './problem.ts';
import { revive, storedMeasures } from './stored.ts';

/** A file as it was read: what it holds, and the hash of its bytes. */
export interface Read<T> {
  readonly file: string;
  readonly hash: string;
  readonly value: T;
}

export type ReadResult<T> =
  | { readonly ok: true; readonly value: Read<T> }
  | { readonly ok: false; readonly why: readonly Problem[] };

const LARGEST = 1024 * 1024;

/** Where the build keeps the compiled index; beside the source there is none, and every file is parsed. */
const INDEX = new URL('./index/', import.meta.url);

/** How many files were opened, for the test that a check opens only what it needs. */
export const opened: string[] = [];

/**
 * Reads and validates one file of the folder: from the compiled index if its bytes are known there, else by parsing.
 * What the practice has settled cannot change a file of the index: it was valid with nothing settled, and a
 * practice's own measures never bear the name of a unit.
 */
export async function readDocument<K extends FileKind>(
  kind: K,
  path: string,
  shown: string,
  measures: Measures = NO_MEASURES,
  index: URL | null = INDEX,
): Promise<ReadResult<Holds[K]>> {
  const bytes = readBytes(path, shown);
  if (!bytes.ok) return bytes;
  const hash = await sha256(bytes.value);
  const name = basename(path, '.yaml');
  const compiled = index === null ? undefined : fromIndex(index, kind, hash, name);
  if (compiled !== undefined) return { ok: true, value: { file: shown, hash, value: compiled as Holds[K] } };
  const text = decode(bytes.value);
  if (text === null) return { ok: false, why: [notText(bytes.value, shown)] };
  return readText(kind, text, shown, name, hash, measures);
}

/** As `readDocument`, for text that came from standard input or from flags. */
export async function readText<K extends FileKind>(
  kind: K,
  text: string | null,
  shown: string,
  name: string | null,
  hash: string,
  measures: Measures = NO_MEASURES,
): Promise<ReadResult<Holds[K]>> {
  if (text === null) return failed(shown, 'not-text', 'this is not UTF-8 text: save it as UTF-8');
  if (text.length > LARGEST) return failed(shown, 'too-large', TOO_LARGE);
  const { validateText } = await import('./validate-text.ts');
  const valid = await validateText(kind, text, shown, name, storedMeasures(measures));
  return valid.ok
    ? { ok: true, value: { file: shown, hash, value: revive(valid.stored) as Holds[K] } }
    : valid;
}

const TOO_LARGE =
  'this is larger than 1 MiB, the most that a file may have: divide it, or check that it is the right file';

const failed = (file: string, code: ProblemCode, message: string): { ok: false; why: Problem[] } => ({
  ok: false,
  why: [{ code, file, message }],
});

function readBytes(path: string, shown: string): { ok: true; value: Buffer } | { ok: false; why: Problem[] } {
  opened.push(path);
  try {
    const bytes = firstBytes(path, LARGEST + 1);
    return bytes.length > LARGEST ? failed(shown, 'too-large', TOO_LARGE) : { ok: true, value: bytes };
  } catch (error) {
    return whyUnreadable(shown, (error as NodeJS.ErrnoException).code);
  }
}

/** No more than `most` bytes are read, so that neither a huge file nor one without an end does any harm. */
function firstBytes(path: string, most: number): Buffer {
  const file = openSync(path, 'r');
  try {
    // A pipe and a device have no size.
    const size = fstatSync(file).size || most;
    const buffer = Buffer.allocUnsafe(Math.min(size, most));
    let length = 0;
    for (let got = -1; got !== 0 && length < buffer.length; length += got)
      got = readSync(file, buffer, length, buffer.length - length, null);
    return buffer.subarray(0, length);
  } finally {
    closeSync(file);
  }
}

function whyUnreadable(shown: string, code: string | undefined): { ok: false; why: Problem[] } {
  switch (code) {
    case 'ENOENT':
    case 'ENOTDIR':
    case 'ENAMETOOLONG':
      return failed(shown, 'not-found', 'there is no such file');
    case 'EISDIR':
      return failed(shown, 'unreadable', 'this is a folder: name a file in it');
    case 'EACCES':
    case 'EPERM':
      return failed(shown, 'unreadable', 'you are not allowed to read this file: change its permissions');
    default:
      return failed(shown, 'unreadable', `this cannot be read (${code ?? 'unknown reason'})`);
  }
}

/** A file of the index that is missing or damaged is as good as none: the YAML itself is at hand. */
function fromIndex(index: URL, kind: FileKind, hash: string, name: string): unknown {
  try {
    const entry = revive(readFileSync(new URL(`${hash}.json`, index), 'utf8')) as Partial<Indexed> | null;
    // The same bytes under another name or in another role are another file: parse it and let it be judged.
    return entry?.kind === kind && entry.name === name ? entry.value : undefined;
  } catch {
    return undefined;
  }
}

/** What a file of the index holds. */
export interface Indexed {
  readonly kind: FileKind;
  readonly name: string;
  readonly value: unknown;
}
