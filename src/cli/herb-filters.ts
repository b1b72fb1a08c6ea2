import type { Folder } from '../folder/folder.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import { parseMonth } from '../gathering/months.ts';
import { nearest } from '../measure/nearest.ts';
import { medicineMatches, resolveMedicine } from '../vocabulary/medicines.ts';
import { failedLoading, type Loading } from './load.ts';
import { usage } from './outcome.ts';
import { medicinesOf } from './vocabularies.ts';

/** What herbs are chosen by; every one that is given must hold. */
export interface HerbFilters {
  readonly action?: string;
  readonly use?: string;
  readonly month?: string;
  readonly family?: string;
  readonly part?: string;
  readonly effect?: string;
  readonly constituent?: string;
  readonly medicine?: string;
  readonly signedOff?: boolean;
  readonly notSignedOff?: boolean;
}

type Keep = (m: Monograph) => boolean;

const plain = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/[\s_]+/g, '-');

/** Words of the library by which a herb can be chosen, so that one that no herb has is not taken for an empty answer. */
const WORDS: Readonly<
  Record<'action' | 'use' | 'family' | 'part' | 'effect' | 'constituent', (m: Monograph) => readonly string[]>
> = {
  action: (m) => m.actions ?? [],
  use: (m) => (m.doses === 'none-read' ? [] : m.doses.flatMap((e) => e.use ?? [])),
  family: (m) => [m.family],
  part: (m) => [m.part],
  effect: (m) => m.effects ?? [],
  constituent: (m) => (m.constituents ?? []).map((c) => c.name),
};

/** The herbs that every filter keeps. Errors: a word that no herb of the folder has, a month or a medicine not understood. */
export async function filterHerbs(
  herbs: readonly Monograph[],
  filters: HerbFilters,
  folder: Folder,
): Promise<Loading<readonly Monograph[]>> {
  const keeps: Keep[] = [];
  for (const [key, wordsOf] of Object.entries(WORDS) as [keyof typeof WORDS, (typeof WORDS)['use']][]) {
    const asked = filters[key];
    if (asked === undefined) continue;
    const wanted = plain(asked);
    const has: Keep = (m) => wordsOf(m).some((w) => holds(plain(w), wanted, key));
    if (!herbs.some(has)) {
      const known = [...new Set(herbs.flatMap(wordsOf))].sort();
      const near = nearest(asked, known);
      const hint =
        near.length > 0 ? `did you mean ${near.join(' or ')}?` : `there are ${known.slice(0, 12).join(', ')}`;
      return failedLoading([usage(`--${key} "${asked}" is said of no herb here: ${hint}`)]);
    }
    keeps.push(has);
  }
  if (filters.month !== undefined) {
    const month = parseMonth(filters.month);
    if (!month.ok) return failedLoading([usage(`--month ${month.why}`)]);
    keeps.push((m) => m.gather?.months?.includes(month.value) ?? false);
  }
  if (filters.medicine !== undefined) {
    const meets = await meetsMedicine(filters.medicine, folder);
    if (!meets.ok) return meets;
    keeps.push(meets.value);
  }
  if (filters.signedOff) keeps.push((m) => m.checked !== null);
  if (filters.notSignedOff) keeps.push((m) => m.checked === null);
  return { ok: true, value: herbs.filter((m) => keeps.every((k) => k(m))) };
}

/** A constituent or part is found by a word of its name; the others are whole words of the library. */
const holds = (word: string, wanted: string, key: keyof typeof WORDS): boolean =>
  word === wanted || ((key === 'constituent' || key === 'part') && `-${word}-`.includes(`-${wanted}-`));

/** Herbs whose cautions speak of this medicine, or may. */
async function meetsMedicine(word: string, folder: Folder): Promise<Loading<Keep>> {
  const vocabulary = await medicinesOf(folder);
  if (!vocabulary.ok) return vocabulary;
  const v = vocabulary.value;
  const found = resolveMedicine(v, { name: word });
  if (found.kind !== 'found') {
    const near = found.kind === 'unknown' ? found.near : found.could;
    const hint = near.length > 0 ? `: did you mean ${near.join(' or ')}?` : '';
    return failedLoading([usage(`--medicine "${word}" is not understood${hint}`)]);
  }
  return {
    ok: true,
    value: (m) =>
      (m.cautions ?? []).some((c) =>
        (c.when.medicine ?? []).some((t) => medicineMatches(v, found.item, t) !== false),
      ),
  };
}
