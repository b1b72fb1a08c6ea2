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
import { genusOf } from '../checking/plant-allergy.ts';
import { decode } from '../folder/decode.ts';
import { type Folder, hasId, readById, readTable, shownPath } from '../folder/folder.ts';
import { sha256 } from '../folder/hash.ts';
import { findHerb } from '../folder/herb-names.ts';
import type { Problem } from '../folder/problem.ts';
import { readDocument, readText } from '../folder/read.ts';
import type { Patient } from '../folder/schema/patient.ts';
import { type CalendarDate, daysBetween, writeDate } from '../measure/calendar.ts';
import { inUnit, type Quantity } from '../measure/quantity.ts';
import { day } from '../measure/units.ts';
import { type AllergyVocabulary, resolveAllergy, type StatedAllergy } from '../vocabulary/allergies.ts';
import {
  type ConditionVocabulary,
  conditionTerm,
  knownConditionTarget,
  resolveCondition,
  type StatedCondition,
} from '../vocabulary/conditions.ts';
import type { Found } from '../vocabulary/found.ts';
import { resolveMedicine, type TakenMedicine } from '../vocabulary/medicines.ts';
import { normal } from '../vocabulary/normal.ts';
import { failedLoading, type Loading, loadFormula } from './load.ts';
import type { PersonOptions } from './options.ts';
import { usage } from './outcome.ts';
import { describesPerson, patientFromFlags } from './person-flags.ts';
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
  const questions = await readTable(folder, 'questions');
  if (!questions.ok) return failedLoading(questions.why);
  const countsFor = (id: 'medicines' | 'taking'): Quantity | null =>
    questions.value.value.questions.find((q) => q.id === id)?.counts_after_stopping ?? null;
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

const nameOfMedicine = (m: TakenMedicine): string => m.name;
const nameOfAllergy = (a: StatedAllergy): string =>
  a.genera[0] ?? a.substances[0] ?? a.families[0] ?? a.medicine?.name ?? 'allergy';

/** The narrowest of the conditions that count, so that a code and a word for the same one bear the same name. */
function nameOfCondition(v: ConditionVocabulary): (c: StatedCondition) => string {
  return (c) => {
    const narrowest = c.ids.filter((id) => !c.ids.some((other) => v.index.broader.get(other)?.has(id)));
    const names = c.named.length > 0 ? c.named : narrowest;
    return [...(names.length > 0 ? names : [...c.possible, ...c.urgent])].sort().join('+') || 'condition';
  };
}

function conditionSaid(v: ConditionVocabulary, name: string): string {
  return name
    .split('+')
    .map((id) => (knownConditionTarget(v, id) ? conditionTerm(v, id) : id))
    .join(', ');
}

/**
 * When something was stopped: null where it is still taken, as it is until the day named. Some of what was taken acts
 * on for weeks, so that one stopped lately still counts.
 */
function stoppedOf(
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
async function resolveAllergyWord(
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
      taken.push(...formula.value.value.ingredients.map((i) => ({ herb: i.herb, ...dates })));
    } else if (t.herb !== undefined) {
      const named = await findHerb(folder, t.herb);
      if (named.kind === 'none')
        unresolved.push({ list: 'taking', word: t.herb, ambiguous: false, could: [], near: named.near });
      taken.push(
        ...(named.kind === 'several' ? named.ids : [named.kind === 'found' ? named.id : t.herb]).map(
          (herb) => ({ herb, ...dates }),
        ),
      );
    } else if ('product' in t && t.product !== undefined) {
      // What a shop product holds is not known here, and what is not known is asked.
      unresolved.push({ list: 'taking', word: t.product, ambiguous: false, could: [], near: [] });
    }
  }
  return { ok: true, value: taken };
}
