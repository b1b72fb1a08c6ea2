import { citeIn } from '../folder/cite-in.ts';
import type { AgeRules } from '../folder/schema/reference.ts';
import { ageOn, hasReached, type Ternary, withinBand, writeAgeBand } from '../measure/age.ts';
import type { Exact } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { compareQuantities, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { kilogram, per, percent } from '../measure/units.ts';
import { type Grown, INPUT_UNIT, inputOf } from './rule-input.ts';

export type { Grown } from './rule-input.ts';
export type AgeRule = AgeRules['rules'][number];

/** A rule's share of the adult dose, in per cent and never above 100; or why it gives none for this person. */
export type Share =
  | {
      readonly ok: true;
      readonly share: Figure<Quantity>;
      /** What the rule comes to, where that is above the adult dose. */
      readonly uncapped: Figure<Quantity> | null;
      /** The row taken, as its source prints it; of a rule that is no table null. */
      readonly row: string | null;
    }
  | { readonly ok: false; readonly why: string };

/**
 * The share of the adult dose by one rule, for an age inside the rule's own ages. Under 2 years only rules for infants
 * are reckoned. An edge of the ages or of a row that lies within what is known of the birth date is asked about.
 */
export function shareFor(rule: AgeRule, table: AgeRules, who: Grown): Share {
  const { age } = table.infants_under;
  const grown = rule.for_infants === true ? true : hasReached(who.birth, age.months, who.on);
  if (grown === false)
    return bad(`under ${age.text} only a rule for infants is reckoned (${forInfants(table)})`);
  const inAges = withinBand(who.birth, rule.ages, who.on);
  if (inAges === false) return bad(`it is for ${writeAgeBand(rule.ages)}`);
  if (grown === 'unknown' || inAges === 'unknown') return bad(ON_WHICH_DAY);
  const made = rule.bands ? rowFor(rule, table, who) : reckoned(rule, table, who);
  if (!made.ok) return made;
  const { share, row } = made.value;
  if (share.value.value.isZero()) return bad(comesToNothing(who));
  const whole = quantity(100, percent);
  if (compareQuantities(share.value, whole) <= 0) return { ok: true, share, uncapped: null, row };
  const capped = worked(whole, `${rule.name}, the adult dose at the most`, 'at the most 100 % of {}', [
    share,
  ]);
  return { ok: true, share: capped, uncapped: share, row };
}

const forInfants = ({ rules }: AgeRules): string =>
  rules
    .filter((r) => r.for_infants === true)
    .map((r) => r.id)
    .join(', ');

const ON_WHICH_DAY =
  'an edge of its ages lies within what is known of the birth date: on which day were they born?';

/** Only of somebody of no completed month, or of whom not even the months are known. */
function comesToNothing({ birth, on }: Grown): string {
  const { least, most } = ageOn(birth, on);
  return least === most
    ? 'it comes to nothing before the first month is completed'
    : 'it goes by months: say the date of birth, or the age in months';
}

/** A dose by a share of the adult's. */
export function byShare(adult: Figure<Quantity>, share: Figure<Quantity>, says: string): Figure<Quantity> {
  const value = quantity(adult.value.value.times(share.value.value).div(100), adult.value.unit);
  return worked(value, says, '{} x {}', [adult, share]);
}

interface Made {
  readonly share: Figure<Quantity>;
  readonly row: string | null;
}

function rowFor(rule: AgeRule, table: AgeRules, who: Grown): Result<Made> {
  const met = (rule.bands ?? []).map((row) => ({ row, holds: withinBand(who.birth, row.ages, who.on) }));
  const holding = (t: Ternary) => met.find((x) => x.holds === t);
  const sure = holding(true);
  if (sure === undefined)
    return bad(holding('unknown') === undefined ? 'it prints nothing for this age' : ON_WHICH_DAY);
  const { share, printed } = sure.row;
  const says = `${rule.name}, row "${printed}"`;
  return ok({ share: given(quantity(share.times(100), percent), says, citeIn(table, rule)), row: printed });
}

function reckoned(rule: AgeRule, table: AgeRules, who: Grown): Result<Made> {
  if (rule.input === 'band') return bad('it prints nothing for this age');
  const input = inputOf(rule.input, table, who);
  if (!input.ok) return input;
  const x = input.value.value.value;
  const unit = INPUT_UNIT[rule.input];
  const source = citeIn(table, rule);
  const constant = (n: Exact, of: string, as = unit): Figure<Quantity> =>
    given(quantity(n, as), `${rule.name}, ${of}`, source);
  const share = (value: Exact, by: string, inputs: readonly Figure[]): Result<Made> =>
    ok({
      share: worked(quantity(value, percent), `${rule.name}: share of the adult dose`, by, inputs),
      row: null,
    });
  if (rule.divisor)
    return share(x.times(100).div(rule.divisor), '{} / {}', [input.value, constant(rule.divisor, 'divisor')]);
  if (rule.plus)
    return share(x.times(100).div(x.plus(rule.plus)), '{} / ({} + {})', [
      input.value,
      input.value,
      constant(rule.plus, 'added to the age'),
    ]);
  const line = rule.percent?.find((l) => l.under === undefined || x.lt(l.under));
  if (line === undefined) return bad('it says nothing of this weight');
  const each = constant(line.times, 'for each kg', per(percent, kilogram));
  const value = x.times(line.times).plus(line.plus);
  if (line.plus.isZero()) return share(value, '{} x {}', [each, input.value]);
  return share(value, '{} x {} + {}', [each, input.value, constant(line.plus, 'added', percent)]);
}
