import type { Folder } from '../../folder/folder.ts';
import { idsOf } from '../../folder/folder.ts';
import { findHerb } from '../../folder/herb-names.ts';
import type { CalendarDate } from '../../measure/calendar.ts';
import { nearest } from '../../measure/nearest.ts';
import { firstExpiringFirst } from '../../recording/draw.ts';
import { append, journalOf, mentioning } from '../../recording/journal.ts';
import { stockAmong } from '../../recording/relevant.ts';
import { lotsJson, lotsSheet, recordedJson, recordedSheet } from '../../reports/lots.ts';
import { cancelRecord } from '../cancel-record.ts';
import { dayOf } from '../day.ts';
import { loadFolder } from '../load.ts';
import { adjustmentDraft } from '../lot-adjusted.ts';
import { lotDraft } from '../lot-booked.ts';
import type { LotOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';
import { recordsOf } from '../recorded.ts';

const WHAT = ['list', 'book-in', 'adjust', 'cancel'] as const;

/** What is on the shelf: booked in, put right, listed. */
export async function lots(
  [what = 'list', name = '']: readonly string[],
  options: LotOptions,
): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  switch (what) {
    case 'list':
      return listed(folder.value, name, on.value);
    case 'book-in':
      return bookedIn(folder.value, name, options, on.value);
    case 'adjust':
      return adjusted(folder.value, name, options, on.value);
    case 'cancel':
      return cancelRecord(folder.value, name, ['lot', 'batch', 'adjustment'], options, on.value);
    default: {
      const near = nearest(what, WHAT);
      if (near.length > 0) return misused(`lots ${what}: did you mean ${near.join(' or ')}?`);
      return name === ''
        ? listed(folder.value, what, on.value)
        : misused(`lots ${what}: write one of ${WHAT.join(', ')}, or a herb alone`);
    }
  }
}

async function listed(folder: Folder, name: string, on: CalendarDate): Promise<Outcome> {
  const now = recordsOf(folder);
  if (!now.ok) return failed(now.problems);
  const kept = mentioning(now.value, ['kind: lot', 'kind: batch']);
  const stock = await stockAmong(now.value, kept);
  if (!stock.ok) return failed(stock.problems);
  const found = name === '' ? null : await findHerb(folder, name);
  const keys =
    found === null
      ? null
      : found.kind === 'found'
        ? [found.id]
        : found.kind === 'several'
          ? found.ids
          : [name];
  const held = [...stock.value.values()]
    .filter(
      ({ from }) =>
        keys === null || (from.kind === 'lot' && keys.includes(from.herb ?? from.vehicle ?? 'spirit')),
    )
    .sort(firstExpiringFirst);
  if (keys !== null && held.length === 0) {
    const all = [...stock.value.values()].flatMap(({ from }) =>
      from.kind === 'lot' ? (from.herb ?? from.vehicle ?? []) : [],
    );
    const near = nearest(name, [...new Set([...all, ...idsOf(folder, 'monograph')])]);
    return misused(
      `no lot of "${name}" was booked in${near.length > 0 ? `: did you mean ${near.join(' or ')}?` : ''}`,
    );
  }
  return answered([{ name: 'lots', sheet: lotsSheet(held, on), result: lotsJson(held, on) }]);
}

async function bookedIn(
  folder: Folder,
  name: string,
  options: LotOptions,
  on: CalendarDate,
): Promise<Outcome> {
  const recorded = await append(journalOf(folder.root), (now) => lotDraft(folder, now, name, options, on));
  return told(recorded);
}

async function adjusted(
  folder: Folder,
  name: string,
  options: LotOptions,
  on: CalendarDate,
): Promise<Outcome> {
  const recorded = await append(journalOf(folder.root), (now) => adjustmentDraft(now, name, options, on));
  if (!recorded.ok) return failed(recorded.problems);
  const now = recordsOf(folder);
  if (!now.ok) return failed(now.problems);
  const of = recorded.record?.kind === 'adjustment' ? recorded.record.of : recorded.number;
  const stock = await stockAmong(now.value, [of]);
  return stock.ok ? told(recorded, stock.value.get(of)) : failed(stock.problems);
}

type Recorded = Awaited<ReturnType<typeof append>>;

function told(recorded: Recorded, held?: Parameters<typeof recordedSheet>[1]): Outcome {
  if (!recorded.ok) return failed(recorded.problems);
  const { record } = recorded;
  return answered([
    { name: recorded.number, sheet: recordedSheet(record, held), result: recordedJson(record, held) },
  ]);
}
