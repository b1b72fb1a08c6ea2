import type { Folder } from '../../folder/folder.ts';
import type { KeptAs } from '../../folder/schema/record.ts';
import { type CalendarDate, writeDate } from '../../measure/calendar.ts';
import type { Quantity } from '../../measure/quantity.ts';
import { ok, type Result } from '../../measure/result.ts';
import { costOf } from '../../recording/cost.ts';
import { append, type Draft, journalOf, type Snapshot } from '../../recording/journal.ts';
import { priceText, quantityText } from '../../recording/quantity-text.ts';
import { meaningOf, restsOn } from '../../recording/rests-on.ts';
import { batchJson, batchSheet } from '../../reports/batch.ts';
import { inHandOf, labelFacts } from '../../reports/label-facts.ts';
import { amountLike } from '../amount-like.ts';
import { benchAnswer } from '../bench-answer.ts';
import { dayOf } from '../day.ts';
import { discardDate } from '../discard-date.ts';
import { type FromShelf, fromShelf, linesText, monographsOf, writtenFormula } from '../from-shelf.ts';
import { labelText } from '../label-text.ts';
import { failedLoading, type Loading, loadFolder } from '../load.ts';
import { loadLimits } from '../load-case.ts';
import type { BatchOptions, ShelfOptions } from '../options.ts';
import { answered, failed, misused, type Outcome, usage } from '../outcome.ts';
import { initialsOf } from '../read-flags.ts';

export type MakeOptions = BatchOptions & ShelfOptions & { readonly made?: string; readonly bench?: boolean };

/** Weighs a batch out of the lots on the shelf, and keeps a record of it. */
export async function makeBatch(id: string, options: MakeOptions): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  let shelf: FromShelf | null = null;
  const recorded = await append<'batch'>(journalOf(folder.value.root), async (now) => {
    const draft = await batchDraft(folder.value, now, id, options, on.value);
    if (!draft.ok) return draft;
    shelf = draft.value.shelf;
    return { ok: true, value: draft.value.draft };
  });
  if (!recorded.ok) return failed(recorded.problems);
  const from = shelf as FromShelf | null;
  if (from === null) throw new Error('a batch without a formula');
  const record = recorded.record as KeptAs<'batch'>;
  if (options.bench) return answered([benchAnswer(from.made.batch, record)]);
  const cost = costOf(from.lines, from.stock);
  return answered([
    {
      name: `batch-${recorded.number}`,
      sheet: batchSheet(from.made.batch, record, cost, from.otherwise),
      result: batchJson(from.made.batch, record),
    },
  ]);
}

async function batchDraft(
  folder: Folder,
  now: Snapshot,
  id: string,
  options: MakeOptions,
  on: CalendarDate,
): Promise<Loading<{ readonly draft: Draft<'batch'>; readonly shelf: FromShelf }>> {
  const by = initialsOf(options.initials);
  if (!by.ok) return failedLoading([usage(by.why)]);
  const written = await writtenFormula(folder, id);
  if (!written.ok) return written;
  const shelf = await fromShelf(folder, written.value, now, options, on);
  if (!shelf.ok) return shelf;
  const { made, lines, text, stock } = shelf.value;
  const until = discardDate(folder, shelf.value, options.discardAfter, on);
  if (!until.ok) return failedLoading([usage(until.why)]);
  const makes = madeAmount(options.made, shelf.value);
  if (!makes.ok) return failedLoading([usage(makes.why)]);
  const tables = await loadLimits(folder);
  if (!tables.ok) return tables;
  const monographs = monographsOf(made);
  const prices = costOf(lines, stock).sums.map(priceText);
  const label = labelFacts(
    made.batch,
    monographs,
    makes.value,
    { made: on, discard_after: until.value.date },
    [],
  );
  return {
    ok: true,
    value: {
      shelf: shelf.value,
      draft: {
        kind: 'batch',
        on: writeDate(on),
        by: by.value,
        formula: id,
        title: made.formula.title,
        text,
        lines: linesText(lines),
        makes: quantityText(makes.value),
        cost: prices.length > 0 ? prices : undefined,
        rests_on: {
          formula: meaningOf(written.value.read.value),
          herbs: restsOn(monographs, tables.value),
        },
        label: labelText(label),
        note: options.note?.trim() || undefined,
      },
    },
  };
}

/** What came of it as measured, else as reckoned at the least. */
function madeAmount(typed: string | undefined, { made }: FromShelf): Result<Quantity> {
  const reckoned = inHandOf(made.batch);
  return typed === undefined ? ok(reckoned) : amountLike('--made', typed, reckoned);
}
