import * as z from 'zod';
import type { Exact } from '../../measure/exact.ts';
import { notAsItLooks } from '../../measure/number.ts';
import type { Measures } from '../../measure/parse.ts';
import { NO_MEASURES, parseNumber, parseQuantity } from '../../measure/parse.ts';
import type { Quantity } from '../../measure/quantity.ts';
import { bad, ok, type Result } from '../../measure/result.ts';
import type { Dimension } from '../../measure/units.ts';
import { id, numberRange, quantity, read, strict, word, words, yesNo } from './fields.ts';
import { formulaRules, ingredientRules } from './formula-rules.ts';
import { formulaMeasures } from './own-measures.ts';
import { withRules } from './rules.ts';

/** The kinds of preparation that a formula can be made into; each is one file of `src/compounding`. */
export const KINDS = ['infusion', 'decoction', 'cold-maceration', 'powder'] as const;
export type Kind = (typeof KINDS)[number];

export const FORMS = ['dried', 'powder', 'fresh'] as const;

const MASS: readonly Dimension[] = ['mass'];
const VOLUME: readonly Dimension[] = ['volume'];
const TIME: readonly Dimension[] = ['time'];

const positiveNumber = read((t): Result<Exact> => {
  const n = parseNumber(t);
  if (n.ok && n.value.lte(0)) return bad(`"${t}" must be above 0`);
  return n;
});

const percentNumber = read((t): Result<Exact> => {
  const odd = notAsItLooks(t);
  if (odd !== undefined) return bad(odd);
  const n = parseNumber(t.replace(/\s*(%|percent|per cent)(\s*m\/m)?$/, ''));
  if (n.ok && (n.value.lte(0) || n.value.gte(100))) return bad(`"${t}" must lie between 0 and 100 %`);
  return n;
});

function above0<Q extends Quantity>(r: Result<Q>): Result<Q> {
  return r.ok && r.value.value.lte(0) ? bad('this must be above 0') : r;
}

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

function ingredientFields(measures: Measures) {
  const mass = read((t) => above0(parseQuantity(t, measures, MASS)));
  const massOrVolume = read((t) => above0(parseQuantity(t, measures, ['mass', 'volume'])));
  return strict({
    herb: id,
    parts: positiveNumber.optional(),
    percent: percentNumber.optional(),
    amount: massOrVolume.optional(),
    make_up_to: mass.optional(),
    form: word(FORMS).optional(),
    density: read((t) => above0(parseQuantity(t, NO_MEASURES, ['mass per volume']))).optional(),
    note: words.optional(),
  });
}

function formulaFields(measures: Measures) {
  const mass = read((t) => above0(parseQuantity(t, measures, MASS)));
  const volume = read((t) => above0(parseQuantity(t, measures, VOLUME)));
  const time = read((t) => above0(parseQuantity(t, measures, TIME)));

  const ingredient = withRules(ingredientFields(measures), ingredientRules);

  const stage = strict({
    do: word(['decoct', 'infuse', 'macerate']),
    herbs: z.array(id).min(1, 'a stage without herbs: name those that go in'),
    for: time,
    covered: yesNo.optional(),
  });

  const inPot = {
    herb: mass,
    water: volume,
    strained: volume.optional(),
    make_up_to: volume.optional(),
    holds: quantity(['volume per mass']).optional(),
  };
  const infusion = strict({ kind: z.literal('infusion'), ...inPot, infuse: time, covered: yesNo.optional() });
  const decoction = strict({
    kind: z.literal('decoction'),
    ...inPot,
    boil: time.optional(),
    stand: time.optional(),
    boils_off: volume.optional(),
    covered: yesNo.optional(),
    stages: z.array(stage).min(2, 'stages are for two or more steps in one pot').optional(),
  });
  const maceration = strict({
    kind: z.literal('cold-maceration'),
    ...inPot,
    macerate: time,
    boil_before_use: yesNo.optional(),
  });
  const powder = strict({ kind: z.literal('powder'), sieve: words.optional(), with: words.optional() });

  const directions = strict({
    take: read((t) => parseTake(t, measures)),
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
    route: word(['oral', 'oromucosal', 'cutaneous']).optional(),
    makes: mass.optional(),
    measures: formulaMeasures.optional(),
    ingredients: z
      .array(ingredient)
      .min(1, 'a formula needs an ingredient: write such as {herb: nettle-leaf, parts: 1}'),
    preparation: z.discriminatedUnion('kind', [infusion, decoction, maceration, powder]),
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
export type Preparation = Formula['preparation'];
export type Directions = NonNullable<Formula['directions']>;
