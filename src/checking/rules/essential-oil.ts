import { citeIn } from '../../folder/cite-in.ts';
import { all, any, hasReached, not, type Ternary, withinBand } from '../../measure/age.ts';
import { type Case, herbsOf, type Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import type { Person } from '../person.ts';
import { isPlant } from '../plant.ts';

type HerbInHand = ReturnType<typeof herbsOf>[number];

export const essentialOil: Rule = {
  name: 'essential-oil',
  sentence:
    'Essential oils rich in camphor, cineole or menthol are kept from small children and from children who have had convulsions, by whatever route.',
  fires: 'a salve with peppermint oil for a child of two',
  quiet: 'the same for a child of three without convulsions',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (!person?.birth) return [];
    return herbsOf(c)
      .filter((h) => isOil(h) && c.intake.oils.plants.some((p) => isPlant(h, p)))
      .flatMap((h) => judge(h, person, c));
  },
};

const isOil = ({ herb, monograph }: HerbInHand): boolean => /\boil\b/.test(monograph?.part ?? herb);

function judge({ herb }: HerbInHand, person: Person, c: Case): Finding[] {
  const { birth } = person;
  const { oils } = c.intake;
  if (!birth) return [];
  const tooYoung = not(hasReached(birth, oils.not_under.months, c.on));
  const stated = person.conditions.given ? person.conditions.value.map((s) => s.item) : [];
  const had = oils.convulsions.condition.map((x) => c.matching.condition(stated, x));
  const convulsed = all([withinBand(birth, oils.convulsions.ages, c.on), any(had)]);
  const say = (subject: string, holds: Ternary, because: string, asks: string): Finding[] =>
    holds === false
      ? []
      : [
          finding({
            rule: 'essential-oil',
            herb,
            subject,
            ...c.levels.judged(holds === true ? 'oil-for-a-child' : 'too-coarse'),
            say: [holds === true ? `${herb}: ${because}` : `${herb}: ${because}; ${asks}`],
            source: citeIn(c.intake, oils),
            facts: { herb, subject, holds, not_under: oils.not_under.months },
          }),
        ];
  return [
    ...say(
      'age',
      tooYoung,
      `not under ${oils.not_under.text}, by any route: ${oils.because}`,
      'is the child so old?',
    ),
    ...say('convulsions', convulsed, oils.convulsions.because, 'has the child had convulsions?'),
  ];
}
