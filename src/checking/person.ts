import type { Pregnant } from '../folder/answers.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import type { Patient } from '../folder/schema/patient.ts';
import type { Questions } from '../folder/schema/reference.ts';
import { type Birth, birthFromAge, type Ternary, withinBand, writeAgeOn } from '../measure/age.ts';
import { type CalendarDate, daysBetween, writeDate } from '../measure/calendar.ts';
import { inUnit, type Quantity } from '../measure/quantity.ts';
import { day } from '../measure/units.ts';
import type { StatedAllergy } from '../vocabulary/allergies.ts';
import type { StatedCondition } from '../vocabulary/conditions.ts';
import type { TakenMedicine } from '../vocabulary/medicines.ts';

/** The questions that can be answered. */
export const QUESTIONS = [
  'age',
  'sex',
  'pregnant',
  'breastfeeding',
  'trying_to_conceive',
  'conditions',
  'medicines',
  'allergies',
  'taking',
  'drives',
  'avoids_alcohol',
  'fluid_restricted',
  'surgery',
  'weight',
] as const;
export type Question = (typeof QUESTIONS)[number];

/** An answer: given (perhaps too long ago), or not given. */
export type Answer<T> = { readonly given: true; readonly value: T } | { readonly given: false };

const NOT_GIVEN = { given: false } as const;

/** A word in one of the lists that did not resolve. */
export interface Unresolved {
  readonly list: 'medicines' | 'conditions' | 'allergies' | 'taking';
  readonly word: string;
  readonly could: readonly string[];
  readonly near: readonly string[];
  readonly ambiguous: boolean;
}

export interface Stated<T> {
  /** As the person's file has it. */
  readonly word: string;
  /** As the vocabulary knows it, whatever word was used. */
  readonly name: string;
  /** As it stands in a sentence to the practitioner. */
  readonly said: string;
  readonly item: T;
  /** Said to the person where the word was read by a spelling rule. */
  readonly readAs: string | null;
}

/** A herb that is taken already: by itself, in a formula, in a product of the shops, or handed in as a medicine. */
export interface TakenHerb {
  readonly herb: string;
  /** Null where there is none for it. */
  readonly monograph: Monograph | null;
  /** What holds it: the id of a formula, the name of a product, or `what is taken already`. */
  readonly from: string;
  /** g of it in a day; null where that was not said. */
  readonly daily: Quantity | null;
  readonly since: CalendarDate | null;
  readonly stopped: CalendarDate | null;
}

/** The person as the rules see them: every word resolved, every answer given or not. */
export interface Person {
  readonly code: string;
  readonly on: CalendarDate;
  readonly asked: CalendarDate;
  readonly birth: Birth | null;
  readonly sex: 'female' | 'male' | null;
  readonly weight: Quantity | null;
  readonly pregnant: Answer<Pregnant>;
  readonly breastfeeding: Answer<boolean>;
  readonly tryingToConceive: Answer<boolean>;
  readonly conditions: Answer<readonly Stated<StatedCondition>[]>;
  readonly medicines: Answer<readonly Stated<TakenMedicine>[]>;
  readonly allergies: Answer<readonly Stated<StatedAllergy>[]>;
  readonly taking: Answer<readonly TakenHerb[]>;
  /** Herbs that stand in the list of medicines, such as St John's wort by its ATC code. */
  readonly herbsAsMedicines: readonly TakenHerb[];
  readonly drives: Answer<boolean>;
  readonly avoidsAlcohol: Answer<boolean>;
  readonly fluidRestricted: Answer<boolean>;
  readonly surgery: Answer<CalendarDate | null>;
  readonly unresolved: readonly Unresolved[];
  readonly source: Patient;
}

function answer<T>(value: T | undefined): Answer<T> {
  return value === undefined ? NOT_GIVEN : { given: true, value };
}

/** What the vocabulary made of a person's three lists. */
export interface ResolvedLists {
  readonly conditions: readonly Stated<StatedCondition>[];
  readonly medicines: readonly Stated<TakenMedicine>[];
  readonly allergies: readonly Stated<StatedAllergy>[];
  readonly unresolved: readonly Unresolved[];
  readonly taking: readonly TakenHerb[];
  readonly herbsAsMedicines: readonly TakenHerb[];
}

