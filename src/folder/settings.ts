import { COMMON_BALANCE, COMMON_CYLINDER, type Instrument } from '../compounding/weighing.ts';
import { type Measures, NO_MEASURES, ownMeasure } from '../measure/parse.ts';
import { over, type Quantity, quantity } from '../measure/quantity.ts';
import { ambiguousWord } from '../measure/units.ts';
import type { Practice } from './schema/practice.ts';
import { settledUnit } from './settled.ts';

/** What a practice has settled, with the common defaults where it has said nothing. */
export interface Settings {
  readonly practice: string | null;
  readonly contact: string | null;
  /** How long things are kept here, by form or kind of preparation. */
  readonly keeps: ReadonlyMap<string, Quantity>;
  readonly jurisdiction: string | null;
  readonly measures: Measures;
  readonly balance: Instrument;
  readonly cylinder: Instrument;
  /** How far apart strengths in one bottle must stand for a word about a sediment; the practice's own figure. */
  readonly sediment: Quantity;
  /** The bottles that the practice dispenses in, if it says so. */
  readonly bottles: readonly Quantity[] | null;
  readonly boilsOff?: Quantity | undefined;
  readonly holds?: Quantity | undefined;
  /** How long an answer stays good, by question. */
  readonly answers: ReadonlyMap<string, Quantity>;
}

/** Common practice, without a source: a difference that is worth a word. */
const COMMON_SEDIMENT = quantity(30, '%{v/v}');

export const DEFAULT_SETTINGS: Settings = {
  practice: null,
  contact: null,
  keeps: new Map(),
  jurisdiction: null,
  measures: NO_MEASURES,
  balance: COMMON_BALANCE,
  cylinder: COMMON_CYLINDER,
  sediment: COMMON_SEDIMENT,
  bottles: null,
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
    contact: p.contact ?? null,
    keeps: new Map(Object.entries(p.keeps ?? {})),
    jurisdiction: p.jurisdiction ?? null,
    measures: {
      settled: new Map(settled),
      own: new Map(
        Object.entries(p.measures ?? {}).map(([name, size]) => [name.toLowerCase(), ownMeasure(name, size)]),
      ),
    },
    balance: {
      name: 'balance',
      step: p.balance?.step ?? COMMON_BALANCE.step,
      sensitivity: p.balance?.sensitivity ?? p.balance?.step ?? COMMON_BALANCE.sensitivity,
      permittedError: p.balance?.permitted_error ?? COMMON_BALANCE.permittedError,
    },
    cylinder: {
      name: 'cylinder',
      step: p.cylinder?.step ?? COMMON_CYLINDER.step,
      sensitivity: p.cylinder?.sensitivity ?? half(p.cylinder?.step) ?? COMMON_CYLINDER.sensitivity,
      permittedError: p.cylinder?.permitted_error ?? COMMON_CYLINDER.permittedError,
    },
    sediment: p.sediment_from ?? COMMON_SEDIMENT,
    bottles: p.bottles ?? null,
    boilsOff: p.water?.boils_off,
    holds: p.water?.holds,
    answers: new Map(Object.entries(p.answers ?? {})),
  };
}

/** A cylinder is read to half of its step. */
const half = (step: Quantity | undefined): Quantity | undefined => step && over(step, 2);
