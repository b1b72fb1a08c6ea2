import * as z from 'zod';
import { parseNumber } from '../../measure/parse.ts';
import { bad } from '../../measure/result.ts';
import { ageBand, id, quantity, read, sourced, sources, strict, word, words } from './fields.ts';
import { FORMULA_ROUTES } from './formula.ts';
import { sourcesAreNamed } from './monograph.ts';
import { JURISDICTIONS } from './practice.ts';
import { WASHES } from './preparations.ts';
import { withRules } from './rules.ts';

/** What the law of a country lets a practitioner hand over of a plant. */

const list = z.array(words).min(1, 'the list is empty: write at least one, or leave the key out');

const share = read((t) => {
  const n = parseNumber(t);
  return n.ok && !(n.value.gt(0) && n.value.lte(1))
    ? bad(`"${t}" is no share: write from 0 to 1, such as 1/2`)
    : n;
});

const law = strict({
  id,
  jurisdiction: word(JURISDICTIONS),
  /** As it is named in a sentence. */
  name: words,
  /** What it says of a plant that it bars, behind the plant's name. */
  bars: words.optional(),
  /** Which text of it was read: law changes. */
  as_read: words,
  /** Of the figures for adults, the share that a child may have; null where the law gives none. */
  children: z.array(strict({ ages: ageBand, share: share.optional() })).optional(),
  ...sourced,
});

const limit = withRules(
  strict({
    id,
    law: id,
    /** As the law prints them. */
    latin: list.optional(),
    /** Every species of it. */
    genera: list.optional(),
    common: list.optional(),
    /** Other names of the same plant, and the plant where the law names only what it yields. */
    latin_from_memory: list.optional(),
    common_from_memory: list.optional(),
    /** Left out where the law names the plant and no part of it. */
    parts: list.optional(),
    /** The form that the law leaves out. */
    except: word(['powder']).optional(),
    /** Ways of use for which the law leaves no amount at all. */
    barred: z.array(word(['internal', 'external'])).optional(),
    single: quantity(['mass']).optional(),
    daily: quantity(['mass']).optional(),
    /** The plant in the product, for external use. */
    external: quantity(['share']).optional(),
    /** The constituent that the figures count, by the name that monographs use; else they count the plant. */
    counts: words.optional(),
    says: words.optional(),
  }),
  (l, { has, wrong }) => {
    if (!['latin', 'genera', 'common', 'latin_from_memory', 'common_from_memory'].some((k) => has(k)))
      wrong([], 'which plant? write latin:, genera: or common:');
    if (l.barred?.includes('internal') && (has('single') || has('daily')))
      wrong(['barred'], 'what is barred has no dose: keep one of them');
    if (l.barred?.includes('external') && has('external'))
      wrong(['barred'], 'what is barred has no strength: keep one of them');
  },
);

export const legalLimits = withRules(
  strict({
    table: z.literal('legal-limits'),
    about: words,
    sources,
    laws: z.array(law),
    /** Which routes the law counts as external use; `unclear` where that hangs on what the person does with it. */
    routes: z.array(
      strict({
        route: word(FORMULA_ROUTES),
        for: word(WASHES).optional(),
        use: word(['internal', 'external', 'unclear']),
        ...sourced,
      }),
    ),
    /** The words for the parts of a plant; `near` are parts that one word or the other may mean. */
    parts: z.array(strict({ part: words, also: list.optional(), near: list.optional() })),
    limits: z.array(limit),
  }),
  sourcesAreNamed,
);
export type LegalLimits = z.output<typeof legalLimits>;
