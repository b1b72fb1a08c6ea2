import { markerIn } from '../dosing/marker.ts';
import { citeIn } from '../folder/cite-in.ts';
import type { IntakeLimits } from '../folder/schema/reference.ts';
import { addUp } from '../measure/add-up.ts';
import { withinBand } from '../measure/age.ts';
import { type Cited, type Figure, given, worked } from '../measure/figure.ts';
import { compareQuantities, inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { kilogram, milligram, per } from '../measure/units.ts';
import type { Case } from './case.ts';
import type { Portion } from './regimen.ts';
import { pregnancyOf } from './when.ts';

/** What of a constituent is taken, and how much of it a person may take. */

export type Limit = IntakeLimits['limits'][number];
export type Side = 'single' | 'daily';

/** A limit as it stands for this person. */
export interface MayTake {
  readonly limit: Limit;
  readonly most: Figure<Quantity>;
  readonly source: Cited;
}

/** Without a person an adult is meant, who is not pregnant. */
export function isForThem({ ages, expecting }: Limit, c: Case): boolean {
  const { person } = c;
  if (expecting) {
    const nursing = person?.breastfeeding.given === true && person.breastfeeding.value;
    if (!person || (pregnancyOf(person, c) !== true && !nursing)) return false;
  }
  if (ages === undefined) return true;
  return person?.birth ? withinBand(person.birth, ages, c.on) !== false : ages.under === null;
}

export function holds(
  { herb, monograph }: Pick<Portion, 'herb' | 'monograph'>,
  { herbs, counts }: Limit,
): boolean {
  return (
    herbs.includes(herb) ||
    (monograph?.constituents ?? []).some((x) => x.in === undefined && counts.includes(x.name))
  );
}

export const sideOf = (limit: Limit): Side => (limit.single ? 'single' : 'daily');

/** The limit for this person; null where it goes by a weight that is not known, which is asked. */
export function mayTake(limit: Limit, c: Case): MayTake | null {
  const source = citeIn(c.intake, limit);
  const fixed = limit.single ?? limit.daily;
  const says = `${limit.id}, most ${limit.single ? 'at once' : 'in a day'}`;
  if (fixed) return { limit, most: given(fixed, says, source), source };
  const weight = c.person?.weight;
  const { daily_per_kg: perKg } = limit;
  if (!perKg || !weight) return null;
  const rated = given(perKg, `${limit.id}, most in a day for each kg`, source);
  const rate = inUnit(perKg, per(milligram, kilogram)).value;
  const value = quantity(rate.times(inUnit(weight, kilogram).value), milligram);
  const most = worked(value, says, '{} x {}', [rated, given(weight, 'body weight')]);
  return { limit, most, source };
}

export interface Taken {
  readonly least: Figure<Quantity> | null;
  /** Null where the content of any of them is open at this end. */
  readonly most: Figure<Quantity> | null;
  /** By the highest content that is stated of each. */
  readonly highestStated: Figure<Quantity> | null;
}

/** What of the constituents that a limit counts is in these portions, at once or in a day. */
export function takenOf(limit: Limit, portions: readonly Portion[], side: Side): Taken {
  const each = portions.flatMap((p) =>
    limit.counts.map((marker) => {
      const amount = p[side];
      return p.monograph && amount ? markerIn(p.monograph, marker, amount, milligram) : null;
    }),
  );
  const when = side === 'single' ? 'at once' : 'in a day';
  const lows = each.flatMap((b) => b?.least ?? []);
  const highs = each.flatMap((b) => b?.most ?? []);
  const stated = each.flatMap((b) => b?.highestStated ?? []);
  return {
    least: sum(lows, `${limit.id} ${when}, at the least`),
    most: highs.length === each.length ? sum(highs, `${limit.id} ${when}, at the most`) : null,
    highestStated: sum(stated, `${limit.id} ${when}, by the highest content stated`),
  };
}

const sum = (figures: readonly Figure<Quantity>[], says: string): Figure<Quantity> | null =>
  figures.length > 1 ? addUp(figures, says) : (figures[0] ?? null);

/** Above; of a limit that is strict, as much is too much. */
export function isAbove(taken: Figure<Quantity>, { most, limit }: MayTake): boolean {
  const apart = compareQuantities(taken.value, most.value);
  return limit.strict === true ? apart >= 0 : apart > 0;
}
