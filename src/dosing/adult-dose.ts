import type { Monograph } from '../folder/schema/monograph.ts';
import { type Figure, worked } from '../measure/figure.ts';
import { comparable, inUnit, type Quantity, ratioOf } from '../measure/quantity.ts';
import type { Against } from './against.ts';
import { markerOf } from './applies.ts';
import { type Compared, compare } from './compare.ts';
import type { HerbDose } from './equivalents.ts';

/** A published dose for adults that an age rule may scale: the top of the strictest entry, at once or in a day. */
export interface AdultFigure {
  readonly top: Figure<Quantity>;
  /** What the formula gives, counted as the entry counts it: herb, dried herb of fresh, or mL of what was drawn out. */
  readonly formula: Figure<Quantity>;
  readonly against: Against;
  readonly compared: Compared;
}

export interface AdultDose {
  readonly single: AdultFigure | null;
  readonly daily: AdultFigure | null;
}

/**
 * The adult doses that can be compared with this preparation. Entries may count grams of herb or mL of liquid, so the
 * strictest is the one that the formula's own dose fills the most. A constituent that an entry counts is no dose.
 */
export function adultDose(m: Monograph, dose: HerbDose): AdultDose {
  const compared = compare(m, dose, null);
  return { single: strictest(compared, 'single', dose), daily: strictest(compared, 'daily', dose) };
}

function strictest(
  compared: readonly Compared[],
  measure: 'single' | 'daily',
  { herb }: HerbDose,
): AdultFigure | null {
  const figures = compared
    .filter((x) => markerOf(x.entry) === null)
    .flatMap((x) => x.against.flatMap((a) => (a.measure === measure ? topOf(x, a, herb) : [])));
  const room = (f: AdultFigure) => ratioOf(f.top.value, f.formula.value);
  const before = (a: AdultFigure, b: AdultFigure): number =>
    room(a).comparedTo(room(b)) || (a.compared.cited.key < b.compared.cited.key ? -1 : 1);
  return figures.toSorted(before)[0] ?? null;
}

function topOf(compared: Compared, against: Against, herb: string): AdultFigure[] {
  const { published, dose, usual, measure } = against;
  const { high } = published.value;
  if (high === null || !comparable(high.unit, dose.value.unit)) return [];
  const says = `adult dose of ${herb}, ${measure}: ${usual ? 'the usual dose' : 'the top of the range'}`;
  const formula =
    dose.value.unit === high.unit
      ? dose
      : worked(inUnit(dose.value, high.unit), `${dose.step.says}, in ${high.unit.symbol}`, '{}', [dose]);
  return [{ top: worked(high, says, '{}', [published]), formula, against, compared }];
}
