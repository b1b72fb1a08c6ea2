import { genusOf } from '../checking/plant-allergy.ts';
import { type Folder, hasId, readById } from '../folder/folder.ts';
import { findHerb } from '../folder/herb-names.ts';
import { type CalendarDate, daysBetween } from '../measure/calendar.ts';
import { inUnit, type Quantity } from '../measure/quantity.ts';
import { day } from '../measure/units.ts';
import { type AllergyVocabulary, resolveAllergy, type StatedAllergy } from '../vocabulary/allergies.ts';
import {
  type ConditionVocabulary,
  conditionTerm,
  knownConditionTarget,
  type StatedCondition,
} from '../vocabulary/conditions.ts';
import type { Found } from '../vocabulary/found.ts';
import type { TakenMedicine } from '../vocabulary/medicines.ts';
import { normal } from '../vocabulary/normal.ts';

/** What a person's words are called once they are understood, and whether what was stopped still counts. */

export const nameOfMedicine = (m: TakenMedicine): string => m.name;
export const nameOfAllergy = (a: StatedAllergy): string =>
  a.genera[0] ?? a.substances[0] ?? a.families[0] ?? a.medicine?.name ?? 'allergy';

/** The narrowest of the conditions that count, so that a code and a word for the same one bear the same name. */
export function nameOfCondition(v: ConditionVocabulary): (c: StatedCondition) => string {
  return (c) => {
    const narrowest = c.ids.filter((id) => !c.ids.some((other) => v.index.broader.get(other)?.has(id)));
    const names = c.named.length > 0 ? c.named : narrowest;
    return [...(names.length > 0 ? names : [...c.possible, ...c.urgent])].sort().join('+') || 'condition';
  };
}

export function conditionSaid(v: ConditionVocabulary, name: string): string {
  return name
    .split('+')
    .map((id) => (knownConditionTarget(v, id) ? conditionTerm(v, id) : id))
    .join(', ');
}

/**
 * When something was stopped: null where it is still taken, as it is until the day named. Some of what was taken acts
 * on for weeks, so that one stopped lately still counts.
 */
export function stoppedOf(
  taken: { readonly stopped?: { readonly latest: CalendarDate } | undefined } | object,
  on: CalendarDate,
  countsFor: Quantity | null,
): CalendarDate | null | 'long ago' {
  const stopped = 'stopped' in taken ? (taken.stopped?.latest ?? null) : null;
  if (stopped === null) return null;
  const days = daysBetween(stopped, on);
  if (days < 0) return null;
  return days <= (countsFor ? inUnit(countsFor, day).value.toNumber() : 0) ? stopped : 'long ago';
}

/** The genera of the plants that a word names as a herb: by its id at one look, else, if asked, by searching the library. */
async function generaOfHerb(folder: Folder, word: string, search: boolean): Promise<string[]> {
  const name = normal(word).replace(/^(allergy to|allergic to) /, '');
  const id = name.replace(/ /g, '-');
  const named = hasId(folder, 'monograph', id)
    ? { kind: 'found' as const, id }
    : search
      ? await findHerb(folder, name)
      : null;
  const ids = named?.kind === 'found' ? [named.id] : named?.kind === 'several' ? named.ids : [];
  const read = await Promise.all(ids.map((i) => readById(folder, 'monograph', i)));
  return [...new Set(read.flatMap((r) => (r.ok ? [genusOf(r.value.value)] : [])))].sort();
}

/** A word for an allergy: by the table and the herbs' ids; the library is searched only for a word that both lack. */
export async function resolveAllergyWord(
  v: AllergyVocabulary,
  folder: Folder,
  word: string,
): Promise<Found<StatedAllergy>> {
  const [byId] = await generaOfHerb(folder, word, false);
  const found = resolveAllergy(v, word, () => byId ?? null);
  if (found.kind !== 'unknown') return found;
  const [genus, ...more] = await generaOfHerb(folder, word, true);
  if (genus === undefined) return found;
  return more.length > 0
    ? { kind: 'ambiguous', word, could: [genus, ...more] }
    : resolveAllergy(v, word, () => genus);
}
