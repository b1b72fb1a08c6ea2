import { readFileSync } from 'node:fs';
import type { Matching } from '../checking/case.ts';
import {
  type Person,
  personOf,
  type Stated,
  saidWith,
  type TakenHerb,
  type Unresolved,
} from '../checking/person.ts';
import { decode } from '../folder/decode.ts';
import { type Folder, shownPath } from '../folder/folder.ts';
import { sha256 } from '../folder/hash.ts';
import { findHerb } from '../folder/herb-names.ts';
import { herbsIn } from '../folder/ingredients.ts';
import type { Problem } from '../folder/problem.ts';
import { readDocument, readText } from '../folder/read.ts';
import type { Patient } from '../folder/schema/patient.ts';
import { type CalendarDate, daysBetween, writeDate } from '../measure/calendar.ts';
import { inUnit, type Quantity } from '../measure/quantity.ts';
import { gram } from '../measure/units.ts';
import type { StatedAllergy } from '../vocabulary/allergies.ts';
import { resolveCondition } from '../vocabulary/conditions.ts';
import type { Found } from '../vocabulary/found.ts';
import { resolveMedicine } from '../vocabulary/medicines.ts';
import { failedLoading, type Loading, loadFormula } from './load.ts';
import { questionsOf } from './load-case.ts';
import type { PersonOptions } from './options.ts';
import { usage } from './outcome.ts';
import { describesPerson, patientFromFlags } from './person-flags.ts';
import {
  conditionSaid,
  nameOfAllergy,
  nameOfCondition,
  nameOfMedicine,
  resolveAllergyWord,
  stoppedOf,
} from './person-words.ts';
import { loadVocabularies, matchingOf, NOBODY } from './vocabularies.ts';

/** The patients named by --patient or described by flags; null alone where nobody was named. */
export async function loadPatients(
  options: PersonOptions,
  on: CalendarDate,
): Promise<Loading<readonly (Patient | null)[]>> {
  const files = options.patient ?? [];
  if (files.length > 0 && describesPerson(options))
    return failedLoading([
      usage('--patient and flags about a person do not go together: put the answers into the file'),
    ]);
  if (files.length === 0) {
    if (!describesPerson(options)) return { ok: true, value: [null] };
    const p = patientFromFlags(options, on);
    if (!p.ok) return failedLoading(p.why.map(usage));
    const fault = notYetBorn(p.value, on);
    return fault === null ? { ok: true, value: [p.value] } : failedLoading([usage(`--born ${fault}`)]);
  }
  const patients: Patient[] = [];
  const problems: Problem[] = [];
  for (const file of files) {
    const read =
      file === '-' ? await fromStandardInput() : await readDocument('patient', file, shownPath(file));
    if (!read.ok) {
      problems.push(...read.why);
      continue;
    }
    patients.push(read.value.value);
    const fault = notYetBorn(read.value.value, on);
    if (fault !== null) problems.push({ code: 'bad-value', file: read.value.file, message: `born ${fault}` });
  }
  return problems.length > 0 ? failedLoading(problems) : { ok: true, value: patients };
}

/** A birth after the day reckoned from is a slip in one of the two, and no age at all. */
function notYetBorn({ born }: Patient, on: CalendarDate): string | null {
  if (!born || daysBetween(born.earliest, on) >= 0) return null;
  return `${writeDate(born.earliest)} is after the day reckoned from, ${writeDate(on)}: which is right?`;
}

async function fromStandardInput(): ReturnType<typeof readText<'patient'>> {
  const bytes = readFileSync(0);
  return readText('patient', decode(bytes), 'standard input', null, await sha256(bytes));
}

/** A person with every word resolved, and how their words meet those of the monographs. */
export interface Understood {
  readonly person: Person | null;
  readonly matching: Matching;
}

