import { citeIn } from '../folder/cite-in.ts';
import type { AgeRules } from '../folder/schema/reference.ts';
import { ageOn, type Birth, withinBand, writeAgeOn } from '../measure/age.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import { exact } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { kilogram, mustUnit, type Unit } from '../measure/units.ts';
import { write, writeRange } from '../measure/write.ts';
import { isAbove, isBelow } from './against.ts';

/** What rules of age reckon with, of a person. */
export interface Grown {
  readonly birth: Birth;
  readonly on: CalendarDate;
  readonly weight: Quantity | null;
  readonly height: Quantity | null;
}

type Input = AgeRules['rules'][number]['input'];

const year = mustUnit('a');
const month = mustUnit('mo');
const pound = mustUnit('[lb_av]');
const centimetre = mustUnit('cm');
const squareMetre = mustUnit('m2');

/** The unit of what a rule reckons with, and so of its divisor and of what it adds. Ages are counted by the calendar. */
export const INPUT_UNIT: Readonly<Record<Exclude<Input, 'band'>, Unit>> = {
  'completed years': year,
  'completed months': month,
  'age at the next birthday': year,
  'weight in kg': kilogram,
  'weight in lb': pound,
  'surface in m2': squareMetre,
};

/**
 * What the rule reckons with; or what is missing or not to be believed. Where a month of birth leaves the age open, the
 * younger counts: every rule gives the younger child less.
 */
export function inputOf(
  input: Exclude<Input, 'band'>,
  table: AgeRules,
  who: Grown,
): Result<Figure<Quantity>> {
  const { least } = ageOn(who.birth, who.on);
  const years = Math.floor(least / 12);
  const counted = (n: number, says: string): Result<Figure<Quantity>> =>
    ok(given(quantity(exact(n), INPUT_UNIT[input]), says));
  switch (input) {
    case 'completed years':
      return counted(years, 'age in completed years');
    case 'completed months':
      return counted(least, 'age in completed months');
    case 'age at the next birthday':
      return counted(years + 1, 'age at the next birthday');
    case 'weight in kg':
    case 'weight in lb':
      return measured('weight', INPUT_UNIT[input], table, who);
    case 'surface in m2':
      return surfaceOf(table, who);
  }
}

/** A weight or height in the unit that the rule names; asked about where nobody of the age is to be expected to have it. */
function measured(
  what: 'weight' | 'height',
  unit: Unit,
  table: AgeRules,
  who: Grown,
): Result<Figure<Quantity>> {
  const said = who[what];
  if (said === null) return bad(`the ${what} was not given`);
  const limits = table.plausible.filter((p) => withinBand(who.birth, p.ages, who.on) !== false);
  const strange = limits.filter((p) => isAbove(said, p[what]) || isBelow(said, p[what]));
  const [first] = strange;
  if (first !== undefined && strange.length === limits.length)
    return bad(
      `a ${what} of ${write(said)} is not to be expected at ${writeAgeOn(who.birth, who.on)} (${writeRange(first[what])}): which is it?`,
    );
  const whole = given(said, `${what}, as given`);
  return ok(
    said.unit === unit ? whole : worked(inUnit(said, unit), `${what} in ${unit.symbol}`, '{}', [whole]),
  );
}

/** Body surface after Mosteller: the root of height in cm x weight in kg / 3600, in square metres. */
function surfaceOf(table: AgeRules, who: Grown): Result<Figure<Quantity>> {
  const weight = measured('weight', kilogram, table, who);
  if (!weight.ok) return weight;
  const height = measured('height', centimetre, table, who);
  if (!height.ok) return height;
  const { root_over } = table.surface;
  const value = height.value.value.value.times(weight.value.value.value).div(root_over).sqrt();
  const source = citeIn(table, table.surface);
  return ok(
    worked(
      quantity(value, squareMetre),
      'body surface, after Mosteller',
      'root of ({} x {} / {})',
      [height.value, weight.value, given(root_over, 'divisor of Mosteller')],
      source,
    ),
  );
}
