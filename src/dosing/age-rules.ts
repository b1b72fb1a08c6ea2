import { citeIn } from '../folder/cite-in.ts';
import type { AgeRules } from '../folder/schema/reference.ts';
import { ageOn, type Birth, hasReached, withinBand, writeAgeBand } from '../measure/age.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import { type Exact, exact } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { compareQuantities, inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { kilogram, mustUnit, percent } from '../measure/units.ts';

export type AgeRule = AgeRules['rules'][number];

/** What rules of age reckon with, of a person. */
export interface Grown {
  readonly birth: Birth;
  readonly on: CalendarDate;
  readonly weight: Quantity | null;
  readonly height: Quantity | null;
}

/** A rule's share of the adult dose, in per cent and never above 100; or why it gives none for this person. */
export type Share =
  | { readonly ok: true; readonly share: Figure<Quantity>; readonly capped: boolean }
  | { readonly ok: false; readonly why: string };

const no = (why: string): Share => ({ ok: false, why });

/**
 * The share of the adult dose by one rule, for an age inside the rule's own ages. Where a month of birth leaves the age
 * open, the younger counts, unless an edge of the rule lies between. Under 2 years only rules for infants are reckoned.
 */
export function shareFor(rule: AgeRule, table: AgeRules, who: Grown): Share {
  const inAges = withinBand(who.birth, rule.ages, who.on);
  if (inAges === 'unknown') return no('on which day were they born? an edge of the rule lies in that month');
  if (!inAges) return no(`it is for ${writeAgeBand(rule.ages)}`);
  const { age } = table.infants_under;
  if (rule.for_infants !== true && hasReached(who.birth, age.months, who.on) !== true)
    return no(`under ${age.text} only a rule for infants is reckoned`);
  const share = rule.bands ? bandShare(rule, table, who) : reckoned(rule, table, who);
  if (typeof share === 'string') return no(share);
  const whole = quantity(100, percent);
  if (compareQuantities(share.value, whole) <= 0) return { ok: true, share, capped: false };
  return {
    ok: true,
    share: worked(whole, `${rule.name}, the adult dose at the most`, 'at the most 100 % of {}', [share]),
    capped: true,
  };
}

/** A dose by a share of the adult's. */
export function byShare(adult: Figure<Quantity>, share: Figure<Quantity>, says: string): Figure<Quantity> {
  const value = quantity(adult.value.value.times(share.value.value).div(100), adult.value.unit);
  return worked(value, says, '{} x {}', [adult, share]);
}

function bandShare(rule: AgeRule, table: AgeRules, who: Grown): Figure<Quantity> | string {
  const bands = rule.bands ?? [];
  const met = bands.map((b) => ({ b, holds: withinBand(who.birth, b.ages, who.on) }));
  const [sure] = met.filter((x) => x.holds === true);
  if (sure === undefined)
    return met.some((x) => x.holds === 'unknown')
      ? 'on which day were they born? an edge of the rule lies in that month'
      : 'it prints nothing for this age';
  const says = `${rule.name}: printed for ${writeAgeBand(sure.b.ages)}`;
  return given(quantity(sure.b.share.times(100), percent), says, citeIn(table, rule));
}

function reckoned(rule: AgeRule, table: AgeRules, who: Grown): Figure<Quantity> | string {
  const input = inputOf(rule, table, who);
  if (typeof input === 'string') return input;
  const x = input.value.value;
  const source = citeIn(table, rule);
  const says = `${rule.name}: share of the adult dose`;
  const number = (n: Exact, of: string): Figure<Quantity> => given(quantity(n, '1'), of, source);
  if (rule.divisor)
    return worked(quantity(x.times(100).div(rule.divisor), percent), says, '{} / {}', [
      input,
      number(rule.divisor, `${rule.name}, divisor`),
    ]);
  if (rule.plus)
    return worked(quantity(x.times(100).div(x.plus(rule.plus)), percent), says, '{} / ({} + {})', [
      input,
      input,
      number(rule.plus, `${rule.name}, added to the age`),
    ]);
  const line = rule.percent?.find((l) => l.under === undefined || x.lt(l.under));
  if (line === undefined) return 'it says nothing of this weight';
  return worked(quantity(x.times(line.times).plus(line.plus), percent), says, '{} % x {} + {} %', [
    number(line.times, `${rule.name}, per cent for each kg`),
    input,
    number(line.plus, `${rule.name}, per cent added`),
  ]);
}

const pound = mustUnit('[lb_av]');
const centimetre = mustUnit('cm');

/** A bare number in the unit that the rule names; or what is missing. */
function inputOf(rule: AgeRule, table: AgeRules, who: Grown): Figure<Quantity> | string {
  const { least } = ageOn(who.birth, who.on);
  const bare = (n: Exact | number, says: string): Figure<Quantity> => given(quantity(exact(n), '1'), says);
  const years = Math.floor(least / 12);
  switch (rule.input) {
    case 'completed years':
      return bare(years, 'age in completed years');
    case 'completed months':
      return bare(least, 'age in completed months');
    case 'age at the next birthday':
      return bare(years + 1, 'age at the next birthday');
    case 'weight in kg':
    case 'weight in lb': {
      const weight = plausible(who.weight, table.plausible.weight, 'weight');
      if (typeof weight === 'string') return weight;
      const inPounds = rule.input === 'weight in lb';
      return bare(
        inUnit(weight, inPounds ? pound : kilogram).value,
        inPounds ? 'weight in lb' : 'weight in kg',
      );
    }
    case 'surface in m2':
      return surfaceOf(table, who);
    case 'band':
      return 'it goes by bands of age';
  }
}

function plausible(
  value: Quantity | null,
  { low, high }: AgeRules['plausible']['height'],
  what: string,
): Quantity | string {
  if (value === null) return `the ${what} was not given`;
  const odd = (low && compareQuantities(value, low) < 0) || (high && compareQuantities(value, high) > 0);
  return odd ? `no person has this ${what}: which is it?` : value;
}

/** Mosteller: the square root of height in cm x weight in kg / 3,600, in square metres. */
function surfaceOf(table: AgeRules, who: Grown): Figure<Quantity> | string {
  const weight = plausible(who.weight, table.plausible.weight, 'weight');
  const height = plausible(who.height, table.plausible.height, 'height');
  if (typeof weight === 'string') return weight;
  if (typeof height === 'string') return height;
  const cm = inUnit(height, centimetre);
  const kg = inUnit(weight, kilogram);
  const value = cm.value.times(kg.value).div(3600).sqrt();
  return worked(
    quantity(value, '1'),
    'body surface in square metres, after Mosteller',
    'root of ({} x {} / 3,600)',
    [given(cm, 'height'), given(kg, 'weight')],
  );
}
