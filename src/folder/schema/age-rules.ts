import * as z from 'zod';
import type { Exact } from '../../measure/exact.ts';
import { parseNumber } from '../../measure/parse.ts';
import { bad, type Result } from '../../measure/result.ts';
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
import { type Told, withRules } from './rules.ts';

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

const someWords = z.array(words);

const share = read((t): Result<Exact> => {
  const n = parseNumber(t);
  if (!n.ok || (n.value.gt(0) && n.value.lte(1))) return n;
  return bad(`"${t}" is no share of the adult dose: write above 0 and at most 1, such as 1/4`);
});

const rule = withRules(
  strict({
    id: words,
    name: words,
    /** Other names by which it may be asked for. */
    also: someWords.optional(),
    /** The rule of which this is another figure in print: reckoned only where it is named. */
    variant_of: words.optional(),
    input: word(AGE_INPUTS),
    /** The share of the adult dose is input / divisor, */
    divisor: positiveNumber.optional(),
    /** or input / (input + plus), */
    plus: positiveNumber.optional(),
    /** or so many per cent of it: times x input + plus, by the first line that the input is under, */
    percent: z
      .array(strict({ under: positiveNumber.optional(), times: positiveNumber, plus: read(parseNumber) }))
      .min(1)
      .optional(),
    /** or what is printed for the age, in the row as its source has it. */
    bands: z
      .array(strict({ ages: ageBand, share, printed: words }))
      .min(1)
      .optional(),
    ages: ageBand,
    /** Wider ages that another source gives; the narrower are used. */
    wider: z.array(strict({ ages: ageBand, ...sourced })).optional(),
    for_infants: yesNo.optional(),
    note: words.optional(),
    ...sourced,
  }),
  ({ input, percent }, told) => {
    const ways = (['divisor', 'plus', 'percent', 'bands'] as const).filter((k) => told.has(k));
    const [way] = ways;
    if (ways.length !== 1 || way === undefined)
      told.wrong(['id'], 'how is it reckoned? write one of divisor:, plus:, percent:, bands:');
    else if (input !== undefined) wayFits(input, way, told);
    if (percent !== undefined) linesFollow(percent, told);
  },
);

/** A sum that does not go with what the rule reckons with would be found out only in front of a person. */
function wayFits(
  input: (typeof AGE_INPUTS)[number],
  way: 'divisor' | 'plus' | 'percent' | 'bands',
  { wrong }: Told,
): void {
  const byAge = input === 'completed years' || input === 'completed months';
  if ((way === 'bands') !== (input === 'band'))
    wrong(['input'], 'bands: go with input: band, and nothing else');
  else if (way === 'plus' && !byAge) wrong(['plus'], 'is added to completed years or months');
  else if (way === 'percent' && input !== 'weight in kg')
    wrong(['percent'], 'is for each kg: input: weight in kg');
}

/** Every weight has its line: each ends above the one before it, and the last has no end. */
function linesFollow(lines: readonly ({ readonly under?: unknown } | undefined)[], { wrong }: Told): void {
  const ends = lines.map((l) => l?.under as Exact | undefined);
  ends.forEach((end, i) => {
    const last = i === ends.length - 1;
    const before = ends[i - 1];
    if (last !== (end === undefined)) wrong(['percent', i], 'every line but the last has its under:');
    else if (end && before && end.lte(before))
      wrong(['percent', i], 'each line ends above the one before it');
  });
}

/** Rules that make a dose for a child or an older adult of the adult's. */
export const ageRules = withRules(
  strict({
    table: z.literal('age-rules'),
    about: words,
    sources,
    /** Said of every rule, or of some ages and some rules only. */
    warnings: z
      .array(strict({ says: words, ages: ageBand.optional(), rules: someWords.optional(), ...sourced }))
      .min(1),
    infants_under: strict({ age, ...sourced }),
    /** Body surface in m2: the root of height in cm x weight in kg / this. */
    surface: strict({ root_over: positiveNumber, ...sourced }),
    /** Between which weights and heights somebody of an age is to be expected. */
    plausible: z
      .array(strict({ ages: ageBand, weight: range(['mass']), height: range(['length']), ...sourced }))
      .min(1),
    rules: z.array(rule).min(1),
  }),
  (table, told) => {
    sourcesAreNamed(table, told);
    const ids = (table.rules ?? []).map((r) => r?.id);
    ids.forEach((id, i) => {
      if (id !== undefined && ids.indexOf(id) < i) told.wrong(['rules', i, 'id'], `"${id}" is there twice`);
    });
    (table.rules ?? []).forEach((r, i) => {
      if (r?.variant_of !== undefined && !ids.includes(r.variant_of))
        told.wrong(['rules', i, 'variant_of'], `there is no rule "${r.variant_of}"`);
    });
  },
);
export type AgeRules = z.output<typeof ageRules>;
