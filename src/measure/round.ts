import { type Exact, exact, sum, zero } from './exact.ts';

/**
 * The one rounding module. Every figure is rounded once, at the balance, the measure or the label.
 * `half-even`: nearest, ties to the even multiple (ISO 80000-1 Annex B rule A, from memory; NIST SP 811 B.7).
 * `half-up`: nearest, ties to the larger (ISO 80000-1 Annex B rule B, from memory).
 * `down` for what must not exceed a limit, `up` for what must suffice.
 */
export type RoundingRule = 'half-even' | 'half-up' | 'down' | 'up';

const MODE = { up: 0, down: 1, 'half-up': 4, 'half-even': 6 } as const;

/** Rounds to a multiple of `increment` (above 0). */
export function roundTo(value: Exact, increment: Exact, rule: RoundingRule): Exact {
  if (increment.lte(0)) throw new RangeError('the increment must be above 0');
  return value.div(increment).toDecimalPlaces(0, MODE[rule]).times(increment);
}

export interface Share {
  /** Decides ties, so that the order in the file never matters. */
  readonly key: string;
  readonly weight: Exact;
}

/**
 * Shares out `total` (first rounded to `increment`, half to even) in proportion to the weights, in whole
 * increments, by largest remainder (Hamilton's method): everyone gets the whole increments of the exact share,
 * what is left goes one by one to the largest remainders, ties by key. The parts add up to the rounded total.
 */
export function allocate(total: Exact, shares: readonly Share[], increment: Exact): Map<string, Exact> {
  const steps = roundTo(total, increment, 'half-even').div(increment).toDecimalPlaces(0, MODE['half-even']);
  const weight = sum(shares.map((s) => s.weight));
  if (weight.lte(0)) throw new RangeError('the shares add up to nothing');
  const parts = shares.map((s) => {
    const ideal = steps.times(s.weight).div(weight);
    // A quotient such as 1/3 x 3 may fall a 60th digit short of a whole step: 40 digits decide, not 60.
    const whole = ideal.toDecimalPlaces(40, MODE['half-even']).toDecimalPlaces(0, MODE.down);
    return { key: s.key, whole, remainder: ideal.minus(whole).toDecimalPlaces(40, MODE['half-even']) };
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
  return new Map(parts.map((p) => [p.key, p.whole.plus(extra.has(p.key) ? 1 : 0).times(increment)]));
}

/** The decimals that an increment such as 0.1 or 0.25 needs. */
export function decimalsOf(increment: Exact): number {
  return exact(increment).decimalPlaces();
}
