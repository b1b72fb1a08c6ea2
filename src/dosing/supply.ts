import type { Making } from '../compounding/making.ts';
import type { Product } from '../compounding/product.ts';
import { type Exact, one } from '../measure/exact.ts';
import { type Figure, worked } from '../measure/figure.ts';
import { compareQuantities, minus, type Quantity, quantity, ratioOf, times } from '../measure/quantity.ts';
import { roundTo } from '../measure/round.ts';
import { day } from '../measure/units.ts';
import type { Taking } from './directions.ts';

/** How long a batch lasts. */
export interface Supply {
  /** What one day takes from the batch. */
  readonly perDay: Figure<Quantity>;
  /** Whole pots to make in a day, for teas, because a pot keeps for no more than a day. */
  readonly potsADay?: Figure<Quantity>;
  /** Full days, rounded down. */
  readonly days: Figure<Quantity>;
  readonly over: Figure<Quantity>;
  readonly doses: Figure<Quantity>;
  /** What there is to take from: herb or powder by weight, or the finished product. */
  readonly inHand: Figure<Quantity>;
  /** What the whole course takes of a product, and the smallest bottle that holds it; null without a course. */
  readonly course: { readonly needs: Figure<Quantity>; readonly bottle: Figure<Quantity> | null } | null;
}

type InPots = Extract<Making, { kind: 'pot' }>;

/** Whole ones, rounded down; a third taken three times counts as one whole. */
const whole = (n: Exact): Exact => roundTo(n, one, 'down');

/** Whole pots a day that the directions call for: times x dose / strained volume, rounded up. */
export function potsADay(taking: Taking, making: InPots): Figure<Quantity> {
  const { timesMost, dose } = taking;
  const { strained } = making.pot;
  const need = timesMost.value.value.times(dose.value.value).div(strained.value.value);
  const by = '{} x {} / {}, rounded up to whole pots';
  return worked(quantity(roundTo(need, one, 'up'), '{pot}'), 'pots a day', by, [timesMost, dose, strained]);
}

/** What one day takes of the lines: whole pots for a tea, times x dose for all else. */
export function herbADay(
  taking: Taking,
  making: Making,
): { herb: Figure<Quantity>; pots?: Figure<Quantity> } {
  if (making.kind !== 'pot') {
    const value = times(taking.herb.value, taking.timesMost.value.value);
    const says = making.kind === 'dry' ? 'powder in a day' : 'of the batch in a day';
    return { herb: worked(value, says, '{} x {}', [taking.timesMost, taking.herb]) };
  }
  const pots = potsADay(taking, making);
  const value = times(making.pot.herb.value, pots.value.value);
  return { herb: worked(value, 'herb in a day', '{} x {}', [pots, making.pot.herb]), pots };
}

/** Full days that `batch` lasts, what is over, and how many doses it holds. Rounded down to whole days and doses. */
export function supplyOf(
  batch: Figure<Quantity>,
  taking: Taking,
  making: Making,
  bottles: readonly Quantity[],
): Supply {
  if (making.kind === 'product') return supplyOfProduct(taking, making, bottles);
  const { herb, pots } = herbADay(taking, making);
  return {
    perDay: herb,
    ...(pots ? { potsADay: pots } : {}),
    ...lasting(batch, herb),
    doses: dosesIn(batch, taking, making),
    inHand: batch,
    course: null,
  };
}

/** Full days that what is in hand lasts, and what is over then. */
function lasting(inHand: Figure<Quantity>, perDay: Figure<Quantity>): Pick<Supply, 'days' | 'over'> {
  const count = whole(ratioOf(inHand.value, perDay.value));
  const days = worked(quantity(count, day), 'full days that it lasts', '{} / {}, rounded down', [
    inHand,
    perDay,
  ]);
  const left = leftAfter(inHand.value, perDay.value, count);
  return { days, over: worked(left, 'left over', '{} - {} x {}', [inHand, days, perDay]) };
}

