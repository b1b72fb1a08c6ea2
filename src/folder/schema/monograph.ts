import * as z from 'zod';
import type { Dimension } from '../../measure/units.ts';
import { SAYINGS } from '../sayings.ts';
import {
  age,
  ageBand,
  date,
  id,
  nullable,
  numberRange,
  oneOrMore,
  quantity,
  ROUTES,
  range,
  ratio,
  sourced,
  sources,
  strict,
  word,
  words,
  yesNo,
} from './fields.ts';
import { type Told, withRules } from './rules.ts';

/** The kinds of preparation that a dose may be stated for. */
export const DOSED_KINDS = [
  'infusion',
  'decoction',
  'cold-maceration',
  'powder',
  'tincture',
  'liquid-extract',
  'soft-extract',
  'dry-extract',
  'expressed-juice',
  'essential-oil',
  'infused-oil',
  'syrup',
  'glycerite',
  'honey',
  'wash',
  'bath',
  'compress',
  'gargle',
  'inhalation',
  'ointment',
  'suppository',
  'other',
] as const;
export type DosedKind = (typeof DOSED_KINDS)[number];

const MASS_OR_VOLUME: readonly Dimension[] = [
  'mass',
  'volume',
  'drops',
  'count',
  'mass per mass',
  'volume per mass',
];
const TIME: readonly Dimension[] = ['time'];
const SHARE: readonly Dimension[] = [
  'share',
  'share m/m',
  'share v/m',
  'share v/v',
  'share w/v',
  'volume per mass',
  'mass per mass',
];

const kinds = oneOrMore(word(DOSED_KINDS));

export const preparationDosed = strict({
  kind: kinds,
  form: words.optional(),
  ratio: ratio.optional(),
  solvent: words.optional(),
  extract_ratio: ratio.optional(),
});

export type PreparationDosed = z.output<typeof preparationDosed>;

const FIGURES = ['single', 'daily', 'weekly', 'concentration', 'times', 'times_a_week', 'in'] as const;

const doseEntry = withRules(
  strict({
    use: oneOrMore(id).optional(),
    preparation: preparationDosed,
    route: word(ROUTES),
    ages: ageBand.optional(),
    single: range(MASS_OR_VOLUME).optional(),
    in: range(['volume', 'count']).optional(),
    times: numberRange.optional(),
    daily: range(MASS_OR_VOLUME).optional(),
    weekly: range(MASS_OR_VOLUME).optional(),
    times_a_week: numberRange.optional(),
    concentration: range().optional(),
    of: words.optional(),
    steep: range(TIME).optional(),
    when_taken: words.optional(),
    refer_after: quantity(TIME).optional(),
    stop_after: quantity(TIME).optional(),
    limit: word(['customary', 'safety']).optional(),
    note: words.optional(),
    ...sourced,
  }),
  (_, { has, wrong }) => {
    if (!FIGURES.some((key) => has(key)))
      wrong(
        ['preparation'],
        'a dose entry without a figure: give single, daily, weekly, times or concentration',
      );
  },
);

export type DoseEntry = z.output<typeof doseEntry>;

const names = oneOrMore(words);

const weeks = numberRange;

/** When a caution holds: all keys must hold; a list means any of them. */
export const when = strict({
  allergy: names.optional(),
  condition: names.optional(),
  medicine: names.optional(),
  pregnant: z.union([yesNo, strict({ weeks })]).optional(),
  trying_to_conceive: yesNo.optional(),
  breastfeeding: yesNo.optional(),
  age: ageBand.optional(),
  sex: word(['female', 'male']).optional(),
  taking: oneOrMore(id).optional(),
  surgery_within: quantity(TIME).optional(),
  drives: yesNo.optional(),
  avoids_alcohol: yesNo.optional(),
  fluid_restricted: yesNo.optional(),
});
export type When = z.output<typeof when>;

const caution = strict({
  when,
  says: word(SAYINGS),
  why: words,
  preparation: kinds.optional(),
  route: word(ROUTES).optional(),
  use: oneOrMore(id).optional(),
  note: words.optional(),
  ...sourced,
});
export type Caution = z.output<typeof caution>;

