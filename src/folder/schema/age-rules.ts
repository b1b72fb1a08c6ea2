import * as z from 'zod';
import { parseNumber } from '../../measure/parse.ts';
import {
  age,
  ageBand,
  positiveNumber,
  range,
  read,
  sourced,
  sources,
  strict,
  word,
  words,
  yesNo,
} from './fields.ts';
import { sourcesAreNamed } from './monograph.ts';
import { withRules } from './rules.ts';

/** What a rule reckons with, of the person. */
export const AGE_INPUTS = [
  'completed years',
  'completed months',
  'age at the next birthday',
  'weight in kg',
  'weight in lb',
  'surface in m2',
  'band',
] as const;

/** Rules that make a dose for a child or an older adult of the adult's. */
export const ageRules = withRules(
  strict({
    table: z.literal('age-rules'),
    about: words,
    sources,
    warnings: z.array(strict({ says: words, ...sourced })).min(1),
    infants_under: strict({ age, ...sourced }),
    plausible: strict({ height: range(['length']), weight: range(['mass']), ...sourced }),
    rules: z.array(
      withRules(
        strict({
          id: words,
          name: words,
          input: word(AGE_INPUTS),
          /** The share of the adult dose is input / divisor, */
          divisor: positiveNumber.optional(),
          /** or input / (input + plus), */
          plus: positiveNumber.optional(),
          /** or so many per cent of it: times x input + plus, by the first line that the input is under, */
          percent: z
            .array(
              strict({ under: positiveNumber.optional(), times: positiveNumber, plus: read(parseNumber) }),
            )
            .optional(),
          /** or what is printed for the age. */
          bands: z.array(strict({ ages: ageBand, share: positiveNumber })).optional(),
          ages: ageBand,
          for_infants: yesNo.optional(),
          note: words.optional(),
          ...sourced,
        }),
        (_, { has, wrong }) => {
          const ways = (['divisor', 'plus', 'percent', 'bands'] as const).filter((k) => has(k));
          if (ways.length !== 1)
            wrong(['id'], 'how is it reckoned? write one of divisor:, plus:, percent:, bands:');
        },
      ),
    ),
  }),
  sourcesAreNamed,
);
export type AgeRules = z.output<typeof ageRules>;
