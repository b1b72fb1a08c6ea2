import { citeIn, type Monograph, type StageAdvice } from '../../folder/schema/monograph.ts';
import { any } from '../../measure/age.ts';
import { type Case, type HerbInFormula, herbsOf, type Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { LEVELS, type Level } from '../level.ts';
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

/** Every saying about pregnancy and breastfeeding that concerns these preparations and asks for more than a note. */
export function stagesWeighed(c: Case): StageWeighed[] {
  const { person } = c;
  if (person === null) return [];
  return herbsOf(c).flatMap((herb): StageWeighed[] => {
    const { monograph } = herb;
    if (monograph === null) return [];
    return (['pregnant', 'breastfeeding'] as const).flatMap((question): StageWeighed[] => {
      const all = question === 'pregnant' ? monograph.pregnancy : monograph.breastfeeding;
      const here = (all ?? []).filter(
        (a) => a.preparation === undefined || a.preparation.includes(herb.formula.preparation.kind),
      );
      const base = { herb, monograph, question };
      if (here.length === 0)
        return [
          {
            ...base,
            advice: null,
            level: c.levels.ofOutcome('stage-not-read'),
            met: isIn(question, null, c),
          },
        ];
      return here.flatMap((advice) => {
        const level = c.levels.ofSaying(advice.says);
        return level === null ? [] : [{ ...base, advice, level, met: isIn(question, advice, c) }];
      });
    });
  });
}

function isIn(question: Stage, advice: StageAdvice | null, c: Case): Met {
  const person = c.person as NonNullable<Case['person']>;
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

function said(group: readonly StageWeighed[], c: Case): Finding {
  const [first, ...others] = [...group].sort((a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level)) as [
    StageWeighed,
    ...StageWeighed[],
  ];
  const { herb, question, advice, monograph } = first;
  const sure = any(group.map((g) => g.met.holds)) === true;
  const because = advice?.because ? ` (${advice.because.replace(/-/g, ' ')})` : '';
  const also = others.flatMap((o) =>
    o.advice ? [`${citeIn(o.monograph, o.advice).body} says it ${c.levels.wordsOf(o.advice.says)}`] : [],
  );
  const sentence = advice
    ? `${herb.herb} ${c.levels.wordsOf(advice.says)} ${WORDS[question]}${because}`
    : `nothing was read about ${herb.herb} ${WORDS[question]} for this preparation`;
  return finding({
    rule: 'stage',
    herb: herb.herb,
    subject: question,
    level: sure ? first.level : c.levels.ofOutcome('too-coarse'),
    say: [
      sure
        ? `${sentence}${also.length > 0 ? `; also ${[...new Set(also)].join('; ')}` : ''}`
        : `possible: ${sentence}; ${first.met.coarse.join(' ')}`,
    ],
    source: advice ? citeIn(monograph, advice) : null,
    facts: { question, advice: group.map((g) => g.advice), holds: sure },
  });
}
