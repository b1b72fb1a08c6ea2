import type { Formula } from '../../folder/schema/formula.ts';
import { type AgeFloor, citeIn, type Monograph } from '../../folder/schema/monograph.ts';
import { hasReached, type Ternary } from '../../measure/age.ts';
import { type Case, type HerbInFormula, herbsOf, type Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { ageInWords } from '../person.ts';

const NO_DATA = 'no-data';

export const ageFloor: Rule = {
  name: 'age-floor',
  sentence:
    'Under an age that a source states: withheld when every source that states one agrees and gives more than want of data, else a decision.',
  fires: 'willow bark at 15, which no source gives under 18',
  quiet: 'chamomile tea at 3, which its source gives from 6 months',
  find: (c: Case): Finding[] => {
    if (c.person?.birth == null) return [];
    return herbsOf(c).flatMap((h): Finding[] =>
      h.monograph === null ? [] : judge(h, h.monograph, h.formula, c),
    );
  },
};

/** The floors that concern this preparation, route and use, each with whether the person has reached it. */
export function floorsFor(m: Monograph, formula: Formula, c: Case): { floor: AgeFloor; reached: Ternary }[] {
  const birth = c.person?.birth;
  if (!birth) return [];
  const kind = formula.preparation.kind;
  const concerns = (m.ages ?? []).filter(
    (f) =>
      (f.route === undefined || f.route === (formula.route ?? 'oral')) &&
      (f.preparation === undefined || f.preparation.includes(kind)) &&
      (f.use === undefined || formula.use === undefined || f.use.includes(formula.use)),
  );
  return concerns.map((floor) => ({ floor, reached: hasReached(birth, floor.not_under.months, c.on) }));
}

/** Whether the person is under a floor for this herb, so that a missing dose for the age need not be said twice. */
export function isUnderFloor(m: Monograph, formula: Formula, c: Case): boolean {
  return floorsFor(m, formula, c).some((f) => f.reached === false);
}

function judge(h: HerbInFormula, m: Monograph, formula: Formula, c: Case): Finding[] {
  const floors = floorsFor(m, formula, c);
  const under = floors.filter((f) => f.reached === false);
  const age = c.person ? ageInWords(c.person) : '';
  if (under.length === 0) {
    const straddled = floors.find((f) => f.reached === 'unknown') ?? null;
    const bands = h.compared.some((x) => x.forAge === 'unknown');
    if (straddled === null && !bands) return [];
    return [
      finding({
        rule: 'age-floor',
        herb: h.herb,
        subject: 'birth',
        level: c.levels.ofOutcome('age-straddles'),
        say: [
          `an age limit of ${h.herb}${straddled ? ` (${straddled.floor.not_under.text})` : ''} falls within what is known of the birth date: on which day were they born?`,
        ],
        source: straddled ? citeIn(m, straddled.floor) : null,
        facts: { floors: floors.map((f) => f.floor), birth: c.person?.birth },
      }),
    ];
  }
  const sources = (list: readonly { floor: AgeFloor }[]): Set<string> =>
    new Set(list.map((f) => f.floor.source));
  const everySource = sources(under).size === sources(floors).size;
  const onlyNoData = under.every((f) => f.floor.because === NO_DATA);
  const strictest = under.reduce((a, b) => (b.floor.not_under.months > a.floor.not_under.months ? b : a));
  const words = under.map(
    (f) =>
      `${citeIn(m, f.floor).body}: not under ${f.floor.not_under.text} (${f.floor.because.replace(/-/g, ' ')})`,
  );
  return [
    finding({
      rule: 'age-floor',
      herb: h.herb,
      subject: 'age',
      level: c.levels.ofOutcome(everySource && !onlyNoData ? 'under-every-floor' : 'under-a-floor'),
      say: [`the person is ${age}; ${h.herb} is not for that age: ${[...new Set(words)].join('; ')}`],
      source: citeIn(m, strictest.floor),
      facts: { floors: floors.map((f) => f.floor), under: under.map((f) => f.floor) },
    }),
  ];
}
