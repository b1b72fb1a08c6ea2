import { type Exact, exact } from './exact.ts';
import { parseNumber } from './parse.ts';
import { bad, ok, type Result } from './result.ts';
import { roundTo } from './round.ts';

/** A price: an amount and its currency by the three letters of ISO 4217. */
export interface Money {
  readonly amount: Exact;
  readonly currency: string;
}

/** Reads `12.50 GBP`. Sums are never taken over two currencies. */
export function parseMoney(text: string): Result<Money> {
  const [, figure = '', currency = ''] = /^\s*(\S+)\s+([A-Za-z]{3})\s*$/.exec(text) ?? [];
  if (figure === '') return bad(`"${text.trim()}" is not a price: write such as 12.50 GBP`);
  const n = parseNumber(figure);
  if (!n.ok) return n;
  if (n.value.lt(0)) return bad(`a price of ${figure} is below nothing`);
  return ok({ amount: n.value, currency: currency.toUpperCase() });
}

const CENT = exact('0.01');

/** To hundredths, as prices are written: `4.30 GBP`. A price is no dose: it keeps its second figure. */
export const writeMoney = ({ amount, currency }: Money): string =>
  `${roundTo(amount, CENT, 'half-even').toFixed(2)} ${currency}`;

/** The sum of each currency, in the order of their letters. */
export function addMoney(prices: readonly Money[]): Money[] {
  const sums = new Map<string, Exact>();
  for (const { amount, currency } of prices)
    sums.set(currency, (sums.get(currency) ?? exact(0)).plus(amount));
  return [...sums].sort(([a], [b]) => (a < b ? -1 : 1)).map(([currency, amount]) => ({ amount, currency }));
}
