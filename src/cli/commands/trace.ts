import { type Folder, hasId, readById } from '../../folder/folder.ts';
import type { KeptAs, RestsOn } from '../../folder/schema/record.ts';
import { type Changed, changedSince } from '../../recording/changed.ts';
import { mentioning, readRecord, readRecords, type Snapshot } from '../../recording/journal.ts';
import { recordsAround } from '../../recording/relevant.ts';
import { meaningOf, restsOn } from '../../recording/rests-on.ts';
import { cancelled, stockOf } from '../../recording/stock.ts';
import { backward, forward } from '../../recording/trace.ts';
import { changedJson, changedSheet, traceJson, traceSheet } from '../../reports/trace.ts';
import { failedLoading, type Loading, loadFolder, loadMonographs } from '../load.ts';
import { loadLimits } from '../load-case.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';
import { numberTyped, recordsOf } from '../recorded.ts';

/** Both ways from a record: where it came from and where it went; or whom a change of the folder's files touches. */
export async function trace(
  [typed]: readonly string[],
  options: CommonOptions & { readonly changed?: boolean },
): Promise<Outcome> {
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const now = recordsOf(folder.value);
  if (!now.ok) return failed(now.problems);
  if (options.changed) {
    if (typed !== undefined) return misused('--changed looks at every dispensing: leave the number out');
    return tracedChanges(folder.value, now.value);
  }
  if (typed === undefined)
    return misused('trace what? write the number of a lot, a batch or a record, or --changed');
  const number = numberTyped(typed);
  if (!number.ok) return failed(number.problems);
  const start = await readRecord(now.value, number.value);
  if (!start.ok) return failed(start.problems);
  const all = await recordsAround(now.value, number.value);
  if (!all.ok) return failed(all.problems);
  const traced = {
    start: start.value,
    cancelled: cancelled(all.value).has(number.value),
    held: stockOf(all.value).get(number.value) ?? null,
    back: backward(number.value, all.value),
    on: forward(number.value, all.value),
    about: all.value.filter(
      (r) => (r.kind === 'adjustment' || r.kind === 'correction') && r.of === number.value,
    ),
  };
  return answered([{ name: `trace-${number.value}`, sheet: traceSheet(traced), result: traceJson(traced) }]);
}

async function tracedChanges(folder: Folder, now: Snapshot): Promise<Outcome> {
  const read = await readRecords(now, mentioning(now, ['kind: dispensing', 'kind: correction']));
  if (!read.ok) return failed(read.problems);
  const gone = cancelled(read.value);
  const dispensings = read.value.filter(
    (r): r is KeptAs<'dispensing'> => r.kind === 'dispensing' && !gone.has(r.record),
  );
  const changed: Changed[] = [];
  const today = new Map<string, Awaited<ReturnType<typeof restsToday>>>();
  for (const record of dispensings) {
    const herbs = record.rests_on.herbs.map((h) => h.herb);
    const key = `${record.formula} ${herbs.join(' ')}`;
    const known = today.get(key) ?? (await restsToday(folder, record.formula, herbs));
    today.set(key, known);
    if (!known.ok) return failed(known.problems);
    const found = changedSince(record, known.value);
    if (found) changed.push(found);
  }
  return answered([
    {
      name: 'trace-changed',
      sheet: changedSheet(changed, dispensings.length),
      result: changedJson(changed, dispensings.length),
    },
  ]);
}

/** What the same formula and herbs mean today; a formula or a monograph that is gone means nothing any more. */
async function restsToday(
  folder: Folder,
  formula: string,
  herbs: readonly string[],
): Promise<Loading<Pick<RestsOn, 'formula' | 'herbs'>>> {
  const read = hasId(folder, 'formula', formula) ? await readById(folder, 'formula', formula) : null;
  if (read && !read.ok) return failedLoading(read.why);
  const monographs = await loadMonographs(folder, herbs);
  if (!monographs.ok) return monographs;
  const tables = await loadLimits(folder);
  if (!tables.ok) return tables;
  const each = new Map([...monographs.value].map(([id, h]) => [id, h.monograph]));
  return {
    ok: true,
    value: {
      formula: read ? meaningOf(read.value.value) : '',
      herbs: restsOn(each, tables.value),
    },
  };
}
