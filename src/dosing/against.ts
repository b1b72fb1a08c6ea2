import type { Figure } from '../measure/figure.ts';
import {
  comparable,
  compareQuantities,
  isSingleFigure,
  type Quantity,
  type Range,
  rangeUnit,
} from '../measure/quantity.ts';
import type { HerbDose } from './equivalents.ts';
import type { Measure, Published } from './published.ts';

export type Outcome = 'below' | 'within' | 'above';

/** One figure of an entry against the same figure of the dose. */
export interface Against {
  readonly measure: Measure;
  readonly dose: Figure<Quantity>;
  readonly published: Figure<Range>;
  readonly outcome: Outcome;
  /** One printed figure is a usual dose, not a range with a top. */
  readonly usual: boolean;
  /** The source prints single dose and times a day, and this is their product. */
  readonly implied: boolean;
}

/** The dose of the herb against every published figure that counts what the dose counts. */
export function herbAgainst(dose: HerbDose, published: readonly Published[]): Against[] {
  return published.flatMap((p) => {
    const taken = takenAs(dose, p.measure);
    return comparable(rangeUnit(p.range.value), taken.value.unit)
      ? [against(p, taken, outcomeOf(taken.value, p.range.value))]
      : [];
  });
}

export function against(p: Published, dose: Figure<Quantity>, outcome: Outcome): Against {
  const { measure, range, implied } = p;
  return { measure, dose, published: range, outcome, usual: isSingleFigure(range.value), implied };
}

export function takenAs(dose: HerbDose, measure: Measure): Figure<Quantity> {
  switch (measure) {
    case 'single':
      return dose.single;
    case 'daily':
      return dose.daily;
    case 'weekly':
      return dose.weekly;
    case 'times a day':
      return dose.timesADay;
    case 'times a week':
      return dose.timesAWeek;
  }
}

export const isAbove = (q: Quantity, { high }: Range): boolean =>
  high !== null && compareQuantities(q, high) > 0;

export const isBelow = (q: Quantity, { low }: Range): boolean =>
  low !== null && compareQuantities(q, low) < 0;

function outcomeOf(taken: Quantity, range: Range): Outcome {
  if (isAbove(taken, range)) return 'above';
  return isBelow(taken, range) ? 'below' : 'within';
}
