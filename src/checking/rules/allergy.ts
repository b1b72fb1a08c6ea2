import type { Monograph } from '../../folder/schema/monograph.ts';
import { type Case, herbsOf, type Rule } from '../case.ts';
import { cautionsWeighed } from '../cautions.ts';
import { type Finding, finding } from '../finding.ts';
import { genusOf, type PlantAllergy, plantAllergy } from '../plant-allergy.ts';

export const allergy: Rule = {
  name: 'allergy',
  sentence:
    'An allergy to the plant itself withholds it; one to its family, where the monograph is silent, or a known cross-reaction asks.',
  fires: 'an allergy to liquorice and a formula with liquorice root, whose monograph says nothing of allergy',
  quiet: 'an allergy to penicillin and the same formula',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (person === null || !person.allergies.given) return [];
    const stated = person.allergies.value;
    const warned = warnedOf(c);
    return herbsOf(c).flatMap(({ herb, monograph }): Finding[] => {
      if (monograph === null) return [];
      return stated.flatMap((s): Finding[] => {
        const outcome = plantAllergy(monograph, s.item, c);
        if (outcome === null || warned.has(`${herb} ${s.name}`)) return [];
        return [
          finding({
            rule: 'allergy',
            herb,
            subject: s.name,
            ...c.levels.judged(outcome),
            say: [SAY[outcome](herb, s.word, monograph)],
            facts: { allergy: s.name, genus: genusOf(monograph), family: monograph.family, outcome },
          }),
        ];
      });
    });
  },
};

const SAY: Readonly<Record<PlantAllergy, (herb: string, word: string, m: Monograph) => string>> = {
  'allergy-to-the-herb': (herb, word) =>
    `the person is allergic to "${word}", and ${herb} is that plant or one that this allergy takes in`,
  'same-family': (herb, word, m) =>
    `the person is allergic to "${word}", and ${herb} is of the same family (${m.family}): how did it show, and have they had ${herb} before?`,
  'cross-link': (herb, word, m) =>
    `an allergy to "${word}" may cross with ${herb} (${m.family}): have they had it before?`,
};

/** Herb and allergy wherever the monograph itself withholds for it here: that finding says more. */
function warnedOf(c: Case): Set<string> {
  return new Set(
    cautionsWeighed(c)
      .filter((w) => w.level === 'withhold' && w.met.holds === true)
      .flatMap((w) => w.met.names.filter((n) => n.key === 'allergy').map((n) => `${w.herb.herb} ${n.name}`)),
  );
}
