import type { Folder } from '../folder/folder.ts';
import type { Kept } from '../folder/schema/record.ts';
import { type CalendarDate, writeDate } from '../measure/calendar.ts';
import {
  append,
  type Draft,
  journalOf,
  mentioning,
  readRecords,
  type Snapshot,
} from '../recording/journal.ts';
import { cancelled } from '../recording/stock.ts';
import { usesOf } from '../recording/trace.ts';
import { recordedJson, recordedSheet } from '../reports/lots.ts';
import { failedLoading, type Loading } from './load.ts';
import type { RecordOptions } from './options.ts';
import { answered, failed, type Outcome, usage } from './outcome.ts';
import { flagReader, initialsOf, someWords } from './read-flags.ts';
import { numberTyped, recordOf, WHAT } from './recorded.ts';

/** Puts a record out of count by a further record, which says why. */
export async function cancelRecord(
  folder: Folder,
  typed: string,
  kinds: readonly Kept['kind'][],
  options: RecordOptions & { readonly why?: string },
  on: CalendarDate,
): Promise<Outcome> {
  const recorded = await append(journalOf(folder.root), (now) =>
    correctionDraft(now, typed, kinds, options, on),
  );
  if (!recorded.ok) return failed(recorded.problems);
  const { record } = recorded;
  return answered([{ name: recorded.number, sheet: recordedSheet(record), result: recordedJson(record) }]);
}

async function correctionDraft(
  now: Snapshot,
  typed: string,
  kinds: readonly Kept['kind'][],
  options: RecordOptions & { readonly why?: string },
  on: CalendarDate,
): Promise<Loading<Draft<'correction'>>> {
  const faults: string[] = [];
  const by = initialsOf(options.initials);
  if (!by.ok) faults.push(by.why);
  const because = flagReader(faults)('--why', options.why ?? '', someWords);
  const number = numberTyped(typed);
  if (!number.ok) return number;
  const of = await recordOf(now, number.value, kinds);
  if (!of.ok) return of;
  const read = await readRecords(now, mentioning(now, [number.value, 'kind: correction', 'corrects: ']));
  if (!read.ok) return read;
  const gone = cancelled(read.value);
  if (gone.has(number.value)) faults.push(`${number.value} was cancelled already`);
  const [use] = usesOf(number.value, read.value).filter((r) => r.kind !== 'reaction' && !gone.has(r.record));
  if (use)
    faults.push(`${number.value} is used by record ${use.record}, ${WHAT[use.kind]}: cancel that first`);
  if (faults.length > 0 || !by.ok) return failedLoading(faults.map(usage));
  return {
    ok: true,
    value: {
      kind: 'correction',
      on: writeDate(on),
      by: by.value,
      of: number.value,
      because,
      note: options.note?.trim() || undefined,
    },
  };
}
