import * as z from 'zod';
import { age, ageBand, id, oneOrMore, quantity, sourced, sources, strict, words, yesNo } from './fields.ts';
import { sourcesAreNamed } from './monograph.ts';
import { withRules } from './rules.ts';

/** How much of a constituent may be taken in a day, over everything that is taken. */
export const intakeLimits = withRules(
  strict({
    table: z.literal('intake-limits'),
    about: words,
    sources,
    honey: strict({ not_under: age, because: words, ...sourced }),
    sugar: strict({ condition: oneOrMore(id), because: words, ...sourced }),
    oils: strict({
      plants: z.array(words),
      not_under: age,
      because: words,
      convulsions: strict({ condition: oneOrMore(id), ages: ageBand, because: words }),
      ...sourced,
    }),
    limits: z.array(
      strict({
        id,
        /** Constituents by the names that monographs use; several are added up. */
        counts: z.array(words),
        /** Herbs that are known to hold it. */
        herbs: z.array(id),
        ages: ageBand.optional(),
        /** For whoever is pregnant or breastfeeding. */
        expecting: yesNo.optional(),
        single: quantity(['mass']).optional(),
        daily: quantity(['mass']).optional(),
        daily_per_kg: quantity(['mass per mass']).optional(),
        /** Less than this: as much is too much. */
        strict: yesNo.optional(),
        ...sourced,
      }),
    ),
  }),
  sourcesAreNamed,
);
export type IntakeLimits = z.output<typeof intakeLimits>;
