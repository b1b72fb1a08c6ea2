import { z } from 'zod';
import { quantity, word, words, strict } from './fields.ts';

/** What a practice settles once: its measures, its balance, how long an answer stays good. All of it is optional. */
export const practice = strict({
  practice: words.optional(),
  jurisdiction: word(['UK', 'IE', 'EU', 'US', 'CA', 'AU', 'NZ', 'other']).optional(),
  settled: z.record(z.string(), words).optional(),
  measures: z.record(z.string(), quantity(['mass', 'volume'])).optional(),
  balance: strict({ step: quantity(['mass']).optional(), sensitivity: quantity(['mass']).optional(), permitted_error: quantity(['share']).optional() })
    .optional(),
  water: strict({ boils_off: quantity(['volume per time']).optional(), holds: quantity(['volume per mass']).optional() }).optional(),
  answers: z.record(z.string(), quantity(['time'])).optional(),
});

export type Practice = z.output<typeof practice>;
