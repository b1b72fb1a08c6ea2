import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { type Measures, NO_MEASURES } from '../measure/parse.ts';
import type { FileKind, Holds } from './kinds.ts';
import type { Problem } from './problem.ts';
import { revive } from './stored.ts';

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

/** Reads and validates one file of the folder: from the compiled index if its bytes are known there, else by parsing. */
export async function readDocument<K extends FileKind>(
  kind: K,
  path: string,
  shown: string,
  measures: Measures = NO_MEASURES,
): Promise<ReadResult<Holds[K]>> {
  const bytes = readBytes(path, shown);
  if (!bytes.ok) return bytes;
  const hash = createHash('sha256').update(bytes.value).digest('hex');
  const compiled = fromIndex(kind, hash, basename(path, '.yaml'));
  if (compiled !== undefined) return { ok: true, value: { file: shown, hash, value: compiled as Holds[K] } };
  return readText(kind, decode(bytes.value), shown, basename(path, '.yaml'), hash, measures);
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
  if (text === null)
    return { ok: false, why: [{ code: 'not-text', file: shown, message: 'this is not UTF-8 text' }] };
  const { parseYaml } = await import('./parse.ts');
  const parsed = parseYaml(text, shown);
  if (!parsed.ok) return parsed;
  const { validate } = await import('./validate.ts');
  const valid = await validate(kind, parsed.value, shown, name, measures);
  return valid.ok ? { ok: true, value: { file: shown, hash, value: valid.value } } : valid;
}

function readBytes(path: string, shown: string): { ok: true; value: Buffer } | { ok: false; why: Problem[] } {
  opened.push(path);
  try {
    const bytes = readFileSync(path);
    if (bytes.length > LARGEST)
      return {
        ok: false,
        why: [
          {
            code: 'too-large',
            file: shown,
            message: `the file has ${(bytes.length / LARGEST).toFixed(1)} MiB; the limit is 1 MiB`,
          },
        ],
      };
    return { ok: true, value: bytes };
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === 'ENOENT' || code === 'ENOTDIR')
      return { ok: false, why: [{ code: 'not-found', file: shown, message: 'there is no such file' }] };
    return {
      ok: false,
      why: [{ code: 'unreadable', file: shown, message: `it cannot be read (${code ?? 'unknown reason'})` }],
    };
  }
}

function decode(bytes: Buffer): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

function fromIndex(kind: FileKind, hash: string, name: string): unknown {
  let json: string;
  try {
    json = readFileSync(new URL(`${hash}.json`, INDEX), 'utf8');
  } catch {
    return undefined;
  }
  const entry = revive(json) as { kind: FileKind; name: string; value: unknown };
  // The same bytes under another name or in another role are another file: parse it and let it be judged.
  return entry.kind === kind && entry.name === name ? entry.value : undefined;
}