/** What a source says of pregnancy or breastfeeding, for some weeks or preparations if it says so. */
const stage = strict({
  says: word(SAYINGS),
  because: words.optional(),
  weeks: weeks.optional(),
  preparation: kinds.optional(),
  note: words.optional(),
  ...sourced,
});
export type StageAdvice = z.output<typeof stage>;

const ageFloor = strict({
  not_under: age,
  route: word(ROUTES).optional(),
  preparation: kinds.optional(),
  use: oneOrMore(id).optional(),
  because: words,
  note: words.optional(),
  ...sourced,
});
export type AgeFloor = z.output<typeof ageFloor>;

const constituent = strict({
  name: words,
  content: range(SHARE).optional(),
  in: words.optional(),
  note: words.optional(),
  ...sourced,
});

const month = words.transform((t, ctx): number => {
  const n = Number(t);
  if (Number.isInteger(n) && n >= 1 && n <= 12) return n;
  ctx.addIssue({ code: 'custom', message: `"${t}" is not a month: write 1 to 12` });
  return z.NEVER;
});

export const monograph = withRules(
  strict({
    id,
    names: strict({ latin: words, pharmacopoeial: words.optional(), common: oneOrMore(words) }),
    family: words,
    part: words,
    actions: z.array(id).optional(),
    checked: nullable(strict({ by: words, on: date })),
    sources,
    doses: z.union([
      z.literal('none-read'),
      z.array(doseEntry).min(1, 'write "none-read" where no dose was read'),
    ]),
    ages: z.array(ageFloor).optional(),
    cautions: z.array(caution).optional(),
    pregnancy: oneOrMore(stage).optional(),
    breastfeeding: oneOrMore(stage).optional(),
    interactions: z.union([
      word(['not-read', 'none-known', 'no-data']),
      strict({ says: word(['none-known', 'no-data', 'listed']), note: words.optional(), ...sourced }),
    ]),
    constituents: z.array(constituent).optional(),
    effects: z.array(id).optional(),
    undesirable: z.array(strict({ says: words, ...sourced })).optional(),
    holds_water: strict({ amount: quantity(['volume per mass']), ...sourced }).optional(),
    gather: strict({
      /** Every month that any source names. */
      months: z.array(month).optional(),
      /** Where sources differ, each with its own months. */
      seasons: z
        .array(strict({ months: z.array(month).min(1), note: words.optional(), ...sourced }))
        .optional(),
      how: words.optional(),
      leave: words.optional(),
      status: words.optional(),
      mistaken_for: z
        .array(strict({ name: words, danger: words.optional(), tell: words, ...sourced }))
        .optional(),
      ...sourced,
    }).optional(),
    dry: strict({
      fresh_moisture: range(['share', 'share m/m']).optional(),
      dry_moisture: range(['share', 'share m/m']).optional(),
      temperature: words.optional(),
      days: range(TIME).optional(),
      how: words.optional(),
      ...sourced,
    }).optional(),
    keep: strict({ for: range(TIME).optional(), how: words.optional(), ...sourced }).optional(),
    notes: z.array(words).optional(),
  }),
  sourcesAreNamed,
);

/**
 * Every fact's source is among the file's sources. A fact is a map of the file or of a list in it, or of a list in
 * another fact.
 */
export function sourcesAreNamed(_: unknown, { whole, wrong }: Told): void {
  const { sources: named, names, ...rest } = whole as Record<string, unknown>;
  if (!isMap(named)) return;
  const nearTo = Object.keys(named);
  const look = (value: unknown, path: PropertyKey[]): void => {
    if (Array.isArray(value)) {
      value.forEach((item, i) => {
        look(item, [...path, i]);
      });
    } else if (isMap(value)) {
      const { source } = value;
      if (typeof source === 'string' && source !== '' && !Object.hasOwn(named, source))
        wrong([...path, 'source'], `"${source}" is not among this file's sources`, { word: source, nearTo });
      for (const key in value) if (Array.isArray(value[key])) look(value[key], [...path, key]);
    }
  };
  for (const [key, value] of Object.entries(rest)) look(value, [key]);
}

const isMap = (value: unknown): value is Record<string, unknown> =>
  value !== null && typeof value === 'object' && !Array.isArray(value);

export type Monograph = z.output<typeof monograph>;
