import type { Folder } from '../folder/folder.ts';
import type { Loading } from './load.ts';

/** What was read of a folder, kept for as long as the folder is open: a hundred people need its tables once. */
const kept = new WeakMap<Folder, Map<string, Promise<Loading<unknown>>>>();

/** What `read` comes to, read at the first call for this folder and name. */
export function once<T>(folder: Folder, name: string, read: () => Promise<Loading<T>>): Promise<Loading<T>> {
  const known = kept.get(folder) ?? new Map<string, Promise<Loading<unknown>>>();
  kept.set(folder, known);
  const before = known.get(name) as Promise<Loading<T>> | undefined;
  if (before !== undefined) return before;
  const made = read();
  known.set(name, made);
  return made;
}

/** More different words than a caseload holds, and few enough to hold in memory. */
const MOST = 20_000;

const words = new WeakMap<object, Map<string, unknown>>();

/**
 * What a word comes to, kept beside what it was looked up in: a hundred thousand people say the same few thousand. Of
 * more words than are worth keeping the oldest is forgotten.
 */
export function remembered<T>(beside: object, word: string, look: () => T): T {
  const known = words.get(beside) ?? new Map<string, unknown>();
  words.set(beside, known);
  const before = known.get(word) as { readonly is: T } | undefined;
  if (before !== undefined) return before.is;
  const is = look();
  known.set(word, { is });
  if (known.size > MOST) known.delete(known.keys().next().value as string);
  return is;
}
