import type { Figure } from '../measure/figure.ts';
import {
  comparable,
  compareQuantities,
  isSingleFigure,
  type Quantity,
  type Range,
  rangeUnit,
} from '../measure/quantity.ts';
import type { Amounts, HerbDose } from './equivalents.ts';
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
  return publishedAgainst(dose, dose.amounts, published);
}

/** As `herbAgainst`, with the amounts of whatever the figures count: the herb, or the liquid that it was drawn out as. */
export function publishedAgainst(
  dose: HerbDose,
  amounts: Amounts | null,
  published: readonly Published[],
): Against[] {
  return published.flatMap((p) =>
    takenAs(dose, amounts, p.measure)
      .filter((taken) => comparable(rangeUnit(p.range.value), taken.value.unit))
      .slice(0, 1)
      .map((taken) => against(p, taken, outcomeOf(taken.value, p.range.value))),
  );
}

export function against(p: Published, dose: Figure<Quantity>, outcome: Outcome): Against {
  const { measure, range, implied } = p;
  return { measure, dose, published: range, outcome, usual: isSingleFigure(range.value), implied };
}

/** The same published figure against another amount, such as what is taken of the herb in all. */
export function againstTaken(a: Against, taken: Figure<Quantity>): Against {
  return { ...a, dose: taken, outcome: outcomeOf(taken.value, a.published.value) };
}

/** What is taken, by what the figure limits; nothing where it is put on the skin without measure. */
export function takenAs(
  dose: HerbDose,
  amounts: Amounts | null,
  measure: Measure,
): readonly Figure<Quantity>[] {
  const known = (f: Figure<Quantity> | null | undefined): Figure<Quantity>[] => (f ? [f] : []);
  switch (measure) {
    case 'single':
      return known(amounts?.single);
    case 'daily':
      return known(amounts?.daily);
    case 'weekly':
      return known(amounts?.weekly);
    case 'concentration':
      return dose.concentrations;
    case 'times a day':
      return known(dose.timesADay);
    case 'times a week':
      return known(dose.timesAWeek);
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