/** Every herb that is known to be taken already, or was until lately. */
export function takenAlready({ taking, herbsAsMedicines }: Person): readonly TakenHerb[] {
  return [...(taking.given ? taking.value : []), ...herbsAsMedicines];
}

export function personOf(p: Patient, lists: ResolvedLists, on: CalendarDate): Person {
  const birth: Birth | null = p.born ?? (p.age ? birthFromAge(p.age, p.asked) : null);
  return {
    code: p.patient,
    on,
    asked: p.asked,
    birth,
    sex: p.sex ?? null,
    weight: p.weight ?? null,
    pregnant: answer(p.pregnant),
    breastfeeding: answer(p.breastfeeding),
    tryingToConceive: answer(p.trying_to_conceive),
    conditions: answer(p.conditions && lists.conditions),
    medicines: answer(p.medicines && lists.medicines),
    allergies: answer(p.allergies && lists.allergies),
    taking: answer(p.taking && lists.taking),
    herbsAsMedicines: lists.herbsAsMedicines,
    drives: answer(p.drives),
    avoidsAlcohol: answer(p.avoids_alcohol),
    fluidRestricted: answer(p.fluid_restricted),
    surgery: answer(p.surgery),
    unresolved: lists.unresolved,
    source: p,
  };
}

export function isGiven(person: Person, question: Question): boolean {
  switch (question) {
    case 'age':
      return person.birth !== null;
    case 'sex':
      return person.sex !== null;
    case 'weight':
      return person.weight !== null;
    case 'trying_to_conceive':
      return person.tryingToConceive.given;
    case 'avoids_alcohol':
      return person.avoidsAlcohol.given;
    case 'fluid_restricted':
      return person.fluidRestricted.given;
    default:
      return person[question].given;
  }
}

/** What the table of questions says, with the practice's own times before the common ones. */
export interface QuestionTable {
  /** Whether the question arises for this person at all: false for a man asked about pregnancy. */
  readonly arises: (question: Question, person: Person) => Ternary;
  readonly asks: (question: Question) => string;
  readonly goodFor: (question: Question) => Quantity | null;
}

export function questionTable(table: Questions, own: ReadonlyMap<string, Quantity>): QuestionTable {
  const byId = new Map(table.questions.map((q) => [q.id, q]));
  return {
    arises: (question, person) => {
      const pregnant = person.pregnant.given && person.pregnant.value.is;
      // Whoever is pregnant, of whatever sex or age, is asked about it again; whether they could become so is settled.
      if (pregnant && (question === 'pregnant' || question === 'trying_to_conceive'))
        return question === 'pregnant';
      const only = byId.get(question)?.only;
      if (!only) return true;
      if (only.sex && person.sex !== null && person.sex !== only.sex) return false;
      const inBand = only.ages && person.birth ? withinBand(person.birth, only.ages, person.on) : true;
      return inBand === false ? false : only.sex && person.sex === null ? 'unknown' : inBand;
    },
    asks: (question) => byId.get(question)?.asks ?? question,
    goodFor: (question) => own.get(question) ?? byId.get(question)?.good_for ?? null,
  };
}

/** Something stopped lately is named with the day on which it was stopped. */
export function saidWith(name: string, stopped: CalendarDate | null): string {
  return stopped === null ? name : `${name} (stopped ${writeDate(stopped)})`;
}

/** Whether the answer to a question was given too long ago to be relied on. */
export function isStale(person: Person, question: Question, table: QuestionTable): boolean {
  return isTooOld(person.asked, question, person.on, table);
}

export function isTooOld(
  given: CalendarDate,
  question: Question,
  on: CalendarDate,
  table: QuestionTable,
): boolean {
  const goodFor = table.goodFor(question);
  return goodFor !== null && inUnit(goodFor, day).value.lt(daysBetween(given, on));
}

export function ageInWords(person: Person): string {
  return person.birth ? writeAgeOn(person.birth, person.on) : 'age not given';
}
