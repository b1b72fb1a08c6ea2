import { addMoney, type Money } from '../measure/money.ts';
import { ratioOf } from '../measure/quantity.ts';
import type { DrawnLine } from './draw.ts';
import type { Stock } from './stock.ts';

/** What the lots of a batch cost, and what of it has no price and is not in the sum. */
export interface Cost {
  readonly sums: readonly Money[];
  readonly without: readonly string[];
}

/** price of the lot x drawn / booked in, summed; each currency by itself. */
export function costOf(lines: readonly DrawnLine[], stock: Stock): Cost {
  const prices: Money[] = [];
  const without: string[] = [];
  for (const { need, draws } of lines) {
    const priced = draws.map(({ lot, amount }): Money | null => {
      const from = stock.get(lot)?.from;
      if (from?.kind !== 'lot' || !from.price) return null;
      return { amount: from.price.amount.times(ratioOf(amount, from.amount)), currency: from.price.currency };
    });
    const known = priced.filter((p): p is Money => p !== null);
    if (known.length < draws.length || draws.length === 0) without.push(need.key);
    prices.push(...known);
  }
  return { sums: addMoney(prices), without };
}
