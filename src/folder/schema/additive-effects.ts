import * as z from 'zod';
import { SAYINGS } from '../sayings.ts';
import { id, quantity, sourced, sources, strict, word, words } from './fields.ts';
import { sourcesAreNamed } from './monograph.ts';
import { withRules } from './rules.ts';

const latin = z.array(words).min(1);
/** What a source says of something done alike, in the words that the table of levels knows. */
const said = { says: word(SAYINGS), why: words, ...sourced };

/** What herbs and medicines do alike, so that it adds up. */
export const additiveEffects = withRules(
  strict({
    table: z.literal('additive-effects'),
    about: words,
    sources,
    proportional: strict(sourced),
    effects: z.array(
      strict({
        id,
        /** What a herb of the group does, in a few words: `brings drowsiness`. */
        does: words,
        /** A species, or a genus for all of its species; of one part alone where a part is named. */
        herbs: z.array(strict({ latin, part: words.optional(), ...sourced })),
        /** Two herbs of the group. */
        together: strict(said).optional(),
        /** A herb of the group, or only those named here, beside a medicine. */
        with: z
          .array(strict({ medicine: z.array(words).min(1), latin: latin.optional(), ...said }))
          .optional(),
        /** A herb of the group beside a herb of another one, or only those named here. */
        with_effects: z.array(strict({ effect: id, latin: latin.optional(), ...said })).optional(),
        surgery: strict({ within: quantity(['time']), why: words, ...sourced }).optional(),
      }),
    ),
  }),
  sourcesAreNamed,
);
export type AdditiveEffects = z.output<typeof additiveEffects>;
