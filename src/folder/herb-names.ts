import { nearest } from '../measure/nearest.ts';
import { type Folder, hasId, idsOf, readById } from './folder.ts';

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
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
    .trim();

/** Latin names are also met without their author: the genus and epithet alone, up to the first capital or bracket. */
function withoutAuthor(latin: string): string {
  const words = latin.split(' ');
  const end = words.findIndex((w, i) => i > 0 && !/^(x|\u00d7|subsp\.|var\.|f\.|[a-z-]+)$/.test(w));
  return (end < 0 ? words : words.slice(0, end)).join(' ');
}

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
    known.push(id);
    const read = await readById(folder, 'monograph', id);
    if (!read.ok) continue;
    const { latin, pharmacopoeial, common } = read.value.value.names;
    const names = [
      id,
      latin,
      withoutAuthor(latin),
      ...(pharmacopoeial ? [pharmacopoeial] : []),
      ...common,
    ].map(plain);
    known.push(...common);
    if (names.includes(wanted)) ids.add(id);
  }
  const [only, ...more] = [...ids];
  if (only === undefined) return { kind: 'none', near: nearest(name, known) };
  return more.length === 0 ? { kind: 'found', id: only } : { kind: 'several', ids: [only, ...more] };
}
