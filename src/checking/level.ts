import type { Saying } from '../folder/schema/monograph.ts';
import type { Levels } from '../folder/schema/reference.ts';

/** Gravest first. `clear` is the verdict when no finding is left. */
export const LEVELS = ['withhold', 'ask', 'decide', 'note'] as const;
export type Level = (typeof LEVELS)[number];
export type Verdict = Level | 'clear';

/** Exit status by verdict: 0 clear or notes only, 3 decide, 4 ask, 5 withhold. */
export const EXIT: Readonly<Record<Verdict, number>> = { clear: 0, note: 0, decide: 3, ask: 4, withhold: 5 };

/** The highest exit status wins, so `ask` stands above `decide`. */
export function verdictOf(levels: Iterable<Level>): Verdict {
  const present = new Set(levels);
  return LEVELS.find((l) => present.has(l)) ?? 'clear';
}

/** The levels table as it is looked things up in. */
export interface LevelTable {
  readonly ofSaying: (says: Saying) => Level | null;
  readonly ofOutcome: (outcome: string) => Level;
  readonly wordsOf: (says: Saying) => string;
}

export function levelTable(table: Levels): LevelTable {
  const sayings = new Map(table.sayings.map((s) => [s.says, s]));
  const outcomes = new Map(table.outcomes.map((o) => [o.outcome, o.level]));
  return {
    ofSaying: (says) => {
      const level = sayings.get(says)?.level;
      if (level === undefined) throw new Error(`the levels table does not know "${says}"`);
      return level === 'none' ? null : level;
    },
    ofOutcome: (outcome) => {
      const level = outcomes.get(outcome);
      if (level === undefined || level === 'none')
        throw new Error(`the levels table gives "${outcome}" no level`);
      return level;
    },
    wordsOf: (says) => sayings.get(says)?.words ?? says,
  };
}
