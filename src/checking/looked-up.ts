import type { Patient } from '../folder/schema/patient.ts';
import { compareDates } from '../measure/calendar.ts';
import { normal } from '../vocabulary/normal.ts';
import { isTooOld, type Person, type QuestionTable, type Unresolved } from './person.ts';

/** A word that the practitioner looked up, with what they found. */
export type LookedUp = NonNullable<Patient['looked_up']>[number];

export interface LookedUpWord {
  readonly entry: LookedUp;
  /**
   * `later`: by its date it was looked up after the day of this check. `several`: the word stands for more than one
   * thing that is known, and only its own name leads to what is said of it.
   */
  readonly state: 'good' | 'too old' | 'later' | 'several';
}

/**
 * What was looked up of this very word, however it is spaced and whatever its capitals. It stays good as long as an
 * answer of the list that the word stands in; of several the newest that had been made by this day counts.
 */
export function lookedUp(u: Unresolved, person: Person, questions: QuestionTable): LookedUpWord | null {
  const entries = (person.source.looked_up ?? [])
    .filter((l) => normal(l.word) === normal(u.word))
    .sort((a, b) => compareDates(b.on, a.on) || (a.because < b.because ? -1 : 1));
  const entry = entries.find((l) => compareDates(l.on, person.on) <= 0) ?? entries[0];
  if (entry === undefined) return null;
  if (u.ambiguous) return { entry, state: 'several' };
  if (compareDates(entry.on, person.on) > 0) return { entry, state: 'later' };
  return { entry, state: isTooOld(entry.on, u.list, person.on, questions) ? 'too old' : 'good' };
}

/** Words that the file has as looked up, and that nobody has to look up for this check. */
export function lookedUpInVain({ source, unresolved }: Person): string[] {
  const open = new Set(unresolved.map((u) => normal(u.word)));
  return (source.looked_up ?? []).map((l) => l.word).filter((word) => !open.has(normal(word)));
}
