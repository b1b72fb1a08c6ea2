import { markerOf } from '../dosing/applies.ts';
import type { Against } from '../dosing/compare.ts';
import { addUp } from '../measure/add-up.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import {
  comparable,
  compareQuantities,
  plus,
  type Quantity,
  quantity,
  ratioOf,
} from '../measure/quantity.ts';
import { gram } from '../measure/units.ts';
import { type Case, herbsOf } from './case.ts';
import { type Portion, regimen } from './regimen.ts';

/** What herbs come to together when each is counted as a share of the most of it in a day. */
export interface Shares {
  /** In per cent; 100 % is the whole of one maximum. */
  readonly sum: Figure<Quantity>;
  /** Every maximum is a limit for safety, and none only customary. */
  readonly safety: boolean;
}

/**
 * The sum of daily amount over highest comparable published amount; null where one of the herbs lacks either.
 * Rule: of drugs of similar action each is reduced in proportion (Food and Drug Regulations, Canada, C.01.021).
 */
export function sharesTaken(herbs: readonly string[], c: Case): Shares | null {
  const each = herbs.map((herb) => shareOf(herb, c));
  const known = each.filter((s) => s !== null);
  if (known.length < each.length || known.length === 0) return null;
  const inputs = known.flatMap((s) => [s.taken, s.most]);
  const total = known
    .map((s) => quantity(ratioOf(s.taken.value, s.most.value).times(100), '%'))
    .reduce((a, b) => plus(a, b));
  const by = known.map(() => '{} / {}').join(' + ');
  return {
    sum: worked(total, 'shares of the most in a day', by, inputs),
    safety: known.every((s) => s.safety),
  };
}

interface Share {
  readonly taken: Figure<Quantity>;
  readonly most: Figure<Quantity>;
  readonly safety: boolean;
}

function shareOf(herb: string, c: Case): Share | null {
  const taken = dailyOf(regimen(c).filter((p) => p.herb === herb));
  if (taken === null) return null;
  const limits = herbsOf(c)
    .filter((h) => h.herb === herb)
    .flatMap((h) => h.compared)
    .filter((x) => markerOf(x.entry) === null)
    .flatMap((x) => x.against.flatMap((a) => highest(a, x.entry.limit === 'safety')));
  const [first, ...others] = limits.filter((l) => comparable(l.most.unit, taken.value.unit));
  if (first === undefined) return null;
  const { most, source, safety } = others.reduce(
    (a, b) => (compareQuantities(b.most, a.most) > 0 ? b : a),
    first,
  );
  return { taken, most: given(most, `the most of ${herb} in a day`, source), safety };
}

const highest = (a: Against, safety: boolean) => {
  const most = a.published.value.high;
  return a.measure === 'daily' && most ? [{ most, source: a.published.step.source, safety }] : [];
};

/** What of a herb is taken in a day over everything; null where one amount is not known, or is no weight. */
export function dailyOf(portions: readonly Portion[]): Figure<Quantity> | null {
  const figures = portions.flatMap((p) => (p.daily ? [p.daily] : []));
  const [first] = figures;
  if (!first || figures.length < portions.length) return null;
  if (!figures.every((f) => comparable(f.value.unit, gram))) return null;
  if (figures.length === 1) return first;
  return addUp(figures, `${portions[0]?.herb} in a day, over everything taken`);
}
