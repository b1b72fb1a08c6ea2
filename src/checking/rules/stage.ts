import { citeIn } from '../../folder/cite-in.ts';
import type { Monograph, StageAdvice } from '../../folder/schema/monograph.ts';
import { type Case, type HerbInFormula, herbsOf, oncePerCase, type Rule } from '../case.ts';
import { concerning } from '../concerns.ts';
import { canonical, type Finding, finding, prose } from '../finding.ts';
import { LEVELS, type Level } from '../level.ts';
import type { Person } from '../person.ts';
import { inWeeks, type Met, pregnancyOf } from '../when.ts';

export type Stage = 'pregnant' | 'breastfeeding';

/** What is said of a stage for one herb, and whether the person is in it. Advice null: nothing was read. */
export interface StageWeighed {
  readonly herb: HerbInFormula;
  readonly monograph: Monograph;
  readonly question: Stage;
  readonly advice: StageAdvice | null;
  readonly level: Level;
  readonly met: Met;
}

const WORDS: Readonly<Record<Stage, string>> = {
  pregnant: 'in pregnancy',
  breastfeeding: 'while breastfeeding',
};

export const stage: Rule = {
  name: 'stage',
  sentence: 'Pregnancy and breastfeeding: what each source says, and a decision where nothing was read.',
  fires: 'sage leaf in pregnancy',
  quiet: 'chamomile tea in pregnancy, which its source finds acceptable',
  find: (c: Case) => {
    const groups = new Map<string, StageWeighed[]>();
    for (const s of stagesWeighed(c)) {
      if (s.met.holds === false || (s.met.holds === 'unknown' && s.met.coarse.length === 0)) continue;
      const key = `${s.herb.herb}/${s.question}/${s.met.holds}`;
      groups.set(key, [...(groups.get(key) ?? []), s]);
    }
    return [...groups.values()].map((g) => said(g, c));
  },
};

/** Every saying about pregnancy and breastfeeding that concerns these preparations and has a level. */
export const stagesWeighed = oncePerCase<readonly StageWeighed[]>(weigh);

function weigh(c: Case): StageWeighed[] {
  const { person } = c;
  if (person === null) return [];
  return herbsOf(c).flatMap((herb): StageWeighed[] => {
    const { monograph } = herb;
    if (monograph === null) return [];
    return (['pregnant', 'breastfeeding'] as const).flatMap((question): StageWeighed[] => {
      const all = (question === 'pregnant' ? monograph.pregnancy : monograph.breastfeeding) ?? [];
      const here = concerning(all, herb.formula, herb.herb, (a) => c.levels.ofSaying(a.says) !== null);
      const weighed = (advice: StageAdvice | null, level: Level | null): StageWeighed[] =>
        level === null
          ? []
          : [{ herb, monograph, question, advice, level, met: isIn(question, advice, person, c) }];
      return here.length === 0
        ? weighed(null, c.levels.ofOutcome('stage-not-read'))
        : here.flatMap((advice) => weighed(advice, c.levels.ofSaying(advice.says)));
    });
  });
}

function isIn(question: Stage, advice: StageAdvice | null, person: Person, c: Case): Met {
  if (question === 'pregnant' && advice?.weeks) return inWeeks(advice.weeks, person, c);
  const holds =
    question === 'pregnant'
      ? pregnancyOf(person, c)
      : person.breastfeeding.given
        ? person.breastfeeding.value
        : c.questions.arises('breastfeeding', person) === false
          ? false
          : 'unknown';
  return { holds, open: holds === 'unknown' ? [question] : [], coarse: [], names: [] };
}

/** What a decision rests on: who says what of which weeks and preparations, and none of the commas. */
function factsOf(advice: StageAdvice | null): object {
  if (advice === null) return { says: 'not-read' };
  const { says, weeks, preparation, because, source } = advice;
  return { says, weeks, preparation, because: because && prose(because), source };
}

function said(group: readonly StageWeighed[], c: Case): Finding {
  const rank = ({ advice: a }: StageWeighed): number => (a ? c.levels.rankOf(a.says) : -1);
  const distinct = new Map(group.map((s) => [canonical(factsOf(s.advice)), s]));
  const [first, ...others] = [...distinct]
    .sort(
      ([a, x], [b, y]) =>
        LEVELS.indexOf(x.level) - LEVELS.indexOf(y.level) || rank(x) - rank(y) || (a < b ? -1 : 1),
    )
    .map(([, s]) => s) as [StageWeighed, ...StageWeighed[]];
  const { herb, question, advice, monograph } = first;
  const sure = first.met.holds === true;
  const because = advice?.because ? ` (${advice.because.replace(/-/g, ' ')})` : '';
  const also = others.map((o) =>
    o.advice
      ? `${citeIn(o.monograph, o.advice).body} says it ${c.levels.wordsOf(o.advice.says)}`
      : 'nothing was read of another of these preparations',
  );
  const sentence = advice
    ? `${herb.herb} ${c.levels.wordsOf(advice.says)} ${WORDS[question]}${because}`
    : `nothing was read about ${herb.herb} ${WORDS[question]} for this preparation`;
  return finding({
    rule: 'stage',
    herb: herb.herb,
    subject: sure ? question : `possible ${question}`,
    level: sure ? first.level : c.levels.ofOutcome('too-coarse'),
    say: [
      sure
        ? `${sentence}${also.length > 0 ? `; also ${[...new Set(also)].join('; ')}` : ''}`
        : `possible: ${sentence}; ${first.met.coarse.join(' ')}`,
    ],
    source: advice ? citeIn(monograph, advice) : null,
    accept: group.every((s) => c.levels.mayAccept(s.advice?.says ?? 'stage-not-read')),
    facts: { question, advice: [...distinct.keys()], holds: sure },
  });
}
