import type { Making } from '../compounding/making.ts';
import type { Product } from '../compounding/product.ts';
import type { Directions, Take } from '../folder/schema/formula.ts';
import { type Exact, exact, least, one, sum } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { dropsToVolume, massToVolume, volumeToMass } from '../measure/liquid.ts';
import { inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { roundTo } from '../measure/round.ts';
import { day, gram, millilitre, type Unit } from '../measure/units.ts';
import { write } from '../measure/write.ts';

/** Directions as figures: how much at once (mL of a liquid, g of a powder, capsules), how often, how long. */
export interface Taking {
  readonly dose: Figure<Quantity>;
  /** The lines in one dose, all together: g of herb, or mL of what is poured together. */
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
 * The herb in a dose = herb in the pot x dose / strained volume; of a powder, the dose itself; of a product, its lines x
 * dose / what they come to. Null where it is put on the skin without measure.
 * Times a day that are a range count at the high end for what is too much and for what is needed.
 * Errors: no number of times at the most, for then no daily dose can be told; and a dose that is never taken.
 */
export function takingOf(d: Directions, making: Making): Result<Taking | null> {
  if (d.take === undefined) return ok(null);
  const most = d.times?.high;
  if (!most) return bad('how many times a day at the most? Write such as times: 3 or times: 2-4');
  if (!most.gt(0)) return bad('times: 0 is no dose at all: write how many times a day');
  const taken = doseOf(d.take, making);
  if (!taken.ok) return taken;
  const fewest = d.times?.low ?? exact(0);
  const timesMost = given(quantity(most, TIMES), 'times a day, from the directions');
  const timesLeast = fewest.eq(most)
    ? timesMost
    : given(quantity(fewest, TIMES), 'times a day at the least, from the directions');
  const daysAWeek = d.days_a_week ?? exact(7);
  const week = given(
    quantity(daysAWeek, day),
    d.days_a_week ? 'days a week, from the directions' : 'days a week',
  );
  const course = d.for ? given(inUnit(d.for, day), 'course, from the directions') : null;
  const days = course && daysTaken(course, d.days_a_week ? week : null);
  // A course of two days is two days of any week.
  const daysOfWeek = days?.value.value.lt(daysAWeek) ? days : week;
  const timesAWeek = worked(quantity(most.times(daysOfWeek.value.value), TIMES), 'times a week', '{} x {}', [
    timesMost,
    daysOfWeek,
  ]);
  return ok({
    ...taken.value,
    timesMost,
    timesLeast,
    timesAWeek,
    course,
    days,
  });
}

/**
 * Days on which it is taken, at the most, as whole days: all of the course, or so many of each full week and, as a
 * last week may start with them, up to as many of the days that are left.
 */
function daysTaken(course: Figure<Quantity>, week: Figure<Quantity> | null): Figure<Quantity> {
  const days = roundTo(course.value.value, one, 'up');
  if (week === null)
    return days.eq(course.value.value)
      ? course
      : worked(quantity(days, day), 'days on which it is taken', '{}, rounded up to whole days', [course]);
  const weeks = roundTo(days.div(7), one, 'down');
  const last = least([days.minus(weeks.times(7)), week.value.value]) as Exact;
  const taken = roundTo(sum([weeks.times(week.value.value), last]), one, 'up');
  return worked(quantity(taken, day), 'days on which it is taken, at the most', '{}, of each 7 days {}', [
    course,
    week,
  ]);
}

type Dose = { dose: Figure<Quantity>; herb: Figure<Quantity> };

function doseOf(take: Take, making: Making): Result<Dose> {
  if (making.kind === 'dry') {
    if (take.kind !== 'measured') return bad('a powder is taken by mass: write such as take: 2 g');
    const dose = measured(take.amount, gram);
    return ok({ dose, herb: dose });
  }
  if (making.kind === 'product') return doseOfProduct(take, making);
  const { strained, herb } = making.pot;
  const dose =
    take.kind === 'measured'
      ? measured(take.amount, millilitre)
      : worked(quantity(strained.value.value.times(take.share), millilitre), 'dose', '{} x {}', [
          strained,
          given(take.share, `share of a pot, from the directions (${take.text})`),
        ]);
  const value = herb.value.value.times(dose.value.value).div(strained.value.value);
  return ok({
    dose,
    herb: worked(quantity(value, gram), 'herb in a dose', '{} x {} / {}', [herb, dose, strained]),
  });
}

/** Lines in a dose = lines x dose / what they come to. */
function doseOfProduct(take: Take, product: Product): Result<Dose> {
  if (take.kind !== 'measured') return bad('a share of the batch fits a pot of tea: write an amount');
  const { base, makes, lineUnit } = product;
  const dose = inMeasureOf(take.amount, product);
  if (!dose.ok) return dose;
  const value = base.value.value.times(dose.value.value.value).div(makes.value.value);
  const says = lineUnit === gram ? 'of the herbs in a dose' : 'of the blend in a dose';
  return ok({
    dose: dose.value,
    herb: worked(quantity(value, lineUnit), says, '{} x {} / {}', [base, dose.value, makes]),
  });
}

/** The dose in the unit that the product is measured in: drops by the count per mL, mL and g by the density. */
function inMeasureOf(amount: Quantity, { makes, density, dropsPerMl }: Product): Result<Figure<Quantity>> {
  const { unit } = makes.value;
  const taken = given(amount, 'dose, from the directions');
  if (amount.unit.dimension === unit.dimension) return ok(measured(amount, unit));
  if (amount.unit.dimension === 'drops' && dropsPerMl !== null) {
    const volume = dropsToVolume(amount, dropsPerMl.value);
    return volume.ok ? ok(worked(volume.value, 'dose in mL', '{} / {}', [taken, dropsPerMl])) : volume;
  }
  if (density !== null) {
    const turned = unit === gram ? volumeToMass(amount, density.value) : massToVolume(amount, density.value);
    const by = unit === gram ? '{} x {}' : '{} / {}';
    return turned.ok ? ok(worked(turned.value, `dose in ${unit.symbol}`, by, [taken, density])) : turned;
  }
  return bad(`a dose of ${write(amount)} cannot be measured here: write it in ${unit.symbol}`);
}

/** A measured dose in g or mL; in the working it stays the spoon or cup that the directions name. */
function measured(amount: Quantity, unit: Unit): Figure<Quantity> {
  const taken = given(amount, 'dose, from the directions');
  return amount.unit === unit ? taken : worked(inUnit(amount, unit), `dose in ${unit.symbol}`, '{}', [taken]);
}
