import type { Case, Rule } from '../case.ts';
import { finding } from '../finding.ts';

export const directions: Rule = {
  name: 'directions',
  sentence: 'Without directions no dose can be judged, and that is said.',
  fires: 'a formula without directions',
  quiet: 'a formula that says how much, how often and how long',
  find: (c: Case) =>
    c.formulas
      .filter((f) => f.formula.directions === undefined)
      .map((f) =>
        finding({
          rule: 'directions',
          herb: null,
          subject: f.formula.formula,
          ...c.levels.judged('no-directions'),
          say: [
            `${f.formula.formula} has no directions, so no dose of it was judged: how much, how often, how long?`,
          ],
          facts: { formula: f.formula.formula },
        }),
      ),
};
