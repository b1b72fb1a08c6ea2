import { citeIn } from '../../folder/cite-in.ts';
import { any } from '../../measure/age.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { holdsVehicle } from '../sweetness.ts';

const SWEET = ['syrup', 'british-syrup', 'honey'];

export const sugar: Rule = {
  name: 'sugar',
  sentence: 'Sugar or honey in a preparation is told to someone with diabetes, who has to count it.',
  fires: 'a syrup for someone with diabetes',
  quiet: 'a syrup for someone without',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (!person?.conditions.given) return [];
    const fact = c.intake.sugar;
    const stated = person.conditions.value;
    const diabetes = any(
      fact.condition.flatMap((named) => stated.map((s) => c.matching.condition([s.item], named))),
    );
    if (diabetes !== true) return [];
    return c.formulas
      .filter((f) => holdsVehicle(f.formula, SWEET))
      .map(({ formula }) =>
        finding({
          rule: 'sugar',
          herb: null,
          subject: formula.formula,
          ...c.levels.judged('sugar-in-diabetes'),
          say: [`${formula.formula} holds sugar or honey: ${fact.because}`],
          source: citeIn(c.intake, fact),
          facts: { formula: formula.formula, condition: fact.condition },
        }),
      );
  },
};
