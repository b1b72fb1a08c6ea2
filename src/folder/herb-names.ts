import { nearest } from '../measure/nearest.ts';
import { type Folder, hasId, idsOf, readById } from './folder.ts';
import { latinForms } from './latin-name.ts';

/** What a herb's name came to: the id of its monograph, several that answer, or none with the nearest names. */
export type HerbNamed =
  | { readonly kind: 'found'; readonly id: string }
  | { readonly kind: 'several'; readonly ids: readonly string[] }
  | { readonly kind: 'none'; readonly near: readonly string[] };

const plain = (name: string): string =>
  name
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[\u2018\u2019`]/g, "'")
    .replace(/\u00d7/g, 'x')
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/**
 * Finds a monograph by id, or by any Latin, pharmacopoeial or common name. An id costs one look at the file system;
 * a name is looked for in the whole library.
 */
export async function findHerb(folder: Folder, name: string): Promise<HerbNamed> {
  if (hasId(folder, 'monograph', name)) return { kind: 'found', id: name };
  const wanted = plain(name);
  const ids = new Set<string>();
  const known: string[] = [];
  for (const id of idsOf(folder, 'monograph')) {
    const read = await readById(folder, 'monograph', id);
    // A monograph in disorder still answers to its id.
    if (!read.ok) {
      known.push(id);
      if (plain(id) === wanted) ids.add(id);
      continue;
    }
    const { latin, pharmacopoeial, common } = read.value.value.names;
    const names = [id, ...latinForms(latin), ...(pharmacopoeial ? [pharmacopoeial] : []), ...common];
    known.push(...names);
    if (names.some((n) => plain(n) === wanted)) ids.add(id);
  }
  const [only, ...more] = [...ids];
  if (only === undefined) return { kind: 'none', near: nearest(name, known) };
  return more.length === 0 ? { kind: 'found', id: only } : { kind: 'several', ids: [only, ...more] };
}
