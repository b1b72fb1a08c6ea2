import { type Folder, idsOf, readById } from '../folder/folder.ts';
import { findHerb } from '../folder/herb-names.ts';
import type { Holds } from '../folder/kinds.ts';
import type { Problem } from '../folder/problem.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import { nearest } from '../measure/nearest.ts';
import { failedLoading, type Loading } from './load.ts';
import { usage } from './outcome.ts';

const MOST_SUGGESTED = 6;

/**
 * A herb's monograph by its id or any of its names; a name that several bear is asked about. `formulas` are the ids that
 * might have been meant as well.
 */
export async function loadHerb(
  folder: Folder,
  name: string,
  formulas: readonly string[] = [],
): Promise<Loading<Monograph>> {
  const found = await findHerb(folder, name);
  if (found.kind === 'several')
    return failedLoading([usage(`"${name}" could be ${found.ids.join(' or ')}: write which`)]);
  if (found.kind === 'none') {
    const near = [
      ...new Set([
        ...nearest(name, formulas),
        ...found.near,
        ...holding(name, [...formulas, ...idsOf(folder, 'monograph')]),
      ]),
    ].slice(0, MOST_SUGGESTED);
    const what = formulas.length > 0 ? 'no formula and no herb' : 'no herb';
    const hint = near.length > 0 ? `did you mean ${near.join(' or ')}?` : 'scruple list shows what there is';
    return failedLoading([usage(`there is ${what} "${name}": ${hint}`)]);
  }
  const read = await readById(folder, 'monograph', found.id);
  return read.ok ? { ok: true, value: read.value.value } : failedLoading(read.why);
}

/** Ids of which the name is a word or more: `fennel` is part of two herbs and names neither. */
function holding(name: string, ids: readonly string[]): string[] {
  const wanted = `-${name.trim().toLowerCase().replace(/\s+/g, '-')}-`;
  return wanted === '--' ? [] : ids.filter((id) => `-${id}-`.includes(wanted));
}

/** Every monograph or formula of the folder, in the order of their ids; or every problem of all of them. */
export async function loadEvery<K extends 'monograph' | 'formula'>(
  folder: Folder,
  kind: K,
): Promise<Loading<readonly Holds[K][]>> {
  const all: Holds[K][] = [];
  const problems: Problem[] = [];
  for (const id of idsOf(folder, kind)) {
    const read = await readById(folder, kind, id);
    if (read.ok) all.push(read.value.value);
    else problems.push(...read.why);
  }
  return problems.length > 0 ? failedLoading(problems) : { ok: true, value: all };
}
