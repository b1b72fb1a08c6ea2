import { z } from 'zod';
import type { Exact } from '../../measure/exact.ts';
import type { Measures } from '../../measure/parse.ts';
import { parseNumber, parseQuantity } from '../../measure/parse.ts';
import type { Quantity } from '../../measure/quantity.ts';
import { bad, ok, type Result } from '../../measure/result.ts';
import type { Dimension } from '../../measure/units.ts';
import { id, numberRange, quantity, read, strict, word, words, yesNo } from './fields.ts';

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
  const n = parseNumber(t.replace(/\s*(%|percent|per cent)(\s*m\/m)?$/, ''));
  if (n.ok && (n.value.lte(0) || n.value.gte(100))) return bad(`"${t}" must lie between 0 and 100`);
  return n;
});

function above0<Q extends Quantity>(r: Result<Q>): Result<Q> {
  return r.ok && r.value.value.lte(0) ? bad('must be above 0') : r;
}

/** What is taken at once: a measured quantity, or a share of what one making yields. */
export type Take =
  | { readonly kind: 'measured'; readonly amount: Quantity }
  | { readonly kind: 'share'; readonly share: Exact; readonly text: string };

function parseTake(text: string, measures: Measures): Result<Take> {
  const share = /^(.+?) of (?:the|a) (?:batch|pot|making)$/i.exec(text.trim());
  if (share) {
    const named: Record<string, string> = {
      half: '1/2',
      'a half': '1/2',
      'a third': '1/3',
      'a quarter': '1/4',
      all: '1',
    };
    const n = parseNumber(named[(share[1] ?? '').toLowerCase()] ?? share[1] ?? '');
    if (!n.ok) return n;
    if (n.value.lte(0) || n.value.gt(1)) return bad(`"${text}" is not a share of the batch`);
    return ok({ kind: 'share', share: n.value, text: text.trim() });
  }
  const q = above0(parseQuantity(text, measures, ['mass', 'volume', 'count', 'drops']));
  return q.ok ? ok({ kind: 'measured', amount: q.value }) : q;
}

