import { SAYINGS, type Saying } from '../folder/sayings.ts';
import type { Levels } from '../folder/schema/reference.ts';

/** Gravest first. `clear` is the verdict when no finding is left. */
export const LEVELS = ['withhold', 'ask', 'decide', 'note'] as const;
export type Level = (typeof LEVELS)[number];
export type Verdict = Level | 'clear';

/** Exit status by verdict: 0 clear or notes only, 3 decide, 4 ask, 5 withhold. */
export const EXIT: Readonly<Record<Verdict, number>> = { clear: 0, note: 0, decide: 3, ask: 4, withhold: 5 };

/** What an accepted finding counts as. A question wants an answer and a note needs no decision: neither is here. */
export const ACCEPTED_AS: Readonly<Partial<Record<Level, Level>>> = { withhold: 'decide', decide: 'note' };

/** The highest exit status wins, so `ask` stands above `decide`. */
export function verdictOf(levels: Iterable<Level>): Verdict {
  const present = new Set(levels);
  return LEVELS.find((l) => present.has(l)) ?? 'clear';
}

/** What the rules themselves come to; the table of levels gives each its level. */
export const OUTCOMES = [
  'above-safety-limit',
  'above-every-maximum',
  'above-strictest-maximum',
  'above-only-usual-dose',
  'above-usual-within-another',
  'more-often',
  'no-comparable-dose',
  'intake-unbounded',
  'above-intake-limit',
  'same-herb',
  'taken-already-barred',
  'above-in-proportion',
  'operation-planned',
  'honey-under-a-year',
  'oil-for-a-child',
  'sugar-in-diabetes',
  'under-every-floor',
  'under-a-floor',
  'age-straddles',
  'beyond-stop',
  'beyond-safety-stop',
  'refer-within-course',
  'unknown-word',
  'looked-up-word',
  'unanswered',
  'stale-answer',
  'too-coarse',
  'no-directions',
  'no-monograph',
  'allergy-to-the-herb',
  'sign-for-a-doctor',
  'sign-urgent',
  'same-family',
  'cross-link',
  'stage-not-read',
  'narrow-margin-not-read',
  'prohibited-by-law',
  'above-legal-limit',
  'legal-limit-not-told',
  'legal-limit-unbounded',
  'law-not-chosen',
  'law-not-held',
  'prohibited-elsewhere',
] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** The levels table as it is looked things up in. */
export interface LevelTable {
  readonly ofSaying: (says: Saying) => Level | null;
  /** Whether a saying comes to more than something that is said to the person. */
  readonly isMoreThanNote: (says: Saying) => boolean;
  readonly ofOutcome: (outcome: Outcome) => Level;
  /** Whether the practitioner may accept it and say why: never a limit of the law. */
  readonly mayAccept: (word: Saying | Outcome) => boolean;
  /** Both at once, as a finding takes them. */
  readonly judged: (outcome: Outcome) => { readonly level: Level; readonly accept: boolean };
  readonly wordsOf: (says: Saying) => string;
  /** Where a saying stands in the table, so that of two with one level the first listed leads. */
  readonly rankOf: (says: Saying) => number;
}

/** What is wrong with a table of levels: a word without a level, or with two, would be judged by chance or not at all. */
export function levelFaults(table: Levels): string[] {
  const rows = (words: readonly string[], all: readonly string[]): string[] =>
    all.flatMap((word) => {
      const count = words.filter((w) => w === word).length;
      if (count === 1) return [];
      return [
        count === 0 ? `"${word}" has no level: add its line` : `"${word}" has ${count} levels: keep one`,
      ];
    });
  const silent = table.outcomes.filter((o) => o.level === 'none');
  const odd = table.outcomes.filter((o) => !(OUTCOMES as readonly string[]).includes(o.outcome));
  return [
    ...rows(
      table.sayings.map((s) => s.says),
      SAYINGS,
    ),
    ...rows(
      table.outcomes.map((o) => o.outcome),
      OUTCOMES,
    ),
    ...silent.map(
      (o) => `"${o.outcome}" cannot be passed over in silence: give it withhold, ask, decide or note`,
    ),
    ...odd.map((o) => `"${o.outcome}" is nothing that a rule comes to: take its line out`),
  ];
}

export function levelTable(table: Levels): LevelTable {
  const sayings = new Map(table.sayings.map((s) => [s.says, s]));
  const outcomes = new Map<string, Level | 'none'>(table.outcomes.map((o) => [o.outcome, o.level]));
  const refused = new Set<string>([
    ...table.sayings.filter((s) => s.accept === false).map((s) => s.says),
    ...table.outcomes.filter((o) => o.accept === false).map((o) => o.outcome),
  ]);
  const ofOutcome = (outcome: Outcome): Level => {
    const level = outcomes.get(outcome);
    if (level === undefined || level === 'none')
      throw new Error(`the levels table gives "${outcome}" no level`);
    return level;
  };
  const mayAccept = (word: Saying | Outcome): boolean => !refused.has(word);
  const ofSaying = (says: Saying): Level | null => {
    const level = sayings.get(says)?.level;
    if (level === undefined) throw new Error(`the levels table does not know "${says}"`);
    return level === 'none' ? null : level;
  };
  return {
    ofSaying,
    isMoreThanNote: (says) => !['note', null].includes(ofSaying(says)),
    ofOutcome,
    mayAccept,
    judged: (outcome) => ({ level: ofOutcome(outcome), accept: mayAccept(outcome) }),
    wordsOf: (says) => sayings.get(says)?.words ?? says,
    rankOf: (says) => [...sayings.keys()].indexOf(says),
  };
}
