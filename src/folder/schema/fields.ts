import * as z from 'zod';
import { parseAge, parseAgeBand } from '../../measure/age.ts';
import { parseDate, parseDateInterval } from '../../measure/calendar.ts';
import type { Exact } from '../../measure/exact.ts';
import { READINGS } from '../../measure/figure.ts';
import {
  type Measures,
  NO_MEASURES,
  parseNumber,
  parseNumberRange,
  parseQuantity,
  parseRange,
  parseRatio,
  parseSolventRatio,
  parseStrength,
} from '../../measure/parse.ts';
import { parseMoisture } from '../../measure/parse-moisture.ts';
import { bad, type Result } from '../../measure/result.ts';
import type { Dimension } from '../../measure/units.ts';
import { parseYesNo } from '../answers.ts';
import { KNOWN_KEYS } from '../explain.ts';
import { ID_PATTERN, LONGEST_ID, parseId } from '../id.ts';
import { examplesOf, type Written, written } from './written.ts';

/**
 * The fields that files are made of. YAML reaches us with every scalar as text, so each field is a text that one
 * of our own parsers reads; zod only carries the path of what is wrong to where the position is known.
 */

const text = z.string();

/**
 * A map that holds these keys and no others. A key it does not know is an error whose message is the list of the
 * keys it does know, from which the nearest right word is found where the position is.
 */
export function strict<S extends z.ZodRawShape>(shape: S) {
  return z.strictObject(shape, {
    error: (issue) =>
      issue.code === 'unrecognized_keys' ? KNOWN_KEYS + Object.keys(shape).join(' ') : undefined,
  });
}

/** A text read by one of our parsers; its words become the problem. */
export function read<T>(parser: (text: string) => Result<T>, shown: Omit<Written, 'takes'> = {}) {
  const field = text.transform((value, ctx): T => {
    const r = parser(value);
    if (r.ok) return r.value;
    ctx.addIssue({ code: 'custom', message: r.why });
    return z.NEVER;
  });
  return field.register(written, { ...shown, takes: (t) => parser(t).ok });
}

export const words = text
  .refine((t) => t.trim() !== '', 'nothing is written here: write some words')
  .register(written, { pattern: '\\S' });

/** A file's or entry's own name, safe in any path. */
export const id = read(parseId, {
  says: 'lower-case letters, figures and single hyphens',
  examples: ['nettle-leaf'],
  pattern: ID_PATTERN,
  maxLength: LONGEST_ID,
});

export const quantity = (of: readonly Dimension[], measures: Measures = NO_MEASURES) =>
  read((t) => parseQuantity(t, measures, of), { says: 'a quantity with its unit', examples: examplesOf(of) });
export const range = (of: readonly Dimension[] = [], measures: Measures = NO_MEASURES) =>
  read((t) => parseRange(t, measures, of), {
    says: 'a quantity with its unit, or from one to another',
    examples: of.includes('mass') ? ['1.5-4 g', '2 g'] : examplesOf(of),
  });
export const positiveNumber = read((t): Result<Exact> => {
  const n = parseNumber(t);
  if (n.ok && n.value.lte(0)) return bad(`"${t}" must be above 0`);
  return n;
});
export const numberRange = read(parseNumberRange, {
  says: 'a number, or from one to another',
  examples: ['3', '2-3'],
});
export const ratio = read(parseRatio, { says: 'a ratio', examples: ['1:5'] });
export const solventRatio = read(parseSolventRatio, {
  says: 'herb to liquid, and how each is measured',
  examples: ['1:5 w/v'],
});

/** A strength with its basis, above 0. */
export const strength = (of: readonly Dimension[]) =>
  read((t) => {
    const s = parseStrength(t, of);
    if (!s.ok) return s;
    if (!of.includes(s.value.unit.dimension))
      return bad(
        `"${t}" is in ${s.value.unit.symbol}: here it is ${of.map((d) => d.replace('share', '%')).join(' or ')}`,
      );
    return s.value.value.gt(0) ? s : bad(`"${t}" must be above 0`);
  });

/** Water in fresh herb by mass: one figure or a range, from 0 to below 100 %. */
export const moisture = read(parseMoisture, {
  says: 'water by weight',
  examples: ['75-80 %', '78 %'],
});
export const age = read(parseAge, { says: 'an age with its unit', examples: ['34 years', '18 months'] });
export const ageBand = read(parseAgeBand, {
  says: 'ages from one to another, or from one on',
  examples: ['12 years and over', '6-12 years'],
});
export const date = read(parseDate, { says: 'a day: year-month-day', examples: ['2026-05-02'] });
export const dateInterval = read(parseDateInterval, {
  says: 'a day, a month or a year',
  examples: ['2026-05-02', '2026-05', '2026'],
});

export const yesNo = read(parseYesNo, { says: 'yes or no', examples: ['yes', 'no'] });

/** YAML's words for nothing, which reach us as text. A key left blank is not among them: it may be unanswered. */
const NOTHING = /^(?:null|~)$/i;

export function nullable<T extends z.ZodType>(inner: T) {
  const field = z.preprocess(
    (v, ctx) => {
      if (v !== '') return typeof v === 'string' && NOTHING.test(v) ? null : v;
      ctx.addIssue({ code: 'custom', message: 'this is left blank: write null where there is none' });
      return z.NEVER;
    },
    z.union([z.null(), inner]),
  );
  return field.register(written, { nothing: true });
}

/** One or a list of them; a list comes out. */
export function oneOrMore<T extends z.ZodType>(inner: T) {
  const field = z.preprocess(
    (v) => (Array.isArray(v) ? v : [v]),
    z.array(inner).min(1, 'the list is empty: write at least one, or leave the key out'),
  );
  return field.register(written, { oneOrMore: true });
}

export const word = <const W extends readonly [string, ...string[]]>(choices: W) => z.enum(choices);

export const reading = word(READINGS);

/** Route of administration, in the words of the European pharmacopoeia's standard terms. */
export const ROUTES = ['oral', 'oromucosal', 'cutaneous', 'inhalation', 'rectal', 'vaginal', 'bath'] as const;

/** A source of published figures. */
export const source = strict({
  body: words,
  title: words,
  ref: words.optional(),
  year: words.optional(),
  url: words.optional(),
  reading,
  note: words.optional(),
});

export const sources = z.record(text, source);

export interface Sourced {
  readonly source: string;
  readonly reading?: (typeof READINGS)[number] | undefined;
}

/** Every fact carries its source; a figure may have been read differently from the rest of it. */
export const sourced = { source: words, reading: reading.optional() };
