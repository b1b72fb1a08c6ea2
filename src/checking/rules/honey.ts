import { citeIn } from '../../folder/cite-in.ts';
import { hasReached } from '../../measure/age.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { holdsVehicle } from '../sweetness.ts';

export const honey: Rule = {
  name: 'honey',
  sentence: 'Honey is not given in the first months of life.',
  fires: 'a honey for a child of 11 months',
  quiet: 'the same for a child of 12 months',
  find: (c: Case): Finding[] => {
    const birth = c.person?.birth;
    if (!birth) return [];
    const fact = c.intake.honey;
    const reached = hasReached(birth, fact.not_under.months, c.on);
    if (reached === true) return [];
    return c.formulas
      .filter((f) => holdsVehicle(f.formula, ['honey']))
      .map(({ formula }) =>
        finding({
          rule: 'honey',
          herb: null,
          subject: formula.formula,
          ...c.levels.judged(reached === false ? 'honey-under-a-year' : 'too-coarse'),
          say: [
            `${formula.formula} holds honey, which is not given under ${fact.not_under.text}: ${fact.because}${reached === false ? '' : '; is the child so old?'}`,
          ],
          source: citeIn(c.intake, fact),
          facts: { formula: formula.formula, not_under: fact.not_under.months, reached },
        }),
      );
  },
};
