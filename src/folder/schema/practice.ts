import * as z from 'zod';
import { AMBIGUOUS, ambiguousWord } from '../../measure/units.ts';
import { FORMS } from '../forms.ts';
import { settledUnit } from '../settled.ts';
import { quantity, strict, word, words } from './fields.ts';
import { KINDS } from './kinds-of-preparation.ts';
import { practiceMeasures } from './own-measures.ts';
import { withRules } from './rules.ts';

const settled = withRules(z.record(z.string(), words), (map, { wrong }) => {
  const by = new Map<string, string>();
  for (const [name, meaning] of Object.entries(map)) {
    const unclear = ambiguousWord(name);
    if (!unclear) {
      wrong([name], `"${name}" is not one of ${AMBIGUOUS.map((a) => a.word).join(', ')}`);
      continue;
    }
    const first = by.get(unclear.word);
    if (first !== undefined) wrong([name], `"${name}" is the same word as "${first}": keep one`);
    by.set(unclear.word, name);
    if (meaning !== undefined && !settledUnit(name, meaning))
      wrong(
        [name],
        `${name} cannot mean "${meaning}": write one of ${unclear.could.map((u) => u.symbol).join(', ')}`,
      );
  }
});

const above0 = (of: Parameters<typeof quantity>[0]) =>
  quantity(of).refine((q) => q.value.gt(0), 'this must be above 0');

const KEPT = [...new Set([...FORMS, ...KINDS])];

const keepsFor = withRules(
  z.record(
    z.string(),
    quantity(['time']).refine((q) => q.value.gt(0), 'this must be above 0'),
  ),
  (map, { wrong }) => {
    for (const name of Object.keys(map))
      if (!KEPT.some((k) => k === name))
        wrong([name], `"${name}" is nothing that is kept here`, { word: name, nearTo: KEPT });
  },
);

export const JURISDICTIONS = ['UK', 'IE', 'EU', 'US', 'CA', 'AU', 'NZ', 'other'] as const;

/** What a practice settles once: its measures, its balance, how long an answer stays good. All of it is optional. */
export const practice = strict({
  practice: words.optional(),
  /** How the practice is reached, for the label. */
  contact: words.optional(),
  jurisdiction: word(JURISDICTIONS).optional(),
  /** Which unit a bare `pint`, `ounce`, `cup` means here. */
  settled: settled.optional(),
  /** The practice's own measures, such as a dropper of 0.8 mL. */
  measures: practiceMeasures.optional(),
  balance: strict({
    step: above0(['mass']).optional(),
    sensitivity: above0(['mass']).optional(),
    permitted_error: above0(['share']).optional(),
  }).optional(),
  /** The measuring cylinder that liquids are poured with. */
  cylinder: strict({
    step: above0(['volume']).optional(),
    sensitivity: above0(['volume']).optional(),
    permitted_error: above0(['share']).optional(),
  }).optional(),
  /** The sizes of bottle that the practice dispenses in. */
  bottles: z
    .array(above0(['volume']))
    .min(1, 'write at least one size, such as 100 mL')
    .optional(),
  /** How far apart, in % v/v, the strengths in one bottle must stand for a word about a sediment. */
  sediment_from: above0(['share v/v']).optional(),
  water: strict({
    boils_off: quantity(['volume per time']).optional(),
    holds: quantity(['volume per mass']).optional(),
  }).optional(),
  /** How long the practice keeps things: by their form (dried, tincture) or what they are made as (ointment, syrup). */
  keeps: keepsFor.optional(),
  /** How long an answer stays good, by question. */
  answers: z.record(z.string(), quantity(['time'])).optional(),
});

export type Practice = z.output<typeof practice>;