/** The formula file, read with what the practice has settled and with the formula's own measures. */
export function formulaSchema(measures: Measures) {
  const mass = read((t) => above0(parseQuantity(t, measures, MASS)));
  const volume = read((t) => above0(parseQuantity(t, measures, VOLUME)));
  const time = quantity(TIME, measures);
  const massOrVolume = read((t) => above0(parseQuantity(t, measures, ['mass', 'volume'])));

  const ingredient = strict({
    herb: id,
    parts: positiveNumber.optional(),
    percent: percentNumber.optional(),
    amount: massOrVolume.optional(),
    make_up_to: mass.optional(),
    form: word(FORMS).optional(),
    density: quantity(['mass per volume']).optional(),
    note: words.optional(),
  }).superRefine((i, ctx) => {
    const given = (['parts', 'percent', 'amount', 'make_up_to'] as const).filter((k) => i[k] !== undefined);
    if (given.length === 0)
      ctx.addIssue({
        code: 'custom',
        message: `how much of ${i.herb}? give parts, percent, amount or make_up_to`,
        path: ['herb'],
      });
    if (given.length > 1)
      ctx.addIssue({
        code: 'custom',
        message: `${i.herb} has both ${given.join(' and ')}: give one`,
        path: [given[1] ?? 'herb'],
      });
    if (i.amount?.unit.dimension === 'volume' && i.density === undefined) {
      ctx.addIssue({
        code: 'custom',
        message: `${i.herb} is measured by volume in a formula made by mass: add its density, such as 0.92 g/mL`,
        path: ['amount'],
      });
    }
  });

  const stage = strict({
    do: word(['decoct', 'infuse', 'macerate']),
    herbs: z.array(id).min(1, 'a stage without herbs'),
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
    times: numberRange.optional(),
    for: time.optional(),
    days_a_week: positiveNumber.optional(),
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
    measures: z.record(z.string(), quantity(['mass', 'volume'])).optional(),
    ingredients: z.array(ingredient).min(1, 'a formula needs an ingredient'),
    preparation: z.discriminatedUnion('kind', [infusion, decoction, maceration, powder]),
    directions: directions.optional(),
    notes: z.array(words).optional(),
  }).superRefine((f, ctx) => {
    const seen = new Map<string, number>();
    f.ingredients.forEach((ing, i) => {
      const first = seen.get(ing.herb);
      if (first !== undefined)
        ctx.addIssue({
          code: 'custom',
          message: `${ing.herb} is already ingredient ${first + 1}: put both amounts in one line`,
          path: ['ingredients', i, 'herb'],
        });
      seen.set(ing.herb, first ?? i);
    });
    const rest = f.ingredients.filter((i) => i.make_up_to !== undefined);
    if (rest.length > 1)
      ctx.addIssue({
        code: 'custom',
        message: 'only one ingredient can make up to the total',
        path: ['ingredients', f.ingredients.findLastIndex((i) => i.make_up_to !== undefined), 'make_up_to'],
      });
    const parts = f.ingredients.some((i) => i.parts !== undefined);
    if (rest.length > 0 && parts)
      ctx.addIssue({
        code: 'custom',
        message:
          'parts already share out all that is left, so nothing is left to make up: use one or the other',
        path: ['ingredients', f.ingredients.findIndex((i) => i.make_up_to !== undefined), 'make_up_to'],
      });
    const percents = f.ingredients.reduce((t, i) => t + (i.percent?.toNumber() ?? 0), 0);
    if (percents > 100)
      ctx.addIssue({
        code: 'custom',
        message: `the percents add up to ${percents} %`,
        path: ['ingredients'],
      });
    const amounts = f.ingredients.findIndex((i) => i.amount !== undefined);
    const onlyAmounts = f.ingredients.every((i) => i.amount !== undefined);
    if (amounts >= 0 && !onlyAmounts && rest.length === 0 && f.makes === undefined) {
      ctx.addIssue({
        code: 'custom',
        message:
          'an amount beside parts or percents belongs to a batch of a size: add makes:, such as makes: 100 g',
        path: ['ingredients', amounts, 'amount'],
      });
    }
    if (!parts && rest.length === 0 && amounts < 0 && Math.abs(percents - 100) > 1e-9) {
      ctx.addIssue({
        code: 'custom',
        message: `the percents add up to ${percents} %, not 100 %: let one ingredient take the rest with parts: 1`,
        path: ['ingredients'],
      });
    }
    const p = f.preparation;
    if (p.kind === 'decoction') {
      if (p.stages === undefined && p.boil === undefined)
        ctx.addIssue({
          code: 'custom',
          message: 'a decoction needs boil: (how long), or stages:',
          path: ['preparation', 'kind'],
        });
      if (p.strained === undefined && p.make_up_to === undefined && p.boils_off === undefined) {
        ctx.addIssue({
          code: 'custom',
          message:
            'what boils off cannot be told from the time alone: give make_up_to:, strained: (measured once) or boils_off:',
          path: ['preparation', 'water'],
        });
      }
      if (p.stages) {
        const placed = p.stages.flatMap((s) => s.herbs);
        p.stages.forEach((s, si) => {
          s.herbs.forEach((h, hi) => {
            if (!seen.has(h))
              ctx.addIssue({
                code: 'custom',
                message: `"${h}" is not among the ingredients`,
                path: ['preparation', 'stages', si, 'herbs', hi],
                params: { word: h, nearTo: [...seen.keys()] },
              });
            else if (
              placed.indexOf(h) !== placed.lastIndexOf(h) &&
              placed.indexOf(h) < p.stages!.slice(0, si).flatMap((x) => x.herbs).length + hi
            )
              ctx.addIssue({
                code: 'custom',
                message: `"${h}" is already in an earlier stage`,
                path: ['preparation', 'stages', si, 'herbs', hi],
              });
          });
        });
        for (const h of seen.keys())
          if (!placed.includes(h))
            ctx.addIssue({ code: 'custom', message: `${h} is in no stage`, path: ['preparation', 'stages'] });
      }
    }
    if (p.kind !== 'powder' && p.strained !== undefined && p.make_up_to !== undefined)
      ctx.addIssue({
        code: 'custom',
        message: 'give strained: or make_up_to:, not both',
        path: ['preparation', 'strained'],
      });
    const take = f.directions?.take;
    if (take?.kind === 'measured') {
      const d = take.amount.unit.dimension;
      if (p.kind === 'powder' ? d !== 'mass' : d !== 'volume') {
        ctx.addIssue({
          code: 'custom',
          message:
            p.kind === 'powder'
              ? 'a powder is taken by mass: write such as 2 g, or define a measure of this powder under measures:'
              : 'this is drunk by volume: write such as 150 mL, or 1/3 of the batch',
          path: ['directions', 'take'],
        });
      }
    }
    if (take?.kind === 'share' && p.kind === 'powder')
      ctx.addIssue({
        code: 'custom',
        message: 'a share of the batch fits a pot of tea; a powder is taken by mass, such as 2 g',
        path: ['directions', 'take'],
      });
    if (f.directions && f.directions.times === undefined)
      ctx.addIssue({
        code: 'custom',
        message: 'how many times a day? add times:',
        path: ['directions', 'take'],
      });
  });
}

export type Formula = z.output<ReturnType<typeof formulaSchema>>;
export type Ingredient = Formula['ingredients'][number];
export type Preparation = Formula['preparation'];
export type Directions = NonNullable<Formula['directions']>;
