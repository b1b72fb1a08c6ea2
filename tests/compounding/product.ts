import type { Batch } from '../../src/compounding/compound.ts';
import type { Product } from '../../src/compounding/product.ts';
import { type HerbDose, herbDoses } from '../../src/dosing/equivalents.ts';
import type { Figure } from '../../src/measure/figure.ts';
import type { Quantity, Range } from '../../src/measure/quantity.ts';
import { writeRange } from '../../src/measure/write.ts';
import { shown } from './formula.ts';

/** The finished product of a batch. */
export function product({ making }: Batch): Product {
  if (making.kind !== 'product') throw new Error(`a ${making.kind} and no product`);
  return making;
}

/** What goes in beside the lines, as a sheet shows it. */
export const added = (batch: Batch): Record<string, string> =>
  Object.fromEntries(product(batch).added.map((a) => [a.says, shown(a.amount)]));

/** The same by the other measure. */
export const alsoAdded = (batch: Batch): Record<string, string> =>
  Object.fromEntries(product(batch).added.map((a) => [a.says, shown(a.also)]));

export const yields = (batch: Batch): string => {
  const range = product(batch).yields;
  return range ? writeRange(range.value) : 'all of it';
};

type Bound = Figure<Quantity> | Figure<Range> | null | undefined;

/** The figure as a number; of a range its low or its high end. */
export function figure(f: Bound, end: 'low' | 'high' = 'low'): number {
  const q = f && ('unit' in f.value ? f.value : f.value[end]);
  if (!q) throw new Error('there is no figure');
  return q.value.toNumber();
}

/** How many g of each herb are in a dose. */
export const single = (batch: Batch): Record<string, string> =>
  Object.fromEntries(herbDoses(batch).map((d) => [d.herb, shown(d.amounts?.single)]));

/** What is taken of the only herb. */
export function herbDose(batch: Batch): HerbDose {
  const [dose, ...more] = herbDoses(batch);
  if (dose === undefined || more.length > 0) throw new Error('not one herb');
  return dose;
}

/** `ethanol 17.5 % v/v, at least 15 % v/v: met`, a line for each limit. */
export const limits = ({ keeping }: Batch): string[] =>
  keeping.limits.map(
    (l) => `${l.of} ${shown(l.has)}, ${l.which} ${shown(l.limit)}: ${l.met ? 'met' : 'not met'}`,
  );
