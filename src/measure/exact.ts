import { Decimal } from 'decimal.js';

/**
 * The one number type of every calculation: a private decimal.js constructor, so that no other library's
 * settings can change ours. 60 significant digits keep exact every legal unit definition and every quotient
 * to far below a microgram; rounding to something a person can weigh happens elsewhere, once.
 */
const Private = Decimal.clone({
  precision: 60,
  rounding: Decimal.ROUND_HALF_EVEN,
  toExpNeg: -60,
  toExpPos: 60,
});

export type Exact = Decimal;

/** Builds an exact number from decimal text, an integer or another exact number; never from a binary fraction. */
export function exact(value: string | number | Exact): Exact {
  if (typeof value === 'number' && !Number.isInteger(value)) {
    throw new TypeError(`${value} is a binary fraction: pass decimal text`);
  }
  return new Private(value);
}

export const zero = exact(0);
export const one = exact(1);

/** a x b / c, multiplied before divided so that a whole answer stays whole. */
export function timesOver(a: Exact, b: Exact, c: Exact): Exact {
  return a.times(b).div(c);
}

export function sum(values: Iterable<Exact>): Exact {
  let total = zero;
  for (const value of values) total = total.plus(value);
  return total;
}

export function least(values: readonly Exact[]): Exact | undefined {
  return values.reduce<Exact | undefined>((m, v) => (m === undefined || v.lt(m) ? v : m), undefined);
}

export function greatest(values: readonly Exact[]): Exact | undefined {
  return values.reduce<Exact | undefined>((m, v) => (m === undefined || v.gt(m) ? v : m), undefined);
}
