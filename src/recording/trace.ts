import type { Kept } from '../folder/schema/record.ts';
import type { Quantity } from '../measure/quantity.ts';
import { plus } from '../measure/quantity.ts';
import type { RecordNumber } from './number.ts';
import { cancelled } from './stock.ts';

/** A record on the way from a lot to a person, or back. */
export interface Link {
  readonly record: Kept;
  /** How much of the one before went into it, or of it into the one before; null where no amount passes. */
  readonly amount: Quantity | null;
  readonly cancelled: boolean;
  readonly further: readonly Link[];
}

/** What took of this lot or batch, or speaks of this record, one step on. */
export function usesOf(number: RecordNumber, records: readonly Kept[]): Kept[] {
  return records.filter((r) => amountTaken(r, number) !== undefined);
}

/** Undefined where the record has nothing to do with it, null where it only speaks of it. */
function amountTaken(r: Kept, of: RecordNumber): Quantity | null | undefined {
  switch (r.kind) {
    case 'lot':
      return r.made?.batch === of ? r.amount : undefined;
    case 'batch':
      return drawnOf(r.lines, of);
    case 'dispensing':
      if (r.batch === of) return r.amount;
      return drawnOf(r.lines ?? [], of);
    case 'reaction':
      return r.of === of ? null : undefined;
    case 'adjustment':
    case 'correction':
      return undefined;
  }
}

type Lines = Extract<Kept, { kind: 'batch' }>['lines'];

function drawnOf(lines: Lines, lot: RecordNumber): Quantity | undefined {
  const amounts = lines.flatMap((l) => l.draws.filter((d) => d.lot === lot).map((d) => d.amount));
  return amounts.length === 0 ? undefined : amounts.reduce(plus);
}

/** Where it went: batches, dispensings, what was said of them, step after step. */
export function forward(number: RecordNumber, records: readonly Kept[]): Link[] {
  const gone = cancelled(records);
  const on = (of: RecordNumber): Link[] =>
    usesOf(of, records).map((record) => ({
      record,
      amount: amountTaken(record, of) ?? null,
      cancelled: gone.has(record.record),
      further: on(record.record),
    }));
  return on(number);
}

/** Where it came from: the batch, its lots, and what they were made of. */
export function backward(number: RecordNumber, records: readonly Kept[]): Link[] {
  const gone = cancelled(records);
  const byNumber = new Map(records.map((r) => [r.record, r]));
  const from = (r: Kept): Link[] =>
    [...new Set(sourcesOf(r))].flatMap((n): Link[] => {
      const record = byNumber.get(n);
      if (!record) return [];
      return [{ record, amount: amountTaken(r, n) ?? null, cancelled: gone.has(n), further: from(record) }];
    });
  const start = byNumber.get(number);
  return start ? from(start) : [];
}

/** What a record was taken of, or speaks of. */
export function sourcesOf(r: Kept): RecordNumber[] {
  switch (r.kind) {
    case 'lot':
      return r.made ? [r.made.batch] : [];
    case 'batch':
      return r.lines.flatMap((l) => l.draws.map((d) => d.lot));
    case 'dispensing':
      return r.batch ? [r.batch] : (r.lines ?? []).flatMap((l) => l.draws.map((d) => d.lot));
    case 'reaction':
    case 'adjustment':
    case 'correction':
      return [r.of];
  }
}

/** Every dispensing that is reached, each once, less those that were cancelled on the way. */
export function dispensingsIn(links: readonly Link[]): Extract<Kept, { kind: 'dispensing' }>[] {
  const found = new Map<RecordNumber, Extract<Kept, { kind: 'dispensing' }>>();
  const walk = (list: readonly Link[]): void => {
    for (const l of list) {
      if (l.cancelled) continue;
      if (l.record.kind === 'dispensing') found.set(l.record.record, l.record);
      walk(l.further);
    }
  };
  walk(links);
  return [...found.values()].sort((a, b) => (a.record < b.record ? -1 : 1));
}
