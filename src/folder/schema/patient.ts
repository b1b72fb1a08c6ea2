import * as z from 'zod';
import { type Age, parseAge } from '../../measure/age.ts';
import { type CalendarDate, compareDates } from '../../measure/calendar.ts';
import type { Result } from '../../measure/result.ts';
import { parseHeight, parsePregnant, parseWeight } from '../answers.ts';
import { date, dateInterval, id, nullable, range, read, strict, word, words, yesNo } from './fields.ts';
import { type Readable, withRules } from './rules.ts';

const dated = { since: dateInterval.optional(), stopped: dateInterval.optional() };

const medicine = z.union([
  words.transform((name) => ({ name })),
  strict({ name: words, atc: words.optional(), ...dated }),
]);
const condition = z.union([
  words.transform((name) => ({ name })),
  strict({ name: words, icd10: words.optional(), ...dated }),
]);
const allergy = z.union([
  words.transform((name) => ({ name })),
  strict({ name: words, how: words.optional() }),
]);

const taken = strict({
  formula: id.optional(),
  herb: words.optional(),
  product: words.optional(),
  /** What a product of the shops holds, by its label. */
  holds: z.array(strict({ herb: words, daily: range(['mass']).optional() })).optional(),
  daily: range(['mass', 'volume', 'count', 'drops']).optional(),
  note: words.optional(),
  ...dated,
});
const taking = z.union([
  words.transform((herb) => ({ herb })),
  withRules(taken, (_, { has, wrong }) => {
    const named = (['formula', 'herb', 'product'] as const).filter((key) => has(key));
    if (named.length !== 1) wrong(named.slice(1, 2), 'name one thing taken: formula:, herb: or product:');
    if (has('holds') && !has('product')) wrong(['holds'], 'only a product: holds herbs that are listed here');
  }),
]);

const decision = withRules(
  strict({ finding: words, basis: words, because: words, by: words, on: date, until: date.optional() }),
  ({ on, until }, { wrong }) => {
    if (on !== undefined && until !== undefined && isAfter(on, until))
      wrong(['until'], 'over before it was made: one of the two dates is wrong');
  },
);
const lookedUp = strict({ word: words, because: words, by: words, on: date });

export const patient = withRules(
  strict({
    patient: words.refine((t) => t.length <= 60, 'write a code of at most 60 characters'),
    asked: date,
    born: dateInterval.optional(),
    age: read((t): Result<Age> => parseAge(t)).optional(),
    weight: read(parseWeight).optional(),
    height: read(parseHeight).optional(),
    sex: word(['female', 'male']).optional(),
    pregnant: read(parsePregnant).optional(),
    breastfeeding: yesNo.optional(),
    trying_to_conceive: yesNo.optional(),
    conditions: z.array(condition).optional(),
    medicines: z.array(medicine).optional(),
    allergies: z.array(allergy).optional(),
    taking: z.array(taking).optional(),
    drives: yesNo.optional(),
    avoids_alcohol: yesNo.optional(),
    fluid_restricted: yesNo.optional(),
    surgery: nullable(date).optional(),
    decisions: z.array(decision).optional(),
    looked_up: z.array(lookedUp).optional(),
    notes: z.array(words).optional(),
  }),
  (p, { has, wrong }) => {
    if (has('born') && has('age')) wrong(['age'], 'give born: or age:, not both');
    if (p.born?.earliest !== undefined && p.asked !== undefined && isAfter(p.born.earliest, p.asked))
      wrong(['born'], 'born after the day of asking: one of the two dates is wrong');
  },
);

function isAfter(a: Readable<CalendarDate>, b: Readable<CalendarDate>): boolean {
  return compareDates(a as CalendarDate, b as CalendarDate) > 0;
}

export type Patient = z.output<typeof patient>;
export type MedicineAnswer = { readonly name: string; readonly atc?: string | undefined };
