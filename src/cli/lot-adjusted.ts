import { type CalendarDate, writeDate } from '../measure/calendar.ts';
import { nearest } from '../measure/nearest.ts';
import { parseQuantity } from '../measure/parse.ts';
import { comparable, compareQuantities, inUnit, type Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { write } from '../measure/write.ts';
import type { Draft, Snapshot } from '../recording/journal.ts';
import { quantityText } from '../recording/quantity-text.ts';
import { REASONS } from '../recording/reasons.ts';
import { stockAmong } from '../recording/relevant.ts';
import { failedLoading, type Loading } from './load.ts';
import type { LotOptions } from './options.ts';
import { usage } from './outcome.ts';
import { flagReader, initialsOf } from './read-flags.ts';
import { numberTyped, recordOf } from './recorded.ts';

/** Reasons that change whether it may be used, and not how much there is. */
const MOVES = ['quarantine', 'released'];

/** Why there is less of a lot or of a batch, or that it may not be used, as a record. */
export async function adjustmentDraft(
  now: Snapshot,
  typed: string,
  options: LotOptions,
  on: CalendarDate,
): Promise<Loading<Draft<'adjustment'>>> {
  const faults: string[] = [];
  const read = flagReader(faults);
  const by = initialsOf(options.initials);
  if (!by.ok) faults.push(by.why);
  const reason = read('--reason', options.reason ?? '', parseReason);
  const number = numberTyped(typed);
  if (!number.ok) return failedLoading([...faults.map(usage), ...number.problems]);
  const of = await recordOf(now, number.value, ['lot', 'batch']);
  if (!of.ok) return of;
  const stock = await stockAmong(now, [number.value]);
  if (!stock.ok) return stock;
  const held = stock.value.get(number.value);
  if (!held) return failedLoading([usage(`${number.value} was cancelled: there is nothing of it to adjust`)]);
  const amount = (flag: '--less' | '--left', text: string | undefined): Quantity | undefined =>
    read(flag, text, (t) => amountLike(t, held.left));
  const less = amount('--less', options.less);
  const left = amount('--left', options.left);
  const moves = reason !== undefined && MOVES.includes(reason);
  const given = [options.less, options.left].filter((x) => x !== undefined).length;
  if (moves && given > 0) faults.push(`--reason ${reason} changes no amount: leave out --less and --left`);
  if (reason !== undefined && !moves && given !== 1)
    faults.push('how much? add --less for what went, or --left for what is there');
  if (less && !less.value.gt(0)) faults.push('--less must be above 0');
  if (less && compareQuantities(less, held.left) > 0)
    faults.push(`--less ${write(less, 'exact')} is more than there is: ${write(held.left, 'exact')} is left`);
  if (reason === 'released' && !held.quarantined) faults.push(`${number.value} is not in quarantine`);
  if (reason === 'quarantine' && held.quarantined) faults.push(`${number.value} is in quarantine already`);
  if (faults.length > 0 || !by.ok) return failedLoading(faults.map(usage));
  return {
    ok: true,
    value: {
      kind: 'adjustment',
      on: writeDate(on),
      by: by.value,
      of: number.value,
      reason,
      less: less && quantityText(less),
      left: left && quantityText(left),
      note: options.note?.trim() || undefined,
    },
  };
}

function parseReason(text: string): Result<string> {
  const reason = REASONS.find((r) => r === text.trim());
  if (reason) return ok(reason);
  const near = nearest(text, REASONS);
  const hint = near.length > 0 ? `did you mean ${near.join(' or ')}?` : `write one of ${REASONS.join(', ')}`;
  return bad(text === '' ? `is not given: ${hint}` : `"${text}": ${hint}`);
}

/** In the unit in which the lot is kept. */
function amountLike(text: string, held: Quantity): Result<Quantity> {
  const q = parseQuantity(text, undefined, ['mass', 'volume', 'count']);
  if (!q.ok) return q;
  if (q.value.value.lt(0)) return bad('is below nothing');
  return comparable(q.value.unit, held.unit)
    ? ok(inUnit(q.value, held.unit))
    : bad(`"${text}": this is kept in ${held.unit.symbol}`);
}
