import * as z from 'zod';
import { HELD } from '../held.ts';
import type { FileKind } from '../kinds.ts';
import { SAYINGS } from '../sayings.ts';
import { additiveEffects } from './additive-effects.ts';
import { ageRules } from './age-rules.ts';
import {
  ageBand,
  id,
  numberRange,
  oneOrMore,
  quantity,
  range,
  sourced,
  sources,
  strict,
  word,
  words,
  yesNo,
} from './fields.ts';
import { intakeLimits } from './intake-limits.ts';
import { legalLimits } from './legal.ts';
import { sourcesAreNamed, when } from './monograph.ts';
import { PRESSINGS } from './preparations.ts';
import { withRules } from './rules.ts';

/** The shared tables of `monographs/reference`. */

const atc = z
  .string()
  .regex(/^[A-Z](\d{2}([A-Z]([A-Z](\d{2})?)?)?)?$/, 'an ATC code looks like B01AA03, a prefix like B01A');
const someWords = z.array(words);
const note = words.optional();
const yes = z.literal('yes').optional();

/** Medicines by international nonproprietary name, with other names and ATC codes by route. */
export const medicines = strict({
  table: z.literal('medicines'),
  about: words,
  sources,
  codes_as_of: words.optional(),
  salt_words: someWords.optional(),
  salt_is_the_medicine: someWords.optional(),
  form_words: strict({ oral: someWords, inhaled: someWords, local: someWords, silent: someWords }).optional(),
  spelling: z.array(strict({ from: words, to: words })).optional(),
  ambiguous: z.array(strict({ word: words, could_be: someWords })).optional(),
  herbs_as_medicines: z
    .array(strict({ atc: oneOrMore(atc).optional(), names: someWords, genus: words }))
    .optional(),
  medicines: z.array(
    strict({
      name: words,
      /** Codes for use by mouth, injection, patch or hormone device. */
      atc: z.array(atc).optional(),
      /** Classes that the medicine stands in where no open list confirms its full code yet. */
      within: z.array(atc).optional(),
      inhaled: z.array(atc).optional(),
      /** Codes for skin, eye, ear, nose, mouth, vagina, rectum, the bowel alone, and for tests. */
      local: z.array(atc).optional(),
      withdrawn: z.array(atc).optional(),
      withdrawn_local: z.array(atc).optional(),
      also: someWords.optional(),
      parts: someWords.optional(),
      note,
    }),
  ),
});
export type Medicines = z.output<typeof medicines>;

/** Groups of medicines that monographs name, by ATC prefix. */
export const medicineGroups = strict({
  table: z.literal('medicine-groups'),
  about: words,
  sources,
  groups: z.array(
    strict({
      id: words,
      term: words,
      also: someWords.optional(),
      atc: z.array(atc).optional(),
      except: z.array(atc).optional(),
      plus: z.array(atc).optional(),
      union: z.array(words).optional(),
      medicines: someWords.optional(),
      /** Further medicines of the group, not read in any source named. */
      from_memory: someWords.optional(),
      any_medicine: yes,
      /** The words cover several classes: which of them is always asked. */
      ask: yes,
      source: oneOrMore(words).optional(),
      reading: words.optional(),
      note,
    }),
  ),
});
export type MedicineGroups = z.output<typeof medicineGroups>;

const icd10 = z
  .string()
  .regex(/^[A-Z](\d{1,2}(\.?\d{1,2})?)?$/, 'an ICD-10 code or prefix looks like K80 or K80.5');

/** A state that is met when one of `any_of` is present together with one of `along_with`. */
const together = strict({ any_of: someWords, along_with: someWords }).optional();

