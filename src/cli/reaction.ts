import { parseYesNo } from '../folder/answers.ts';
import type { Folder } from '../folder/folder.ts';
import type { KeptAs } from '../folder/schema/record.ts';
import { type CalendarDate, compareDates, writeDate } from '../measure/calendar.ts';
import { append, journalOf } from '../recording/journal.ts';
import { reactionJson, reactionSheet } from '../reports/reaction.ts';
import { failedLoading } from './load.ts';
import type { DispenseOptions } from './options.ts';
import { answered, failed, type Outcome, usage } from './outcome.ts';
import { flagReader, initialsOf, someWords } from './read-flags.ts';
import { numberTyped, recordOf } from './recorded.ts';

/** A suspected reaction, as a record beside the dispensing that it may have come of. */
export async function recordReaction(
  folder: Folder,
  options: DispenseOptions,
  on: CalendarDate,
): Promise<Outcome> {
  const faults: string[] = [];
  const read = flagReader(faults);
  const by = initialsOf(options.initials);
  if (!by.ok) faults.push(by.why);
  const says = read('--says', options.says ?? '', someWords);
  const serious = read('--serious', options.serious, parseYesNo);
  const number = numberTyped(options.reaction ?? '', '--reaction');
  if (!number.ok) return failed(number.problems);
  if (faults.length > 0 || !by.ok) return failed(faults.map(usage));
  let of: KeptAs<'dispensing'> | null = null;
  const recorded = await append<'reaction'>(journalOf(folder.root), async (now) => {
    const to = await recordOf(now, number.value, ['dispensing']);
    if (!to.ok) return to;
    of = to.value;
    if (compareDates(on, to.value.on) < 0)
      return failedLoading([
        usage(
          `${writeDate(on)} is before it was handed over, ${writeDate(to.value.on)}: set the day with --on`,
        ),
      ]);
    return {
      ok: true,
      value: {
        kind: 'reaction',
        on: writeDate(on),
        by: by.value,
        of: number.value,
        says,
        serious: serious === undefined ? undefined : serious ? 'yes' : 'no',
        note: options.note?.trim() || undefined,
      },
    };
  });
  if (!recorded.ok) return failed(recorded.problems);
  const record = recorded.record as KeptAs<'reaction'>;
  const to = of as KeptAs<'dispensing'> | null;
  if (to === null) throw new Error('a reaction to nothing');
  return answered([
    { name: recorded.number, sheet: reactionSheet(record, to), result: reactionJson(record, to) },
  ]);
}