/** Resolves a patient's words. Only the tables that the words need are read: no medicines, no table of medicines. */
export async function understand(
  patient: Patient | null,
  folder: Folder,
  on: CalendarDate,
): Promise<Loading<Understood>> {
  if (patient === null) return { ok: true, value: { person: null, matching: NOBODY } };
  const v = await loadVocabularies(patient, folder);
  if (!v.ok) return v;
  const { medicines, conditions, allergies } = v.value;
  const unresolved: Unresolved[] = [];
  const settle = <T>(
    list: Unresolved['list'],
    word: string,
    found: Found<T>,
    nameOf: (item: T) => string,
    sayIt: (name: string, item: T) => string,
  ): Stated<T>[] => {
    if (found.kind === 'found') {
      const name = nameOf(found.item);
      const said = sayIt(name, found.item);
      return [{ word, name, said, item: found.item, readAs: found.how === 'spelling' ? said : null }];
    }
    unresolved.push({
      list,
      word,
      ambiguous: found.kind === 'ambiguous',
      could: found.kind === 'ambiguous' ? found.could : [],
      near: found.kind === 'unknown' ? found.near : [],
    });
    return [];
  };
  const questions = await questionsOf(folder);
  if (!questions.ok) return questions;
  const countsFor = (id: 'medicines' | 'taking'): Quantity | null =>
    questions.value.questions.find((q) => q.id === id)?.counts_after_stopping ?? null;
  const taken = (patient.medicines ?? []).flatMap((m) => {
    const stopped = stoppedOf(m, on, countsFor('medicines'));
    if (!medicines || stopped === 'long ago') return [];
    return settle('medicines', m.name, resolveMedicine(medicines, m), nameOfMedicine, (name) =>
      saidWith(name, stopped),
    );
  });
  const stated = (patient.conditions ?? []).flatMap((c) =>
    conditions
      ? settle('conditions', c.name, resolveCondition(conditions, c), nameOfCondition(conditions), (name) =>
          conditionSaid(conditions, name),
        )
      : [],
  );
  const allergic: Stated<StatedAllergy>[] = [];
  for (const a of patient.allergies ?? []) {
    if (allergies)
      allergic.push(
        ...settle(
          'allergies',
          a.name,
          await resolveAllergyWord(allergies, folder, a.name),
          nameOfAllergy,
          () => `"${a.name}"`,
        ),
      );
  }
  const taking = await takingOf(patient, folder, unresolved, on, countsFor('taking'));
  if (!taking.ok) return taking;
  const person = personOf(
    patient,
    { medicines: taken, conditions: stated, allergies: allergic, unresolved, taking: taking.value },
    on,
  );
  return { ok: true, value: { person, matching: matchingOf(v.value) } };
}

/** The most of it that is taken in a day, where that was said as a weight. */
function gramsADay(t: NonNullable<Patient['taking']>[number]): Quantity | null {
  const most = 'daily' in t ? (t.daily?.high ?? null) : null;
  return most?.unit.dimension === 'mass' ? inUnit(most, gram) : null;
}

/** What the person takes already, herb by herb; a formula stands for each of its herbs. */
async function takingOf(
  p: Patient,
  folder: Folder,
  unresolved: Unresolved[],
  on: CalendarDate,
  countsFor: Quantity | null,
): Promise<Loading<TakenHerb[]>> {
  const taken: TakenHerb[] = [];
  for (const t of p.taking ?? []) {
    const stopped = stoppedOf(t, on, countsFor);
    if (stopped === 'long ago') continue;
    const dates = { since: 'since' in t ? (t.since?.earliest ?? null) : null, stopped };
    if ('formula' in t && t.formula !== undefined) {
      const formula = await loadFormula(folder, t.formula);
      if (!formula.ok) return formula;
      taken.push(...herbsIn(formula.value.value).map((herb) => ({ herb, daily: null, ...dates })));
    } else if (t.herb !== undefined) {
      const named = await findHerb(folder, t.herb);
      if (named.kind === 'none')
        unresolved.push({ list: 'taking', word: t.herb, ambiguous: false, could: [], near: named.near });
      taken.push(
        ...(named.kind === 'several' ? named.ids : [named.kind === 'found' ? named.id : t.herb]).map(
          (herb) => ({ herb, daily: gramsADay(t), ...dates }),
        ),
      );
    } else if ('product' in t && t.product !== undefined) {
      // What a shop product holds is not known here, and what is not known is asked.
      unresolved.push({ list: 'taking', word: t.product, ambiguous: false, could: [], near: [] });
    }
  }
  return { ok: true, value: taken };
}