/** What so many days leave; a third of a drop times three is the whole, and no hair of it is left over. */
function leftAfter(all: Quantity, perDay: Quantity, days: Exact): Quantity {
  const left = minus(all, times(perDay, days));
  return { value: left.value.toDecimalPlaces(40), unit: left.unit };
}

/** Of a product: doses of what is in hand at the least, for the marc keeps some; whole capsules only. */
function supplyOfProduct(taking: Taking, product: Product, bottles: readonly Quantity[]): Supply {
  const { dose, timesMost, days: course } = taking;
  const least = product.yields?.value.low;
  const inHand =
    product.yields && least ? worked(least, 'in hand, at the least', '{}', [product.yields]) : product.makes;
  const perDay = worked(times(dose.value, timesMost.value.value), 'taken in a day', '{} x {}', [
    timesMost,
    dose,
  ]);
  const doses = worked(
    quantity(whole(ratioOf(inHand.value, dose.value)), '{dose}'),
    'whole doses in the batch',
    '{} / {}, rounded down',
    [inHand, dose],
  );
  return {
    perDay,
    ...lasting(inHand, perDay),
    doses,
    inHand,
    course: course && courseOf(course, perDay, bottles),
  };
}

/** What the course takes = days x what a day takes; the smallest bottle that holds it, of a liquid. */
function courseOf(
  course: Figure<Quantity>,
  perDay: Figure<Quantity>,
  bottles: readonly Quantity[],
): NonNullable<Supply['course']> {
  const needs = worked(times(perDay.value, course.value.value), 'needed for the course', '{} x {}', [
    course,
    perDay,
  ]);
  const isLiquid = perDay.value.unit.dimension === 'volume';
  const smallest = isLiquid ? bottles.find((b) => compareQuantities(b, needs.value) >= 0) : undefined;
  return {
    needs,
    bottle: smallest
      ? worked(smallest, 'smallest bottle for the course', 'the first that holds {}', [needs])
      : null,
  };
}

/**
 * Doses that the pots of one day give: pots x strained volume / dose, rounded down. The pots of a day are poured
 * together, so that five doses of two fifths come out of two pots; what a day leaves is not kept for the next.
 */
export function dosesFromADay(taking: Taking, making: InPots): Figure<Quantity> {
  return dosesFrom(potsADay(taking, making), taking, making, 'whole doses from the pots of a day');
}

function dosesFrom(pots: Figure<Quantity>, taking: Taking, making: InPots, says: string): Figure<Quantity> {
  const { strained } = making.pot;
  const count = whole(pots.value.value.times(strained.value.value).div(taking.dose.value.value));
  const inputs = [pots, strained, taking.dose];
  return worked(quantity(count, '{dose}'), says, '{} x {} / {}, rounded down', inputs);
}

/** Whole doses in a batch: for a tea those of each day's pots and of the pots left over, for a powder batch / dose. */
export function dosesIn(batch: Figure<Quantity>, taking: Taking, making: Making): Figure<Quantity> {
  const says = 'whole doses in the batch';
  if (making.kind !== 'pot') {
    const count = whole(ratioOf(batch.value, taking.herb.value));
    return worked(quantity(count, '{dose}'), says, '{} / {}, rounded down', [batch, taking.herb]);
  }
  const pots = potsIn(batch, making);
  const aDay = potsADay(taking, making);
  const each = dosesFromADay(taking, making);
  const days = whole(ratioOf(pots.value, aDay.value));
  const over = minus(pots.value, times(aDay.value, days));
  const rest = worked(over, 'pots left over from full days', '{} less full days of {}', [pots, aDay]);
  const last = dosesFrom(rest, taking, making, 'whole doses from the pots left over');
  const count = each.value.value.times(days).plus(last.value.value);
  return worked(quantity(count, '{dose}'), says, '{} from each {} of {}, and {}', [each, aDay, pots, last]);
}

export function potsIn(batch: Figure<Quantity>, making: InPots): Figure<Quantity> {
  const { herb } = making.pot;
  const count = whole(ratioOf(batch.value, herb.value));
  return worked(quantity(count, '{pot}'), 'whole pots in the batch', '{} / {}, rounded down', [batch, herb]);
}
