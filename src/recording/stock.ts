import type { Kept, KeptAs } from '../folder/schema/record.ts';
import { inUnit, minus, type Quantity, times } from '../measure/quantity.ts';
import type { RecordNumber } from './number.ts';

/** Something that can be taken of: a lot on the shelf, or what a batch made. */
export interface Held {
  readonly from: KeptAs<'lot'> | KeptAs<'batch'>;
  readonly left: Quantity;
  readonly quarantined: boolean;
}

export type Stock = ReadonlyMap<RecordNumber, Held>;

/** Records that a later one has put right: they stay, and count no more. */
export function cancelled(records: readonly Kept[]): ReadonlySet<RecordNumber> {
  return new Set(
    records.flatMap((r) =>
      r.kind === 'correction' ? [r.of] : r.kind === 'dispensing' && r.corrects ? [r.corrects] : [],
    ),
  );
}

/**
 * What is left of each lot and batch: what was booked in or made, less every draw, in the order of the records. It is
 * reckoned anew each time and stored nowhere. Below nothing it may fall where somebody counted less than was drawn
 * since; that is shown, and nothing can be drawn of it. `except` is a record that is being put right and counts no more.
 */
export function stockOf(records: readonly Kept[], except: RecordNumber | null = null): Stock {
  const gone = new Set([...cancelled(records), ...(except === null ? [] : [except])]);
  const held = new Map<RecordNumber, Held>();
  const change = (n: RecordNumber, by: (h: Held) => Partial<Held>): void => {
    const before = held.get(n);
    if (before) held.set(n, { ...before, ...by(before) });
  };
  const take = (n: RecordNumber, amount: Quantity): void =>
    change(n, ({ left }) => ({ left: minus(left, inUnit(amount, left.unit)) }));
  const takeLines = (lines: KeptAs<'batch'>['lines'] | undefined): void => {
    for (const { draws } of lines ?? []) for (const { lot, amount } of draws) take(lot, amount);
  };
  for (const r of records) {
    if (gone.has(r.record)) continue;
    switch (r.kind) {
      case 'lot':
        held.set(r.record, { from: r, left: r.amount, quarantined: false });
        // What became a lot is not in the jar any more, however much was pressed out of it.
        if (r.made) change(r.made.batch, ({ left }) => ({ left: times(left, 0) }));
        break;
      case 'batch':
        takeLines(r.lines);
        held.set(r.record, { from: r, left: r.makes, quarantined: false });
        break;
      case 'dispensing':
        takeLines(r.lines);
        if (r.batch) take(r.batch, r.amount);
        break;
      case 'adjustment':
        change(r.of, (h) => adjusted(h, r));
        break;
      case 'correction':
      case 'reaction':
        break;
    }
  }
  return held;
}

function adjusted({ left }: Held, { reason, less, left: counted }: KeptAs<'adjustment'>): Partial<Held> {
  if (reason === 'quarantine') return { quarantined: true };
  if (reason === 'released') return { quarantined: false };
  if (counted) return { left: inUnit(counted, left.unit) };
  return less ? { left: minus(left, inUnit(less, left.unit)) } : {};
}
