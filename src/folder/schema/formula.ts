import * as z from 'zod';
import type { Exact } from '../../measure/exact.ts';
import { notAsItLooks } from '../../measure/number.ts';
import type { Measures } from '../../measure/parse.ts';
import { NO_MEASURES, parseNumber, parseQuantity } from '../../measure/parse.ts';
import type { Quantity } from '../../measure/quantity.ts';
import { bad, ok, type Result } from '../../measure/result.ts';
import type { Dimension } from '../../measure/units.ts';
import { FORMS } from '../forms.ts';
import {
  id,
  moisture,
  numberRange,
  positiveNumber,
  read,
  solventRatio,
  strength,
  strict,
  word,
  words,
  yesNo,
} from './fields.ts';
import { formulaRules, ingredientRules } from './formula-rules.ts';
import { formulaMeasures } from './own-measures.ts';
import { above0, preparationFields } from './preparations.ts';

export type { Kind, Preparation } from './preparations.ts';

import { withRules } from './rules.ts';

const TIME: readonly Dimension[] = ['time'];

const percentNumber = read((t): Result<Exact> => {
  const odd = notAsItLooks(t);
  if (odd !== undefined) return bad(odd);
  const n = parseNumber(t.replace(/\s*(%|percent|per cent)(\s*[mv]\/[mv])?$/, ''));
  if (n.ok && (n.value.lte(0) || n.value.gte(100))) return bad(`"${t}" must lie between 0 and 100 %`);
  return n;
});

/** What is taken at once: a measured quantity, or a share of what one making yields. */
export type Take =
  | { readonly kind: 'measured'; readonly amount: Quantity }
  | { readonly kind: 'share'; readonly share: Exact; readonly text: string };

const SHARES: ReadonlyMap<string, string> = new Map([
  ['half', '1/2'],
  ['a half', '1/2'],
  ['a third', '1/3'],
  ['a quarter', '1/4'],
  ['all', '1'],
]);

function parseTake(text: string, measures: Measures): Result<Take> {
  const share = /^(.+?) of (?:the|a) (?:batch|pot|making)$/i.exec(text.trim());
  if (share) {
    const named = share[1] ?? '';
    const n = parseNumber(SHARES.get(named.toLowerCase()) ?? named);
    if (!n.ok) return n;
    if (n.value.lte(0) || n.value.gt(1))
      return bad(`"${text}" is not a share of the batch: write such as 1/3 of the batch`);
    return ok({ kind: 'share', share: n.value, text: text.trim() });
  }
  const q = above0(parseQuantity(text, measures, ['mass', 'volume', 'count', 'drops']));
  return q.ok ? ok({ kind: 'measured', amount: q.value }) : q;
}

/** The ways in which what a formula makes is used. */
export const FORMULA_ROUTES = [
  'oral',
  'oromucosal',
  'inhalation',
  'cutaneous',
  'rectal',
  'vaginal',
  'bath',
] as const;

function ingredientFields(measures: Measures) {
  const massOrVolume = read((t) => above0(parseQuantity(t, measures, ['mass', 'volume'])));
  return strict({
    herb: id.optional(),
    /** What carries the herbs, such as syrup or beeswax: an id of `reference/vehicles.yaml`. */
    vehicle: id.optional(),
    parts: positiveNumber.optional(),
    percent: percentNumber.optional(),
    amount: massOrVolume.optional(),
    make_up_to: massOrVolume.optional(),
    form: word(FORMS).optional(),
    /** Herb to what it stands in, for what was drawn out before. */
    ratio: solventRatio.optional(),
    spirit: strength(['share v/v', 'share m/m']).optional(),
    glycerol: strength(['share v/v', 'share m/m']).optional(),
    /** Water in fresh herb; with `of_fresh` in the herb that the tincture was made of. */
    moisture: moisture.optional(),
    of_fresh: yesNo.optional(),
    density: read((t) => above0(parseQuantity(t, NO_MEASURES, ['mass per volume']))).optional(),
    note: words.optional(),
  });
}

function formulaFields(measures: Measures) {
  const massOrVolume = read((t) => above0(parseQuantity(t, measures, ['mass', 'volume'])));
  const time = read((t) => above0(parseQuantity(t, measures, TIME)));

  const ingredient = withRules(ingredientFields(measures), ingredientRules);

  const directions = strict({
    take: read((t) => parseTake(t, measures)).optional(),
    /** What is put on the skin without measure: how, in words. */
    apply: words.optional(),
    times: numberRange.refine((r) => r.high === null || r.high.gt(0), 'this must be above 0').optional(),
    for: time.optional(),
    days_a_week: positiveNumber.refine((n) => n.lte(7), 'a week has 7 days').optional(),
    when: words.optional(),
    with: words.optional(),
  });

  return strict({
    formula: id,
    title: words,
    version: read(parseNumber).optional(),
    use: id.optional(),
    route: word(FORMULA_ROUTES).optional(),
    makes: massOrVolume.optional(),
    measures: formulaMeasures.optional(),
    ingredients: z
      .array(ingredient)
      .min(1, 'a formula needs an ingredient: write such as {herb: nettle-leaf, parts: 1}'),
    preparation: preparationFields(measures),
    directions: directions.optional(),
    notes: z.array(words).optional(),
  });
}

/** The formula file, read with what the practice has settled and with the formula's own measures. */
export function formulaSchema(measures: Measures) {
  return withRules(formulaFields(measures), formulaRules);
}

export type Formula = z.output<ReturnType<typeof formulaFields>>;
export type Ingredient = z.output<ReturnType<typeof ingredientFields>>;
export type Directions = NonNullable<Formula['directions']>;
