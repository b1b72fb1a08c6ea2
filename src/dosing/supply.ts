import type { Making } from '../compounding/making.ts';
import { type Figure, worked } from '../measure/figure.ts';
import { minus, type Quantity, quantity, ratioOf, times } from '../measure/quantity.ts';
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
}

/** Whole pots a day that the directions call for: times x dose / strained volume, rounded up. */
export function potsADay(taking: Taking, making: Extract<Making, { kind: 'pot' }>): Figure<Quantity> {
  const { strained } = making.pot;
  const need = taking.timesMost.value.value.times(taking.dose.value.value).div(strained.value.value);
  // Thirds of a pot taken three times are one pot: the sixtieth digit must not ask for a second one.
  const pots = need.toDecimalPlaces(40).ceil();
  return worked(quantity(pots, '{pot}'), 'pots a day', '{} x {} / {}, rounded up to whole pots', [
    taking.timesMost,
    taking.dose,
    strained,
  ]);
}

/** Herb that one day takes, in g: whole pots for a tea, times x dose for a powder. */
export function herbADay(
  taking: Taking,
  making: Making,
): { herb: Figure<Quantity>; pots?: Figure<Quantity> } {
  if (making.kind === 'dry') {
    return {
      herb: worked(times(taking.herb.value, taking.timesMost.value.value), 'powder in a day', '{} x {}', [
        taking.timesMost,
        taking.herb,
      ]),
    };
  }
  const pots = potsADay(taking, making);
  return {
    herb: worked(times(making.pot.herb.value, pots.value.value), 'herb in a day', '{} x {}', [
      pots,
      making.pot.herb,
    ]),
    pots,
  };
}

/** Full days that `batch` lasts, what is over, and how many doses it holds. Rounded down to whole days and doses. */
export function supplyOf(batch: Figure<Quantity>, taking: Taking, making: Making): Supply {
  const { herb, pots } = herbADay(taking, making);
  const whole = ratioOf(batch.value, herb.value).toDecimalPlaces(40).floor();
  const days = worked(quantity(whole, day), 'full days that it lasts', '{} / {}, rounded down', [
    batch,
    herb,
  ]);
  const over = worked(minus(batch.value, times(herb.value, whole)), 'left over', '{} - {} x {}', [
    batch,
    days,
    herb,
  ]);
  const doses = dosesIn(batch, taking, making);
  return { perDay: herb, ...(pots ? { potsADay: pots } : {}), days, over, doses };
}

/** Doses that one pot gives: strained volume / dose, rounded down. */
export function dosesAPot(taking: Taking, making: Extract<Making, { kind: 'pot' }>): Figure<Quantity> {
  const { strained } = making.pot;
  return worked(
    quantity(ratioOf(strained.value, taking.dose.value).toDecimalPlaces(40).floor(), '{dose}'),
    'whole doses in a pot',
    '{} / {}, rounded down',
    [strained, taking.dose],
  );
}

/** Whole doses in a batch: whole pots x whole doses a pot for a tea, batch / dose for a powder. */
export function dosesIn(batch: Figure<Quantity>, taking: Taking, making: Making): Figure<Quantity> {
  if (making.kind === 'dry') {
    return worked(
      quantity(ratioOf(batch.value, taking.herb.value).toDecimalPlaces(40).floor(), '{dose}'),
      'whole doses in the batch',
      '{} / {}, rounded down',
      [batch, taking.herb],
    );
  }
  const pots = potsIn(batch, making);
  const each = dosesAPot(taking, making);
  return worked(
    quantity(pots.value.value.times(each.value.value), '{dose}'),
    'whole doses in the batch',
    '{} x {}',
    [pots, each],
  );
}

export function potsIn(batch: Figure<Quantity>, making: Extract<Making, { kind: 'pot' }>): Figure<Quantity> {
  const { herb } = making.pot;
  return worked(
    quantity(ratioOf(batch.value, herb.value).toDecimalPlaces(40).floor(), '{pot}'),
    'whole pots in the batch',
    '{} / {}, rounded down',
    [batch, herb],
  );
}
