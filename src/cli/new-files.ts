import { lstatSync, mkdirSync, rmdirSync, statSync, unlinkSync } from 'node:fs';
import { dirname, join, resolve, sep } from 'node:path';
import { bad, ok, type Result } from '../measure/result.ts';
import { cleanLine } from '../reports/escape.ts';
import { inWords, output } from './output.ts';

/** Files by their path in a folder, with / between its parts. */
export type NewFiles = ReadonlyMap<string, string>;

const NAMED = 3;

/** Why these files cannot be made in this folder; null where they can. Nothing is written to find out. */
export function whyNot(dir: string, files: NewFiles): string | null {
  const shown = cleanLine(dir);
  if (dir === '') return 'name the folder to be made';
  try {
    const there = statSync(dir, { throwIfNoEntry: false });
    if (there && !there.isDirectory()) return `${shown} is a file, not a folder: choose another name`;
    // A link that leads nowhere has no folder to write into, and none may be made in its place.
    if (!there && lstatSync(dir, { throwIfNoEntry: false })) return `${shown} is a link that leads nowhere`;
    for (const place of placesOf(files)) {
      const at = lstatSync(join(dir, place), { throwIfNoEntry: false });
      if (at?.isSymbolicLink())
        return `${place} in ${shown} is a link to elsewhere: nothing is written through it`;
      if (at && !at.isDirectory()) return `${place} in ${shown} is a file, and is to be a folder`;
    }
    const taken = [...files.keys()].filter((f) => lstatSync(join(dir, f), { throwIfNoEntry: false }));
    if (taken.length === 0) return null;
    const more = taken.length > NAMED ? ` and ${taken.length - NAMED} more` : '';
    return `${shown} already holds ${taken.slice(0, NAMED).join(', ')}${more}: nothing is overwritten, choose another folder`;
  } catch (error) {
    return `${shown} cannot be used: ${inWords(error)}`;
  }
}

/** The folders that the files stand in, the outer before the inner. */
function placesOf(files: NewFiles): string[] {
  const places = new Set<string>();
  for (const file of files.keys()) {
    const parts = file.split('/').slice(0, -1);
    for (let n = 1; n <= parts.length; n += 1) places.add(parts.slice(0, n).join('/'));
  }
  return [...places];
}

/** Writes all of them or, where one cannot be written, takes away again what it wrote, and nothing else. */
export async function writeNew(dir: string, files: NewFiles): Promise<Result<undefined>> {
  const made: (() => void)[] = [];
  const undo = (): void => {
    for (const take of made.reverse()) {
      try {
        take();
      } catch {
        // Somebody has put something of theirs into a folder of ours meanwhile: it stays.
      }
    }
  };
  const folder = (path: string): void => {
    if (statSync(path, { throwIfNoEntry: false })?.isDirectory()) return;
    if (dirname(path) !== path) folder(dirname(path));
    mkdirSync(path);
    made.push(() => rmdirSync(path));
  };
  try {
    folder(resolve(dir));
    for (const [file, text] of files) {
      const path = join(dir, ...file.split('/'));
      folder(resolve(dirname(path)));
      const written = await output(text, { file: path });
      if (!written.ok) {
        undo();
        return bad(written.why);
      }
      made.push(() => unlinkSync(path));
    }
    return ok(undefined);
  } catch (error) {
    undo();
    const { path = dir } = error as NodeJS.ErrnoException;
    const shown = cleanLine(path.split(sep).join('/'));
    return bad(`${shown} could not be made: ${inWords(error)}`);
  }
}
