import type { When } from '../folder/schema/monograph.ts';
import { all, any, type Ternary, withinBand } from '../measure/age.ts';
import { daysBetween } from '../measure/calendar.ts';
import type { NumberRange } from '../measure/parse.ts';
import { inUnit } from '../measure/quantity.ts';
import { day } from '../measure/units.ts';
import type { Case } from './case.ts';
import type { Answer, Person, Question, Stated } from './person.ts';

/** What became of a condition: whether it holds, which questions are open, what answer is too coarse, what met it. */
export interface Met {
  readonly holds: Ternary;
  /** Questions without an answer that leave it open. */
  readonly open: readonly Question[];
  /** What to ask where an answer was given but is too coarse. */
  readonly coarse: readonly string[];
  /** What met it, by the names the vocabulary knows it by, so that a synonym changes nothing. */
  readonly names: readonly string[];
}

const met = (holds: Ternary, more: Partial<Met> = {}): Met => ({
  holds,
  open: [],
  coarse: [],
  names: [],
  ...more,
});
const open = (question: Question): Met => met('unknown', { open: [question] });

/** All keys must hold; a list means any of them. One false settles it, so that an open question beside it stays quiet. */
export function meets(when: When, person: Person, c: Case): Met {
  const terms = [
    when.allergy &&
      listMet(when.allergy, person.allergies, 'allergies', c.matching.allergy, c.matching.allergyTerm),
    when.condition &&
      listMet(
        when.condition,
        person.conditions,
        'conditions',
        c.matching.condition,
        c.matching.conditionTerm,
      ),
    when.medicine &&
      listMet(
        when.medicine,
        person.medicines,
        'medicines',
        ([m], target) => (m ? c.matching.medicine(m, target) : false),
        c.matching.medicineTerm,
      ),
    when.pregnant !== undefined ? pregnantMet(when.pregnant, person, c) : undefined,
    when.trying_to_conceive !== undefined
      ? yesNoMet('trying_to_conceive', person.tryingToConceive, when.trying_to_conceive, person, c)
      : undefined,
    when.breastfeeding !== undefined
      ? yesNoMet('breastfeeding', person.breastfeeding, when.breastfeeding, person, c)
      : undefined,
    when.age && ageMet(when.age, person),
    when.sex && (person.sex === null ? open('sex') : met(person.sex === when.sex)),
    when.taking && takingMet(when.taking, person, c),
    when.surgery_within && surgeryMet(inUnit(when.surgery_within, day).value.toNumber(), person),
    when.drives !== undefined ? yesNoMet('drives', person.drives, when.drives, person, c) : undefined,
    when.avoids_alcohol !== undefined
      ? yesNoMet('avoids_alcohol', person.avoidsAlcohol, when.avoids_alcohol, person, c)
      : undefined,
    when.fluid_restricted !== undefined
      ? yesNoMet('fluid_restricted', person.fluidRestricted, when.fluid_restricted, person, c)
      : undefined,
  ].filter((t): t is Met => t !== undefined);
  return together(terms);
}

function together(terms: readonly Met[]): Met {
  const holds = all(terms.map((t) => t.holds));
  if (holds === false) return met(false);
  return {
    holds,
    open: terms.flatMap((t) => t.open),
    coarse: terms.flatMap((t) => t.coarse),
    names: terms.flatMap((t) => t.names),
  };
}

function yesNoMet(
  question: Question,
  given: Person['drives'],
  wanted: boolean,
  person: Person,
  c: Case,
): Met {
  if (given.given) return met(given.value === wanted);
  return c.questions.arises(question, person) === false ? met(!wanted) : open(question);
}

function listMet<T>(
  targets: readonly string[],
  given: Answer<readonly Stated<T>[]>,
  question: Question,
  match: (stated: readonly T[], target: string) => Ternary,
  term: (target: string) => string,
): Met {
  if (!given.given) return open(question);
  const hits = given.value.flatMap((s) =>
    targets.map((target) => ({ s, target, holds: match([s.item], target) })),
  );
  const holds = any(hits.map((h) => h.holds));
  if (holds === false) return met(false);
  const meeting = hits.filter((h) => h.holds === holds);
  const names = [...new Set(meeting.map((h) => h.s.name))];
  if (holds === true) return met(true, { names });
  return met('unknown', { names, coarse: meeting.map((h) => `does "${h.s.word}" mean ${term(h.target)}?`) });
}

/** Whether the person is pregnant; someone for whom the question does not arise is not. */
export function pregnancyOf(person: Person, c: Case): Ternary {
  if (person.pregnant.given) return person.pregnant.value.is;
  return c.questions.arises('pregnant', person) === false ? false : 'unknown';
}

function pregnantMet(wanted: NonNullable<When['pregnant']>, person: Person, c: Case): Met {
  const is = pregnancyOf(person, c);
  if (typeof wanted === 'boolean') return is === 'unknown' ? open('pregnant') : met(is === wanted);
  return inWeeks(wanted.weeks, person, c);
}

/** Whether a pregnancy stands between these completed weeks, both included. */
export function inWeeks(weeks: NumberRange, person: Person, c: Case): Met {
  const is = pregnancyOf(person, c);
  if (is === false) return met(false);
  if (is === 'unknown') return open('pregnant');
  const at = person.pregnant.given && person.pregnant.value.is ? person.pregnant.value.weeks : null;
  if (at === null) return met('unknown', { coarse: ['in which week is the pregnancy?'] });
  const passed = at + Math.floor(Math.max(0, daysBetween(person.asked, person.on)) / 7);
  return met(
    (weeks.low === null || weeks.low.lte(passed)) && (weeks.high === null || weeks.high.gte(passed)),
  );
}

function ageMet(band: NonNullable<When['age']>, person: Person): Met {
  if (person.birth === null) return open('age');
  const holds = withinBand(person.birth, band, person.on);
  return met(holds, holds === 'unknown' ? { coarse: ['what is the exact date of birth?'] } : {});
}

function takingMet(herbs: readonly string[], person: Person, c: Case): Met {
  const others = c.formulas.flatMap((f) => f.herbs.map((h) => h.herb));
  const here = herbs.filter((h) => others.includes(h));
  if (here.length > 0) return met(true, { names: here });
  if (!person.taking.given) return open('taking');
  const taken = person.taking.value
    .filter((t) => herbs.includes(t.herb) && t.stopped === null)
    .map((t) => t.herb);
  return met(taken.length > 0, { names: taken });
}

function surgeryMet(withinDays: number, person: Person): Met {
  if (!person.surgery.given) return open('surgery');
  if (person.surgery.value === null) return met(false);
  const away = daysBetween(person.on, person.surgery.value);
  return met(away >= 0 && away <= withinDays);
}
