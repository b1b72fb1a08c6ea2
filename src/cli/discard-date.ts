import type { Folder } from '../folder/folder.ts';
import { type CalendarDate, compareDates, parseDate, writeDate } from '../measure/calendar.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { type DiscardAfter, discardAfter } from '../recording/discard-after.ts';
import { type FromShelf, monographsOf } from './from-shelf.ts';

/** The date on the label: as typed, but never after a lot in it has expired; else the earliest that is known. */
export function discardDate(
  folder: Folder,
  { made, lines }: Pick<FromShelf, 'made' | 'lines'>,
  typed: string | undefined,
  on: CalendarDate,
): Result<DiscardAfter> {
  const known = discardAfter(made.batch, lines, monographsOf(made), folder.settings.keeps, on);
  if (typed === undefined)
    return known
      ? ok(known)
      : bad(
          'how long does it keep? nothing that is known says so: add --discard-after DATE, or keeps: to practice.yaml',
        );
  const date = parseDate(typed);
  if (!date.ok) return bad(`--discard-after ${date.why}`);
  if (compareDates(date.value, on) < 0)
    return bad(`--discard-after ${writeDate(date.value)} is before it was made`);
  const first = lines
    .flatMap((l) => (l.lot?.expires ? [l.lot] : []))
    .find((l) => l.expires && compareDates(date.value, l.expires) > 0);
  return first?.expires
    ? bad(
        `--discard-after ${writeDate(date.value)} is after lot ${first.record} expires, ${writeDate(first.expires)}`,
      )
    : ok({ date: date.value, because: 'as it was said' });
}
