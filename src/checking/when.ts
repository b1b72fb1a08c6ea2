import type { When } from '../folder/schema/monograph.ts';
import { all, any, type Ternary, withinBand } from '../measure/age.ts';
import { daysBetween, writeDate } from '../measure/calendar.ts';
import type { NumberRange } from '../measure/parse.ts';
import { inUnit } from '../measure/quantity.ts';
import { day } from '../measure/units.ts';
import type { Case } from './case.ts';
import { type Answer, type Person, type Question, type Stated, saidWith, takenAlready } from './person.ts';

/** The keys that a condition has. */
export const keysOf = (when: When): (keyof When)[] =>
  (Object.keys(when) as (keyof When)[]).filter((k) => when[k] !== undefined);

export type ListKey = 'allergy' | 'condition' | 'medicine' | 'taking';

/** One of the things that met a condition, or may have met it. */
export interface Named {
  readonly key: ListKey;
  /** By the name that the vocabulary knows it by, so that a synonym changes nothing. */
  readonly name: string;
  readonly said: string;
  /** What to ask of it, where it is too coarse an answer. */
  readonly asks: readonly string[];
}

/** What became of a condition: whether it holds, which questions are open, what answer is too coarse, what met it. */
export interface Met {
  readonly holds: Ternary;
  /** Questions without an answer that leave it open. */
  readonly open: readonly Question[];
  /** What to ask where an answer outside the lists was given but is too coarse. */
  readonly coarse: readonly string[];
  readonly names: readonly Named[];
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
  const { matching: m } = c;
  const terms = [
    when.allergy &&
      listMet(
        {
          key: 'allergy',
          question: 'allergies',
          match: m.allergy,
          asks: (words, target) => `does ${words} mean ${m.allergyTerm(target)}?`,
        },
        when.allergy,
        person.allergies,
      ),
    when.condition &&
      listMet(
        {
          key: 'condition',
          question: 'conditions',
          match: m.condition,
          asks: (words, target) => `does ${words} mean ${m.conditionTerm(target)}?`,
        },
        when.condition,
        person.conditions,
      ),
    when.medicine &&
      listMet(
        {
          key: 'medicine',
          question: 'medicines',
          match: (taken, target) => any(taken.map((t) => m.medicine(t, target))),
          // Only the word for a group leaves it open.
          asks: (words) => `which medicine is ${words}?`,
        },
        when.medicine,
        person.medicines,
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

/** How the words of one list meet those of a monograph. */
interface ListOf<T> {
  readonly key: ListKey;
  readonly question: Question;
  readonly match: (stated: readonly T[], target: string) => Ternary;
  /** What to ask of words that are too coarse. */
  readonly asks: (words: string, target: string) => string;
}

/** The list is judged as a whole: two answers may meet a target only together, and a denial settles what another leaves open. */
function listMet<T>(list: ListOf<T>, targets: readonly string[], given: Answer<readonly Stated<T>[]>): Met {
  if (!given.given) return open(list.question);
  const items = given.value.map((s) => s.item);
  const judged = targets.map((target) => ({ target, holds: list.match(items, target) }));
  const holds = any(judged.map((j) => j.holds));
  if (holds === false) return met(false);
  const names = new Map<string, Named>();
  for (const { target } of judged.filter((j) => j.holds === holds)) {
    for (const one of behind(list, given.value, target, holds)) {
      const before = names.get(one.name);
      names.set(one.name, {
        ...one,
        said: before && before.said < one.said ? before.said : one.said,
        asks: [...new Set([...(before?.asks ?? []), ...one.asks])].sort(),
      });
    }
  }
  return met(holds, { names: [...names.values()] });
}

/** What of a list meets a target: each answer that does so by itself, or those that do it together. */
function behind<T>(
  { key, match, asks: ask }: ListOf<T>,
  stated: readonly Stated<T>[],
  target: string,
  holds: Ternary,
): Named[] {
  const asks = (words: string): string[] => (holds === true ? [] : [ask(words, target)]);
  const alone = stated.filter((s) => match([s.item], target) === holds);
  if (alone.length > 0)
    return alone.map((s) => ({ key, name: s.name, said: s.said, asks: asks(`"${s.word}"`) }));
  const parts = stated
    .filter((s) => match([s.item], target) !== false)
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  return [
    {
      key,
      name: parts.map((s) => s.name).join('+'),
      said: parts.map((s) => s.said).join(' and '),
      asks: asks(parts.map((s) => `"${s.word}"`).join(' and ')),
    },
  ];
}

/**
 * Of what met a condition, whatever the person no longer takes: a decision made because it was stopped must lapse when
 * it is taken again. Undefined where there is none.
 */
export function stoppedAmong(names: readonly Pick<Named, 'key' | 'name' | 'said'>[]): string[] | undefined {
  const stopped = names.filter((n) => (n.key === 'medicine' || n.key === 'taking') && n.said !== n.name);
  return stopped.length > 0 ? stopped.map((n) => n.said) : undefined;
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

/** The last completed week of any band of weeks: a pregnancy that runs on stays in the last one. */
const LAST_WEEK = 42;

/**
 * Whether a pregnancy stands between these completed weeks, both included. The weeks count on from the day of asking;
 * as "30 weeks" was 30 weeks and up to 6 days on that day, the week may not be told a few days later.
 */
export function inWeeks(weeks: NumberRange, person: Person, c: Case): Met {
  const is = pregnancyOf(person, c);
  if (is === false) return met(false);
  if (is === 'unknown') return open('pregnant');
  const at = person.pregnant.given && person.pregnant.value.is ? person.pregnant.value.weeks : null;
  if (at === null) return met('unknown', { coarse: ['in which week is the pregnancy?'] });
  const days = Math.max(0, daysBetween(person.asked, person.on));
  const inBand = [days, days + 6].map((d) => {
    const week = Math.min(LAST_WEEK, at + Math.floor(d / 7));
    return (weeks.low === null || weeks.low.lte(week)) && (weeks.high === null || weeks.high.gte(week));
  });
  if (inBand.every((x) => x)) return met(true);
  return inBand.some((x) => x)
    ? met('unknown', { coarse: ['in which week is the pregnancy today?'] })
    : met(false);
}

function ageMet(band: NonNullable<When['age']>, person: Person): Met {
  if (person.birth === null) return open('age');
  const holds = withinBand(person.birth, band, person.on);
  return met(holds, holds === 'unknown' ? { coarse: ['on which day were they born?'] } : {});
}

/** What the person takes, and every herb of the formulas that are checked together. */
function takingMet(herbs: readonly string[], person: Person, c: Case): Met {
  const here = c.formulas.flatMap((f) => f.herbs.map((h) => h.herb)).filter((h) => herbs.includes(h));
  const taken = takenAlready(person).filter((t) => herbs.includes(t.herb));
  const names = new Map(
    [
      ...taken.map((t) => ({ name: t.herb, said: saidWith(t.herb, t.stopped) })),
      ...here.map((h) => ({ name: h, said: h })),
    ].map((n): [string, Named] => [n.name, { key: 'taking', asks: [], ...n }]),
  );
  if (names.size > 0) return met(true, { names: [...names.values()] });
  return person.taking.given ? met(false) : open('taking');
}

function surgeryMet(withinDays: number, person: Person): Met {
  if (!person.surgery.given) return open('surgery');
  if (person.surgery.value === null) return met(false);
  const away = daysBetween(person.on, person.surgery.value);
  // A day that has passed does not say whether another operation is planned.
  if (away < 0)
    return met('unknown', {
      coarse: [`the operation of ${writeDate(person.surgery.value)} is past: is another planned?`],
    });
  return met(away <= withinDays);
}
