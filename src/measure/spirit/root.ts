import { type Exact, exact } from '../exact.ts';

/** A function's value and how fast it rises, at one place. */
export interface Point {
  readonly value: Exact;
  readonly slope: Exact;
}

/** Two places nearer than this are one; strengths are compared to 40 figures, and this is well below. */
const NEAR_ENOUGH = exact('1e-48');

/** Each step halves the bracket or the step before it: 0 to 1 is narrowed below `NEAR_ENOUGH` in 2 x 160 at the worst. */
const MOST_STEPS = 400;

/**
 * The place between `low` and `high` where a rising function passes 0, to 1e-48. Newton's steps double the correct
 * figures each time, so about seven evaluations do; a step that leaves the bracket, or that does not at least halve
 * the one before, is replaced by halving the bracket, so that it always ends.
 * The function must not be above 0 at `low` nor below 0 at `high`.
 */
export function risingRoot(at: (x: Exact) => Point, low: Exact, high: Exact): Exact {
  let [below, above] = [low, high];
  let x = below.plus(above).div(2);
  let before = above.minus(below);
  for (let step = 0; step < MOST_STEPS; step++) {
    const { value, slope } = at(x);
    if (value.isNaN()) throw new Error('the root of what is no number');
    if (value.isZero()) return x;
    if (value.lt(0)) below = x;
    else above = x;
    const newton = x.minus(value.div(slope));
    const quick = newton.minus(x).abs().times(2).lte(before);
    const inside = newton.gte(below) && newton.lte(above);
    const next = quick && inside ? newton : below.plus(above).div(2);
    before = next.minus(x).abs();
    if (before.lte(NEAR_ENOUGH)) return next;
    x = next;
  }
  throw new Error('a root inside a bracket was not found');
}
