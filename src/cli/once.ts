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
