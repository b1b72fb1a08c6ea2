import { z } from 'zod';
import { AMBIGUOUS, ambiguousWord, unitByName } from '../../measure/units.ts';
import { settledUnit } from '../settled.ts';
import { quantity, strict, word, words } from './fields.ts';

const settled = z.record(z.string(), words).superRefine((map, ctx) => {
  for (const [name, meaning] of Object.entries(map)) {
    const unclear = ambiguousWord(name);
    const could = unclear?.could.map((u) => u.symbol).join(', ');
    if (!unclear)
      ctx.addIssue({
        code: 'custom',
        path: [name],
        message: `"${name}" is not one of ${AMBIGUOUS.map((a) => a.word).join(', ')}`,
      });
    else if (!settledUnit(name, meaning))
      ctx.addIssue({
        code: 'custom',
        path: [name],
        message: `${name} cannot mean "${meaning}": it can mean ${could}`,
      });
  }
});

const ownMeasures = z.record(z.string(), quantity(['mass', 'volume'])).superRefine((map, ctx) => {
  for (const name of Object.keys(map)) {
    if (unitByName(name) || ambiguousWord(name))
      ctx.addIssue({
        code: 'custom',
        path: [name],
        message: `"${name}" is already the name of a unit: choose another name`,
      });
  }
});

const above0 = (of: Parameters<typeof quantity>[0]) =>
  quantity(of).refine((q) => q.value.gt(0), 'must be above 0');

/** What a practice settles once: its measures, its balance, how long an answer stays good. All of it is optional. */
export const practice = strict({
  practice: words.optional(),
  jurisdiction: word(['UK', 'IE', 'EU', 'US', 'CA', 'AU', 'NZ', 'other']).optional(),
  /** Which unit a bare `pint`, `ounce`, `cup` means here. */
  settled: settled.optional(),
  /** The practice's own measures, such as a dropper of 0.8 mL. */
  measures: ownMeasures.optional(),
  balance: strict({
    step: above0(['mass']).optional(),
    sensitivity: above0(['mass']).optional(),
    permitted_error: above0(['share']).optional(),
  }).optional(),
  water: strict({
    boils_off: quantity(['volume per time']).optional(),
    holds: quantity(['volume per mass']).optional(),
  }).optional(),
  /** How long an answer stays good, by question. */
  answers: z.record(z.string(), quantity(['time'])).optional(),
});

export type Practice = z.output<typeof practice>;
