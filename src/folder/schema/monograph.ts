import { z } from 'zod';
import type { Cited } from '../../measure/figure.ts';
import type { Dimension } from '../../measure/units.ts';
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
  type Sourced,
  sourced,
  sources,
  strict,
  word,
  words,
  yesNo,
} from './fields.ts';

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
  'wash',
  'bath',
  'compress',
  'gargle',
  'inhalation',
  'ointment',
  'other',
] as const;
export type DosedKind = (typeof DOSED_KINDS)[number];

/** What a source says, in one word; `monographs/reference/levels.yaml` gives each its level. */
export const SAYINGS = [
  'contraindicated',
  'avoid',
  'prohibited',
  'not-recommended',
  'caution',
  'monitor',
  'adds-to-effect',
  'take-apart',
  'may-impair-driving',
  'drink-enough',
  'see-someone',
  'tell',
  'acceptable',
] as const;
export type Saying = (typeof SAYINGS)[number];

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

const doseEntry = strict({
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
}).superRefine((e, ctx) => {
  const says = [e.single, e.daily, e.weekly, e.concentration, e.times, e.times_a_week, e.in];
  if (says.every((s) => s === undefined))
    ctx.addIssue({
      code: 'custom',
      message: 'a dose entry without a figure: give single, daily, weekly, times or concentration',
      path: ['preparation'],
    });
});

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

export const monograph = strict({
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
    months: z.array(month).optional(),
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
    how: words.optional(),
    ...sourced,
  }).optional(),
  keep: strict({ for: quantity(TIME).optional(), how: words.optional(), ...sourced }).optional(),
  notes: z.array(words).optional(),
}).superRefine((m, ctx) => {
  const check = (value: unknown, path: (string | number)[]): void => {
    if (Array.isArray(value)) {
      value.forEach((v, i) => {
        check(v, [...path, i]);
      });
    } else if (value !== null && typeof value === 'object') {
      const of = value as { source?: unknown };
      if (typeof of.source === 'string' && !Object.hasOwn(m.sources, of.source)) {
        ctx.addIssue({
          code: 'custom',
          message: `"${of.source}" is not among this file's sources`,
          path: [...path, 'source'],
          params: { nearTo: Object.keys(m.sources), word: of.source },
        });
      }
      for (const [k, v] of Object.entries(value)) check(v, [...path, k]);
    }
  };
  for (const [k, v] of Object.entries(m)) if (k !== 'sources' && k !== 'names') check(v, [k]);
});

export type Monograph = z.output<typeof monograph>;

/** The source of a fact as it is cited, the fact's own reading before its source's. */
export function citeIn(m: Pick<Monograph, 'sources'>, fact: Sourced): Cited {
  const s = m.sources[fact.source];
  if (!s) throw new Error(`the source ${fact.source} is not in the file`);
  return {
    key: fact.source,
    body: s.body,
    title: s.title,
    ref: s.ref,
    year: s.year,
    reading: fact.reading ?? s.reading,
  };
}
