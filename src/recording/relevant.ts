import type { Kept } from '../folder/schema/record.ts';
import { mentioning, readRecords, type Snapshot } from './journal.ts';
import type { RecordNumber } from './number.ts';
import { type Stock, stockOf } from './stock.ts';
import { sourcesOf } from './trace.ts';

/** Of many records only those are parsed that can speak of what is asked, so that a shelf of many years stays quick. */

type Reading<T> =
  | Extract<Awaited<ReturnType<typeof readRecords>>, { ok: false }>
  | { readonly ok: true; readonly value: T };

/** What cancels a record names it, and may be any of these. */
const CORRECTIONS = ['kind: correction', 'corrects: '];

/** What is left of these lots and batches; of others that come up beside them it is not told rightly. */
export async function stockAmong(
  now: Snapshot,
  of: readonly RecordNumber[],
  except: RecordNumber | null = null,
): Promise<Reading<Stock>> {
  const numbers = new Set([...of, ...mentioning(now, of), ...mentioning(now, CORRECTIONS)]);
  // A draw that was cancelled is cancelled by its own number.
  const read = await readRecords(
    now,
    now.numbers.filter((n) => numbers.has(n)),
  );
  return read.ok ? { ok: true, value: stockOf(read.value, except) } : read;
}

/** Every lot of these herbs and vehicles; spirit to make with is `spirit`. */
export async function lotsOf(
  now: Snapshot,
  keys: readonly string[],
  except: RecordNumber | null = null,
): Promise<Reading<Stock>> {
  const lots = mentioning(now, ['kind: lot']).filter((n) => keys.some((k) => now.text(n).includes(k)));
  return stockAmong(now, lots, except);
}

/**
 * The records on the way from a record to people and back to its lots, with whatever cancels any of them, in their
 * order: of many years' records only these are parsed.
 */
export async function recordsAround(now: Snapshot, number: RecordNumber): Promise<Reading<Kept[]>> {
  const known = new Set<RecordNumber>(mentioning(now, CORRECTIONS));
  const further = async (
    from: readonly RecordNumber[],
    step: (r: Kept) => readonly RecordNumber[],
  ): Promise<Reading<null>> => {
    for (let next = [...from]; next.length > 0; ) {
      const read = await readRecords(now, next);
      if (!read.ok) return read;
      for (const n of next) known.add(n);
      next = [...new Set(read.value.flatMap(step))].filter((n) => !known.has(n) && Number(n) <= now.last);
    }
    return { ok: true, value: null };
  };
  const on = await further([number], (r) => mentioning(now, [r.record]).filter((n) => n > r.record));
  if (!on.ok) return on;
  const back = await further([number], sourcesOf);
  if (!back.ok) return back;
  return readRecords(
    now,
    now.numbers.filter((n) => known.has(n)),
  );
}
