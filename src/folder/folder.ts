import { existsSync, lstatSync, readdirSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import type { Measures } from '../measure/parse.ts';
import { NO_MEASURES } from '../measure/parse.ts';
import { parseId } from './id.ts';
import type { FileKind, Holds } from './kinds.ts';
import { withOwnAdditions } from './overlay.ts';
import type { Problem } from './problem.ts';
import { type ReadResult, readDocument } from './read.ts';
import { DEFAULT_SETTINGS, type Settings, settingsOf } from './settings.ts';

/** A practice's folder: where it is, and what the practice has settled. Files are read only when asked for. */
export interface Folder {
  readonly root: string;
  readonly settings: Settings;
  readonly measures: Measures;
}

export type Opened =
  | { readonly ok: true; readonly value: Folder }
  | { readonly ok: false; readonly why: readonly Problem[] };

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;

const holdsLibrary = (path: string): boolean =>
  isFolder(join(path, 'monographs')) && isFolder(join(path, 'formulas'));

/** The nearest folder, from `start` upward, that holds monographs/ and formulas/; null where there is none. */
export function findRoot(start: string): string | null {
  for (let at = resolve(start); ; at = dirname(at)) {
    if (holdsLibrary(at)) return at;
    if (dirname(at) === at) return null;
  }
}

/** Opens the folder and reads its practice.yaml, if it has one. `named` is the --folder option. */
export async function openFolder(start: string, named: string | undefined): Promise<Opened> {
  if (named !== undefined && !holdsLibrary(named)) {
    return {
      ok: false,
      why: [
        { code: 'no-folder', file: named, message: 'this folder does not hold monographs/ and formulas/' },
      ],
    };
  }
  const root = named === undefined ? findRoot(start) : resolve(named);
  if (root === null) {
    return {
      ok: false,
      why: [
        {
          code: 'no-folder',
          file: '.',
          message:
            'no folder here or above holds monographs/ and formulas/: change to your folder, or name it with --folder',
        },
      ],
    };
  }
  const practice = await readPractice(root);
  if (!practice.ok) return practice;
  return { ok: true, value: { root, settings: practice.value, measures: practice.value.measures } };
}

async function readPractice(
  root: string,
): Promise<{ ok: true; value: Settings } | { ok: false; why: readonly Problem[] }> {
  const path = join(root, 'practice.yaml');
  if (!lstatSync(path, { throwIfNoEntry: false })) return { ok: true, value: DEFAULT_SETTINGS };
  const read = await readDocument('practice', path, 'practice.yaml');
  return read.ok ? { ok: true, value: settingsOf(read.value.value) } : read;
}

const PLACE: Partial<Record<FileKind, string>> = { monograph: 'monographs', formula: 'formulas' };

/** Where a file of this kind and id lives; ids never leave the folder. */
export function pathOf(kind: FileKind, id: string): string {
  return join(PLACE[kind] ?? join('monographs', 'reference'), `${id}.yaml`);
}

/** Reads one file of the folder by kind and id. */
export async function readById<K extends FileKind>(
  folder: Folder,
  kind: K,
  id: string,
): Promise<ReadResult<Holds[K]>> {
  const valid = parseId(id);
  if (!valid.ok) return { ok: false, why: [{ code: 'wrong-id', file: id, message: valid.why }] };
  const place = pathOf(kind, id);
  return readDocument(
    kind,
    join(folder.root, place),
    place,
    kind === 'formula' ? folder.measures : NO_MEASURES,
  );
}

/** Reads a shared table and the practitioner's own additions to it; its name is its kind. */
export async function readTable<K extends FileKind>(folder: Folder, kind: K): Promise<ReadResult<Holds[K]>> {
  return withOwnAdditions(folder.root, kind, await readById(folder, kind, kind));
}

export function hasId(folder: Folder, kind: FileKind, id: string): boolean {
  return parseId(id).ok && existsSync(join(folder.root, pathOf(kind, id)));
}

/** The ids of every file of a kind, sorted. A link to a file elsewhere counts as a file. */
export function idsOf(folder: Folder, kind: 'monograph' | 'formula'): string[] {
  const place = PLACE[kind] ?? '';
  return readdirSync(join(folder.root, place), { withFileTypes: true })
    .filter((f) => (f.isFile() || f.isSymbolicLink()) && f.name.endsWith('.yaml'))
    .map((f) => f.name.slice(0, -5))
    .sort();
}

/** A path as it is shown in messages: relative to the folder if it lies in it. */
export function shownPath(path: string): string {
  const r = relative(process.cwd(), resolve(path));
  return r.startsWith('..') ? path : r || '.';
}
