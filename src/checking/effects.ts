import { citeIn } from '../folder/cite-in.ts';
import type { Saying } from '../folder/sayings.ts';
import type { AdditiveEffects } from '../folder/schema/reference.ts';
import type { Cited } from '../measure/figure.ts';
import { type Case, oncePerCase } from './case.ts';
import { oncePerPlant } from './once-per-plant.ts';
import type { Question } from './person.ts';
import { isPlant } from './plant.ts';
import { type Portion, regimen } from './regimen.ts';

export type Effect = AdditiveEffects['effects'][number];

/** A herb of the regimen that does something which others do too. */
export interface Acting {
  readonly herb: string;
  readonly monograph: Portion['monograph'];
  /** Handed over now, and not only taken already. */
  readonly given: boolean;
  readonly effect: Effect;
  /** Where it was read; null where only the monograph says so. */
  readonly cited: Cited | null;
}

/** Every herb taken by mouth beside each effect that it has, by the table or by its own monograph. */
export const acting = oncePerCase<readonly Acting[]>((c) => {
  const herbs = new Map<string, Portion>();
  for (const p of regimen(c)) if (p.given || !herbs.has(p.herb)) herbs.set(p.herb, p);
  return [...herbs.values()].flatMap(({ herb, monograph, given }) =>
    effectsOf(c.effects, { herb, monograph }).map((e): Acting => ({ herb, monograph, given, ...e })),
  );
});

/** The effects that a herb has, by the table or by its own monograph. */
const effectsOf = oncePerPlant((table: AdditiveEffects, { herb, monograph }) =>
  table.effects.flatMap((effect): Pick<Acting, 'effect' | 'cited'>[] => {
    const listed = effect.herbs.find(
      (h) => h.latin.some((l) => isPlant({ herb, monograph }, l)) && isOfPart(herb, monograph, h.part),
    );
    if (!listed && !monograph?.effects?.includes(effect.id)) return [];
    return [{ effect, cited: listed ? citeIn(table, listed) : null }];
  }),
);

/** Where no monograph tells the part, the word for the herb may; a part that is not told counts. */
function isOfPart(herb: string, monograph: Portion['monograph'], part: string | undefined): boolean {
  if (part === undefined) return true;
  return monograph ? monograph.part.includes(part) : herb.includes(part) || !/[- ].*[- ]/.test(herb);
}

/** Whether what is said of some plants of a group alone is said of this herb. */
export const isAmong = (a: Acting, latin: readonly string[] | undefined): boolean =>
  latin === undefined || latin.some((l) => isPlant(a, l));

/** The questions that what the herbs do alike raises, where the answer would be more than a note. */
export function effectQuestions(c: Case): readonly { readonly question: Question; readonly herb: string }[] {
  const grave = ({ says }: { readonly says: Saying }): boolean => c.levels.isMoreThanNote(says);
  return acting(c)
    .filter((a) => a.given)
    .flatMap((a) => {
      const { with: beside, together, with_effects: others, surgery } = a.effect;
      const questions: Question[] = [
        ...((beside ?? []).some((w) => isAmong(a, w.latin) && grave(w)) ? (['medicines'] as const) : []),
        ...([...(together ? [together] : []), ...(others ?? [])].some(grave) ? (['taking'] as const) : []),
        ...(surgery ? (['surgery'] as const) : []),
      ];
      return questions.map((question) => ({ question, herb: a.herb }));
    });
}
