import type { Folder } from '../folder/folder.ts';
import type { Kept, KeptAs } from '../folder/schema/record.ts';
import { journalOf, readRecord, type Snapshot, snapshot } from '../recording/journal.ts';
import { parseRecordNumber, type RecordNumber } from '../recording/number.ts';
import { failedLoading, type Loading } from './load.ts';
import { usage } from './outcome.ts';

/** Finding a record by the number that was typed. */

export const WHAT: Readonly<Record<Kept['kind'], string>> = {
  lot: 'a lot',
  adjustment: 'an adjustment',
  batch: 'a batch',
  dispensing: 'a dispensing',
  correction: 'a correction',
  reaction: 'a reaction',
};

export function numberTyped(text: string, flag?: string): Loading<RecordNumber> {
  const n = parseRecordNumber(text);
  return n.ok ? { ok: true, value: n.value } : failedLoading([usage(flag ? `${flag} ${n.why}` : n.why)]);
}

/** The records of a folder as they are now. */
export const recordsOf = (folder: Folder): Loading<Snapshot> => snapshot(journalOf(folder.root));

/** A record of one of these kinds. */
export async function recordOf<K extends Kept['kind']>(
  now: Snapshot,
  number: RecordNumber,
  kinds: readonly K[],
): Promise<Loading<KeptAs<K>>> {
  const read = await readRecord(now, number);
  if (!read.ok) return read;
  const { kind } = read.value;
  if ((kinds as readonly string[]).includes(kind)) return { ok: true, value: read.value as KeptAs<K> };
  const wanted = kinds.map((k) => WHAT[k]).join(' or ');
  return failedLoading([usage(`${number} is ${WHAT[kind]}, and not ${wanted}`)]);
}