/** Conditions by plain term, with synonyms and ICD-10 prefixes; and signs that belong to a doctor. */
export const conditions = strict({
  table: z.literal('conditions'),
  about: words,
  sources,
  spelling: z.array(strict({ from: words, to: words })).optional(),
  leading_words: someWords.optional(),
  denials: someWords.optional(),
  /** Leading words that a denial may carry and still deny the whole: "no history of", but not "no severe". */
  denied_whole_after: someWords.optional(),
  ambiguous: z.array(strict({ word: words, could_be: someWords })).optional(),
  conditions: z.array(
    strict({
      id: words,
      term: words,
      also: someWords.optional(),
      icd10: z.array(icd10).optional(),
      broader: z.array(words).optional(),
      /** The broader word alone does not raise this one: constipation does not ask for chronic constipation. */
      only_if_named: yes,
      /** Ask for this state whenever one of these is present. */
      implied_by: z.array(words).optional(),
      together,
      ask: note,
      /** Completed weeks of pregnancy. */
      weeks: numberRange.optional(),
      ages: ageBand.optional(),
      source: oneOrMore(words).optional(),
      note,
    }),
  ),
  urgent: z.array(
    strict({
      id: words,
      term: words,
      also: someWords.optional(),
      icd10: z.array(icd10).optional(),
      to: word(['doctor', 'same day', 'emergency']),
      /** Days after which the sign belongs to a doctor; every figure where sources differ. */
      after_days: oneOrMore(words).optional(),
      together,
      source: oneOrMore(words).optional(),
      note,
    }),
  ),
});
export type Conditions = z.output<typeof conditions>;

/** Allergies: plant families with their genera, and substances. */
export const allergies = strict({
  table: z.literal('allergies'),
  about: words,
  sources,
  strip_words: someWords.optional(),
  /** Words kept only as a hint that a plant family is meant. */
  family_words: someWords.optional(),
  ambiguous: z.array(strict({ word: words, could_be: someWords })).optional(),
  /** Words that look alike and must stay apart, in meaning and in what is suggested. */
  never_merge: z.array(someWords).optional(),
  /** Genera that older texts place in another family. */
  moved_genera: z.array(strict({ genus: words, once: someWords })).optional(),
  families: z.array(
    strict({
      id: words,
      term: words,
      also: someWords.optional(),
      genera: someWords.optional(),
      cross: z.array(words).optional(),
      source: oneOrMore(words).optional(),
      note,
    }),
  ),
  substances: z.array(
    strict({
      id: words,
      term: words,
      sort: word(['substance', 'product', 'food', 'pollen', 'medicine']),
      also: someWords.optional(),
      /** The plant that it is: whoever names it names the plant. */
      plant: words.optional(),
      /** Plants worth asking about, as a cross link is. */
      genera: someWords.optional(),
      medicine_groups: z.array(words).optional(),
      cross: z.array(words).optional(),
      source: oneOrMore(words).optional(),
      note,
    }),
  ),
});
export type Allergies = z.output<typeof allergies>;

/** The list of uses that formulas and dose entries name. */
export const uses = strict({
  table: z.literal('uses'),
  about: words,
  uses: z.array(strict({ id, term: words, also: someWords.optional() })),
});
export type Uses = z.output<typeof uses>;

export const LEVELS = ['withhold', 'ask', 'decide', 'note'] as const;

/** `accept: no` where no decision of the practitioner sets it aside: the law does not leave it to them. */
const levelled = { level: word([...LEVELS, 'none']), words, accept: yesNo.optional() };

/** The one table that turns what a source says, or what a comparison found, into a level. */
export const levels = strict({
  table: z.literal('levels'),
  about: words,
  sayings: z.array(strict({ says: word(SAYINGS), ...levelled })),
  outcomes: z.array(strict({ outcome: id, ...levelled })),
});
export type Levels = z.output<typeof levels>;

/** The questions a check may need: when they matter, how long an answer stays good. */
export const questions = strict({
  table: z.literal('questions'),
  about: words,
  /** Words that say of a list that there is nothing in it. */
  said_of_none: someWords,
  questions: z.array(
    strict({
      id: words,
      asks: words,
      good_for: quantity(['time']).optional(),
      /** How long something that was stopped still counts as taken. */
      counts_after_stopping: quantity(['time']).optional(),
      only: strict({ sex: word(['female', 'male']).optional(), ages: ageBand.optional() }).optional(),
      note,
    }),
  ),
});
export type Questions = z.output<typeof questions>;

/** Water kept back by a gram of herb, by plant part. */
export const water = strict({
  table: z.literal('water'),
  about: words,
  sources,
  held_back: z.array(strict({ part: words, amount: quantity(['volume per mass']), ...sourced })),
});
export type Water = z.output<typeof water>;

/** What herbs are carried in: densities, and what each holds, by mass. */
export const vehicles = withRules(
  strict({
    table: z.literal('vehicles'),
    about: words,
    sources,
    vehicles: z.array(
      strict({
        id,
        term: words,
        sort: word(['liquid', 'solid']),
        density: quantity(['mass per volume']).optional(),
        holds: z.partialRecord(word(HELD), quantity(['share m/m'])),
        ...sourced,
      }),
    ),
  }),
  sourcesAreNamed,
);
export type Vehicles = z.output<typeof vehicles>;

