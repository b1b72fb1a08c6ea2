import { type Exact, exact, sum, zero } from './exact.ts';

/**
 * The one rounding module. Every figure is rounded once, at the balance, the measure or the label.
 * `half-even`: nearest, ties to the even multiple (ISO 80000-1 Annex B rule A, from memory; NIST SP 811 B.7).
 * `half-up`: nearest, ties to the larger (ISO 80000-1 Annex B rule B, from memory).
 * `down` for what must not exceed a limit, `up` for what must suffice.
 */
export type RoundingRule = 'half-even' | 'half-up' | 'down' | 'up';

const MODE = { up: 0, down: 1, 'half-up': 4, 'half-even': 6 } as const;

/**
 * How far a quotient is trusted. A third times three falls a 60th digit short of one, and rounding that down would
 * lose a whole step: 40 decimals decide, not 60.
 */
const settle = (quotient: Exact): Exact => quotient.toDecimalPlaces(40, MODE['half-even']);

/** Rounds to a multiple of `increment`, in the same unit as `value`; throws where the increment is not above 0. */
export function roundTo(value: Exact, increment: Exact, rule: RoundingRule): Exact {
  if (!increment.gt(0) || !value.isFinite())
    throw new RangeError('the increment must be above 0 and the value a number');
  return settle(value.div(increment)).toDecimalPlaces(0, MODE[rule]).times(increment);
}

export interface Share {
  /** Decides ties, so that the order in the file never matters. */
  readonly key: string;
  readonly weight: Exact;
  /** True where there may be less of it than the exact share, and never more. */
  readonly notAbove?: boolean;
}

/**
 * Shares out `total` (first rounded to `increment`, half to even) in proportion to the weights, in whole
 * increments, by largest remainder (Hamilton's method): everyone gets the whole increments of the exact share,
 * what is left goes one by one to the largest remainders, ties by key. The parts add up to the rounded total.
 * A share that may not be above its exact one gets its whole increments alone, neither more than its part of `total` as
 * it was given nor of the rounded one, and the others share out the rest; where there are no others, the parts add up to
 * less.
 * Throws on a negative total or weight, on weights that add up to nothing and on a key given twice: a part would
 * be lost and the batch come out short.
 */
export function allocate(total: Exact, shares: readonly Share[], increment: Exact): Map<string, Exact> {
  const steps = roundTo(total, increment, 'half-even').div(increment).toDecimalPlaces(0, MODE['half-even']);
  const weight = sum(shares.map((s) => s.weight));
  if (steps.lt(0) || shares.some((s) => !s.weight.gte(0))) throw new RangeError('a total or a share below 0');
  if (!weight.gt(0)) throw new RangeError('the shares add up to nothing');
  if (new Set(shares.map((s) => s.key)).size < shares.length) throw new RangeError('a share is given twice');
  const least = total.lt(steps.times(increment)) ? total.div(increment) : steps;
  const capped = new Map(
    shares.flatMap((s) =>
      s.notAbove ? [[s.key, wholeStepsOf(least.times(s.weight).div(weight))] as const] : [],
    ),
  );
  const others = shares.filter((s) => !capped.has(s.key));
  const free = byLargestRemainder(steps.minus(sum(capped.values())), others);
  return new Map(shares.map(({ key }) => [key, (capped.get(key) ?? free.get(key) ?? zero).times(increment)]));
}

const wholeStepsOf = (ideal: Exact): Exact => settle(ideal).toDecimalPlaces(0, MODE.down);

/** So many whole steps among these shares; nothing where none of them weighs anything. */
function byLargestRemainder(steps: Exact, shares: readonly Share[]): Map<string, Exact> {
  const weight = sum(shares.map((s) => s.weight));
  if (!weight.gt(0)) return new Map();
  const parts = shares.map((s) => {
    const ideal = settle(steps.times(s.weight).div(weight));
    const whole = wholeStepsOf(ideal);
    return { key: s.key, whole, remainder: ideal.minus(whole) };
  });
  let left = steps.minus(sum(parts.map((p) => p.whole)));
  const byRemainder = [...parts].sort(
    (a, b) => b.remainder.comparedTo(a.remainder) || (a.key < b.key ? -1 : a.key > b.key ? 1 : 0),
  );
  const extra = new Set<string>();
  for (const part of byRemainder) {
    if (left.lte(zero)) break;
    extra.add(part.key);
    left = left.minus(1);
  }
  return new Map(parts.map((p) => [p.key, p.whole.plus(extra.has(p.key) ? 1 : 0)]));
}

/** The decimals that an increment such as 0.1 or 0.25 needs. */
export function decimalsOf(increment: Exact): number {
  return exact(increment).decimalPlaces();
}
