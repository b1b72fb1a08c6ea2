import type { Making } from '../compounding/making.ts';
import type { Directions } from '../folder/schema/formula.ts';
import { exact } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { day, gram, millilitre } from '../measure/units.ts';

/** Directions as figures: how much at once (mL of the strained liquid, or g of powder), how often, how long. */
export interface Taking {
  readonly dose: Figure<Quantity>;
  /** The herb in one dose, all ingredients together, in g. */
  readonly herb: Figure<Quantity>;
  readonly timesLeast: Figure<Quantity>;
  readonly timesMost: Figure<Quantity>;
  /** Doses in a week, at the most. */
  readonly timesAWeek: Figure<Quantity>;
  /** How long, in days; null where the directions set no end. */
  readonly course: Figure<Quantity> | null;
  /** Days on which it is taken during the course. */
  readonly days: Figure<Quantity> | null;
}

const TIMES = '1';

/**
 * The herb in a dose = herb in the pot x dose / strained volume; of a powder, the dose itself.
 * Times a day that are a range count at the high end for what is too much and for what is needed.
 */
export function takingOf(d: Directions, making: Making): Taking {
  const { dose, herb } = doseOf(d, making);
  const most = d.times?.high ?? d.times?.low ?? exact(1);
  const least = d.times?.low ?? exact(0);
  const timesMost = given(quantity(most, TIMES), 'times a day, from the directions');
  const timesLeast = least.eq(most)
    ? timesMost
    : given(quantity(least, TIMES), 'times a day at the least, from the directions');
  const daysAWeek = d.days_a_week ?? exact(7);
  const week = given(
    quantity(daysAWeek, day),
    d.days_a_week ? 'days a week, from the directions' : 'days a week',
  );
  const timesAWeek = worked(quantity(most.times(daysAWeek), TIMES), 'times a week', '{} x {}', [
    timesMost,
    week,
  ]);
  const course = d.for ? given(inUnit(d.for, day), 'course, from the directions') : null;
  const days =
    course &&
    (d.days_a_week
      ? worked(
          quantity(course.value.value.times(daysAWeek).div(7).ceil(), day),
          'days on which it is taken',
          '{} x {} / 7 days, rounded up',
          [course, week],
        )
      : course);
  return { dose, herb, timesMost, timesLeast, timesAWeek, course, days };
}

function doseOf(d: Directions, making: Making): { dose: Figure<Quantity>; herb: Figure<Quantity> } {
  if (making.kind === 'dry') {
    const amount = d.take.kind === 'measured' ? d.take.amount : quantity(0, gram);
    const taken = given(amount, 'dose, from the directions');
    const dose = amount.unit === gram ? taken : worked(inUnit(amount, gram), 'dose by mass', '{}', [taken]);
    return { dose, herb: dose };
  }
  const { strained, herb } = making.pot;
  const dose =
    d.take.kind === 'measured'
      ? given(inUnit(d.take.amount, millilitre), 'dose, from the directions')
      : worked(quantity(strained.value.value.times(d.take.share), millilitre), 'dose', '{} x {}', [
          strained,
          given(d.take.share, `share of a pot, from the directions (${d.take.text})`),
        ]);
  const value = herb.value.value.times(dose.value.value).div(strained.value.value);
  return {
    dose,
    herb: worked(quantity(value, gram), 'herb in a dose', '{} x {} / {}', [herb, dose, strained]),
  };
}