/** What makes a mixture keep by itself, and how long what does not is kept. */
export const keeping = withRules(
  strict({
    table: z.literal('keeping'),
    about: words,
    sources,
    limits: z.array(
      strict({
        of: word(HELD),
        in: id.optional(),
        at_least: quantity(['share m/m', 'share v/v']).optional(),
        at_most: quantity(['share m/m', 'share v/v']).optional(),
        where: words.optional(),
        ...sourced,
      }),
    ),
    times: z.array(
      strict({
        kind: z.array(id),
        of: word(['fresh', 'dried', 'unpreserved']).optional(),
        for: quantity(['time']),
        how: words,
        ...sourced,
      }),
    ),
  }),
  sourcesAreNamed,
);
export type KeepingTable = z.output<typeof keeping>;

/** What the spent herb keeps of the liquid, and what capsule shells hold. */
export const making = withRules(
  strict({
    table: z.literal('making'),
    about: words,
    sources,
    marc: z.array(
      strict({ how: word([...PRESSINGS, 'not said']), keeps: range(['volume per mass']), ...sourced }),
    ),
    capsules: z.array(strict({ size: words, holds: quantity(['volume']), ...sourced })),
    bottles: strict({ sizes: z.array(quantity(['volume'])).min(1), ...sourced }),
  }),
  sourcesAreNamed,
);
export type MakingTable = z.output<typeof making>;

/** How much ethanol in one dose matters, and for whom any does. */
export const ethanol = withRules(
  strict({
    table: z.literal('ethanol'),
    about: words,
    sources,
    lightest_adult: strict({ weight: quantity(['mass']), ...sourced }),
    rules: z.array(
      withRules(
        strict({
          any: yesNo.optional(),
          from: quantity(['mass per mass']).optional(),
          above: quantity(['mass per mass']).optional(),
          when,
          says: word(SAYINGS),
          why: words,
          ...sourced,
        }),
        (_, { has, wrong }) => {
          const given = ['any', 'from', 'above'].filter((k) => has(k));
          if (given.length !== 1) wrong(['says'], 'how much matters? write one of any: yes, from:, above:');
        },
      ),
    ),
  }),
  sourcesAreNamed,
);
export type EthanolTable = z.output<typeof ethanol>;

/** What holds for a part of a plant where its monograph is silent: dry yields, when, how, how warm, how long. */
export const gathering = withRules(
  strict({
    table: z.literal('gathering'),
    about: words,
    sources,
    parts: z.array(
      strict({
        part: words,
        /** Dry herb in fresh, by weight. */
        dry_yield: range(['share']),
        when: words,
        temperature: words,
        days: range(['time']),
        keep: range(['time']),
        ...sourced,
      }),
    ),
    dry_moisture: strict({ amount: quantity(['share']), ...sourced }),
    moulds_above: strict({ amount: quantity(['share']), ...sourced }),
    done_when: strict({ says: words, ...sourced }),
    take: strict({ share: quantity(['share']), says: words, ...sourced }),
    rules: z.array(strict({ part: words, says: words, ...sourced })),
    law: z.array(strict({ jurisdiction: words, says: words, ...sourced })),
  }),
  sourcesAreNamed,
);
export type GatheringTable = z.output<typeof gathering>;

export type { AdditiveEffects } from './additive-effects.ts';
export type { AgeRules } from './age-rules.ts';
export type { IntakeLimits } from './intake-limits.ts';
export type { LegalLimits } from './legal.ts';

const TABLES = {
  'age-rules': ageRules,
  'additive-effects': additiveEffects,
  'intake-limits': intakeLimits,
  'legal-limits': legalLimits,
  gathering,
  vehicles,
  keeping,
  making,
  ethanol,
  medicines,
  'medicine-groups': medicineGroups,
  conditions,
  allergies,
  uses,
  levels,
  questions,
  water,
} as const;

/** The schema of a shared table; with `own`, of a practitioner's additions to it, which may leave keys out. */
export function referenceSchema(kind: FileKind, own = false): z.ZodType {
  const schema = TABLES[kind as keyof typeof TABLES];
  if (schema === undefined) throw new Error(`${kind} is not a reference table`);
  // Of its shape alone: a schema with rules over several keys cannot leave keys out.
  return own ? strict(schema.shape).partial() : schema;
}
