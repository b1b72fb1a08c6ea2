import { z } from 'zod';
import { type Age, parseAge } from '../../measure/age.ts';
import type { Result } from '../../measure/result.ts';
import { parsePregnant } from '../answers.ts';
import {
  date,
  dateInterval,
  id,
  nullable,
  quantity,
  range,
  read,
  strict,
  word,
  words,
  yesNo,
} from './fields.ts';

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

const taking = z.union([
  words.transform((herb) => ({ herb })),
  strict({
    formula: id.optional(),
    herb: words.optional(),
    product: words.optional(),
    daily: range(['mass', 'volume', 'count', 'drops']).optional(),
    note: words.optional(),
    ...dated,
  }).superRefine((t, ctx) => {
    const named = [t.formula, t.herb, t.product].filter((x) => x !== undefined).length;
    if (named !== 1)
      ctx.addIssue({ code: 'custom', message: 'name one thing taken: formula:, herb: or product:' });
  }),
]);

const decision = strict({
  finding: words,
  basis: words,
  because: words,
  by: words,
  on: date,
  until: date.optional(),
});
const lookedUp = strict({ word: words, because: words, by: words, on: date });

export const patient = strict({
  patient: words.refine((t) => t.length <= 60, 'a code of at most 60 characters'),
  asked: date,
  born: dateInterval.optional(),
  age: read((t): Result<Age> => parseAge(t)).optional(),
  weight: quantity(['mass']).optional(),
  height: quantity(['length']).optional(),
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
}).superRefine((p, ctx) => {
  if (p.born && p.age)
    ctx.addIssue({ code: 'custom', message: 'give born: or age:, not both', path: ['age'] });
  if (p.weight && (p.weight.value.lte(0) || p.weight.value.times(p.weight.unit.size[0]).gt(500_000)))
    ctx.addIssue({ code: 'custom', message: "this weight is not a person's", path: ['weight'] });
});

export type Patient = z.output<typeof patient>;
export type MedicineAnswer = { readonly name: string; readonly atc?: string | undefined };
