import type { Batch } from '../compounding/compound.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import { type CalendarDate, compareDates } from '../measure/calendar.ts';
import { plusTime } from '../measure/plus-time.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { DrawnLine } from './draw.ts';

/** The day after which a remedy is not to be used, and what sets it. */
export interface DiscardAfter {
  readonly date: CalendarDate;
  readonly because: string;
}

/** What is handed over dry, and made by whoever takes it. */
const DRY: readonly Batch['making']['kind'][] = ['pot', 'dry'];

/**
 * The earliest of what is known: what was weighed or poured expires, the mixture does not keep by itself, the herbs are
 * kept no longer (each monograph's shortest time), the practice keeps such things so long. Null where nothing is known: it
 * must be said, because a label without a date is no label.
 */
export function discardAfter(
  batch: Batch,
  lines: readonly DrawnLine[],
  monographs: ReadonlyMap<string, Monograph | null>,
  keeps: ReadonlyMap<string, Quantity>,
  on: CalendarDate,
): DiscardAfter | null {
  const dry = DRY.includes(batch.making.kind);
  const { time } = batch.keeping;
  const known: DiscardAfter[] = [
    ...lines.flatMap(({ lot }) =>
      lot?.expires ? [{ date: lot.expires, because: `lot ${lot.record} expires then` }] : [],
    ),
    // A tea is made a pot at a time: how long a pot keeps says nothing of the herbs.
    ...(time && !dry ? [{ date: plusTime(on, time.for.value), because: time.how }] : []),
    ...(dry
      ? [...monographs].flatMap(([herb, m]) => {
          const least = m?.keep?.for?.low ?? m?.keep?.for?.high;
          return least ? [{ date: plusTime(on, least), because: `${herb} is kept no longer` }] : [];
        })
      : []),
    ...keptByPractice(dry ? 'dried' : batch.formula.preparation.kind, keeps, on),
  ];
  return known.sort((a, b) => compareDates(a.date, b.date))[0] ?? null;
}

export function keptByPractice(
  what: string,
  keeps: ReadonlyMap<string, Quantity>,
  on: CalendarDate,
): DiscardAfter[] {
  const time = keeps.get(what);
  return time ? [{ date: plusTime(on, time), because: `the practice keeps it no longer (${what})` }] : [];
}
