import type { Monograph } from '../../folder/schema/monograph.ts';
import type { StatedAllergy } from '../../vocabulary/allergies.ts';
import { type Case, herbsOf, type Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import type { Stated } from '../person.ts';
import { meets } from '../when.ts';

export const allergy: Rule = {
  name: 'allergy',
  sentence:
    'An allergy to the plant itself withholds it; one to its family, where the monograph is silent, or a known cross-reaction asks.',
  fires: 'an allergy to thyme and a formula with thyme herb',
  quiet: 'an allergy to penicillin and a formula with thyme herb',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (person === null || !person.allergies.given) return [];
    const stated = person.allergies.value;
    return herbsOf(c).flatMap(({ herb, monograph }): Finding[] => {
      if (monograph === null) return [];
      return stated.flatMap((s): Finding[] => {
        const outcome = plantOutcome(monograph, s.item, c);
        if (outcome === null || warnedOf(monograph, s, c)) return [];
        return [
          finding({
            rule: 'allergy',
            herb,
            subject: s.name,
            level: c.levels.ofOutcome(outcome),
            say: [SAY[outcome](herb, s.word, monograph)],
            facts: { allergy: s.name, genus: genusOf(monograph), family: monograph.family, outcome },
          }),
        ];
      });
    });
  },
};

const SAY = {
  'allergy-to-the-herb': (herb: string, word: string) =>
    `the person is allergic to "${word}", and ${herb} is that plant or of it`,
  'same-family': (herb: string, word: string, m: Monograph) =>
    `the person is allergic to "${word}", and ${herb} is of the same family (${m.family}): how did it show, and have they had ${herb} before?`,
  'cross-link': (herb: string, word: string, m: Monograph) =>
    `an allergy to "${word}" may cross with ${herb} (${m.family}): have they had it before?`,
} as const;

/** The genus of a monograph's plant: the first word of its Latin name, without a hybrid sign. */
export function genusOf(m: Monograph): string {
  return (m.names.latin.replace(/^[x\u00d7]\s+/, '').split(/[\s,]/)[0] ?? '').trim();
}

/** How an allergy stands to the plant of a monograph: the plant itself, its family, a known cross-reaction, or nothing. */
export function plantOutcome(m: Monograph, item: StatedAllergy, c: Case): keyof typeof SAY | null {
  const plant = c.matching.allergy([item], genusOf(m));
  if (plant === true) return 'allergy-to-the-herb';
  const family = c.matching.familyNamed(m.family);
  const kin = family === null ? false : c.matching.allergy([item], family);
  if (kin === true) return 'same-family';
  return kin === 'unknown' || plant === 'unknown' ? 'cross-link' : null;
}

/** The monograph itself warns of this allergy, and that finding says more. */
function warnedOf(m: Monograph, s: Stated<StatedAllergy>, c: Case): boolean {
  const { person } = c;
  if (person === null) return false;
  const alone = { ...person, allergies: { given: true as const, value: [s] } };
  return (m.cautions ?? []).some(
    (x) =>
      x.when.allergy !== undefined &&
      c.levels.ofSaying(x.says) === 'withhold' &&
      meets(x.when, alone, c).holds === true,
  );
}
