import { readFileSync } from 'node:fs';
import { join } from 'node:path';
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
import type { Problem } from '../folder/problem.ts';
import { readDocument, readText } from '../folder/read.ts';
import type { Patient } from '../folder/schema/patient.ts';
import { type CalendarDate, daysBetween, writeDate } from '../measure/calendar.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { StatedAllergy } from '../vocabulary/allergies.ts';
import { resolveCondition } from '../vocabulary/conditions.ts';
import type { Found } from '../vocabulary/found.ts';
import { resolveMedicine, type TakenMedicine } from '../vocabulary/medicines.ts';
import { normal } from '../vocabulary/normal.ts';
import { failedLoading, type Loading } from './load.ts';
import { questionsOf } from './load-case.ts';
import { takenAsMedicine, takingOf } from './load-taken.ts';
import { remembered } from './once.ts';
import type { PersonOptions } from './options.ts';
import { usage } from './outcome.ts';
import { patientsIn } from './patients-in.ts';
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

/** The files of the people meant: each that was named, and every one of a folder. */
export function patientFiles({ patient = [], patients }: PersonOptions): Loading<readonly string[]> {
  if (patients === undefined) return { ok: true, value: patient };
  const names = patientsIn(patients);
  return names.ok ? { ok: true, value: [...patient, ...names.value.map((n) => join(patients, n))] } : names;
}

/** The patients named by --patient or described by flags; null alone where nobody was named. */
export async function loadPatients(
  options: PersonOptions,
  on: CalendarDate,
): Promise<Loading<readonly (Patient | null)[]>> {
  const found = patientFiles(options);
  if (!found.ok) return found;
  const files = found.value;
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
export function notYetBorn({ born }: Patient, on: CalendarDate): string | null {
  if (!born || daysBetween(born.earliest, on) >= 0) return null;
  return `${writeDate(born.earliest)} is after the day reckoned from, ${writeDate(on)}: which is right?`;
}

async function fromStandardInput(): ReturnType<typeof readText<'patient'>> {
  const bytes = readFileSync(0);
  return readText('patient', decode(bytes), 'standard input', null, await sha256(bytes));
}

/** A word with its code, so that no two of them are taken for one. */
const saidOnce = (name: string, code = ''): string => `${name.length} ${name} ${code}`;

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
  const none = new Set(questions.value.said_of_none.map(normal));
  const isNone = (word: string | undefined): boolean => word !== undefined && none.has(normal(word));
  const listed = <T extends { readonly name: string }>(list: readonly T[] | undefined): readonly T[] =>
    list?.every((entry) => isNone(entry.name)) ? [] : (list ?? []);
  const takes = patient.taking?.every((t) => isNone(t.herb)) ? [] : (patient.taking ?? []);
  const countsFor = (id: 'medicines' | 'taking'): Quantity | null =>
    questions.value.questions.find((q) => q.id === id)?.counts_after_stopping ?? null;
  const taken: Stated<TakenMedicine>[] = [];
  const herbsAsMedicines: TakenHerb[] = [];
  for (const m of listed(patient.medicines)) {
    const stopped = stoppedOf(m, on, countsFor('medicines'));
    if (!medicines || stopped === 'long ago') continue;
    const read = settle(
      'medicines',
      m.name,
      remembered(medicines, saidOnce(m.name, 'atc' in m ? m.atc : undefined), () =>
        resolveMedicine(medicines, m),
      ),
      nameOfMedicine,
      (name) => saidWith(name, stopped),
    );
    taken.push(...read);
    for (const { item } of read) {
      if (item.herbNames === undefined) continue;
      const since = ('since' in m && m.since?.earliest) || null;
      const herbs = await takenAsMedicine(folder, item.herbNames, { since, stopped });
      if (!herbs.ok) return herbs;
      herbsAsMedicines.push(...herbs.value);
    }
  }
  const stated = listed(patient.conditions).flatMap((c) =>
    conditions
      ? settle(
          'conditions',
          c.name,
          remembered(conditions, saidOnce(c.name, 'icd10' in c ? c.icd10 : undefined), () =>
            resolveCondition(conditions, c),
          ),
          nameOfCondition(conditions),
          (name) => conditionSaid(conditions, name),
        )
      : [],
  );
  const allergic: Stated<StatedAllergy>[] = [];
  for (const a of listed(patient.allergies)) {
    if (allergies)
      allergic.push(
        ...settle(
          'allergies',
          a.name,
          await remembered(allergies, a.name, () => resolveAllergyWord(allergies, folder, a.name)),
          nameOfAllergy,
          () => `"${a.name}"`,
        ),
      );
  }
  const taking = await takingOf(takes, folder, unresolved, on, countsFor('taking'));
  if (!taking.ok) return taking;
  const person = personOf(
    patient,
    {
      medicines: taken,
      conditions: stated,
      allergies: allergic,
      unresolved,
      taking: taking.value,
      herbsAsMedicines,
    },
    on,
  );
  return { ok: true, value: { person, matching: matchingOf(v.value) } };
}
