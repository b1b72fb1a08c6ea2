import { type Balance, COMMON_BALANCE } from '../compounding/weighing.ts';
import { type Measures, NO_MEASURES, ownMeasure } from '../measure/parse.ts';
import type { Quantity } from '../measure/quantity.ts';
import { ambiguousWord } from '../measure/units.ts';
import type { Practice } from './schema/practice.ts';
import { settledUnit } from './settled.ts';

/** What a practice has settled, with the common defaults where it has said nothing. */
export interface Settings {
  readonly practice: string | null;
  readonly jurisdiction: string | null;
  readonly measures: Measures;
  readonly balance: Balance;
  readonly boilsOff?: Quantity | undefined;
  readonly holds?: Quantity | undefined;
  /** How long an answer stays good, by question. */
  readonly answers: ReadonlyMap<string, Quantity>;
}

export const DEFAULT_SETTINGS: Settings = {
  practice: null,
  jurisdiction: null,
  measures: NO_MEASURES,
  balance: COMMON_BALANCE,
  answers: new Map(),
};

/** Turns a valid practice.yaml into settings. */
export function settingsOf(p: Practice): Settings {
  const settled = Object.entries(p.settled ?? {}).flatMap(([word, meaning]) => {
    const unit = settledUnit(word, meaning);
    return unit ? [[ambiguousWord(word)?.word ?? word, unit] as const] : [];
  });
  return {
    practice: p.practice ?? null,
    jurisdiction: p.jurisdiction ?? null,
    measures: {
      settled: new Map(settled),
      own: new Map(
        Object.entries(p.measures ?? {}).map(([name, size]) => [name.toLowerCase(), ownMeasure(name, size)]),
      ),
    },
    balance: {
      step: p.balance?.step ?? COMMON_BALANCE.step,
      sensitivity: p.balance?.sensitivity ?? p.balance?.step ?? COMMON_BALANCE.sensitivity,
      permittedError: p.balance?.permitted_error ?? COMMON_BALANCE.permittedError,
    },
    boilsOff: p.water?.boils_off,
    holds: p.water?.holds,
    answers: new Map(Object.entries(p.answers ?? {})),
  };
}
