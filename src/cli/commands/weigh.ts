import { weighJson, weighSheet } from '../../reports/weigh.ts';
import { loadBatch, loadFolder } from '../load.ts';
import type { BatchOptions, CommonOptions, ShelfOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';

/** What only a record holds; typed without --batch, somebody thought that one was made. */
const SHELF_FLAGS = [
  ['initials', '--initials'],
  ['note', '--note'],
  ['withoutLots', '--without-lots'],
  ['discardAfter', '--discard-after'],
  ['made', '--made'],
] as const;

/** From parts to grams: what to weigh, the water for it, and how long it lasts. */
export async function weigh(
  [id = '']: readonly string[],
  options: CommonOptions &
    BatchOptions &
    ShelfOptions & { readonly batch?: boolean; readonly bench?: boolean; readonly made?: string },
): Promise<Outcome> {
  if (options.batch) {
    const { makeBatch } = await import('./make-batch.ts');
    return makeBatch(id, options);
  }
  const alone = SHELF_FLAGS.find(([key]) => options[key] !== undefined);
  if (alone) return misused(`${alone[1]} belongs to a batch that is recorded: add --batch`);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const made = await loadBatch(folder.value, id, options);
  if (!made.ok) return failed(made.problems);
  const { batch, herbs } = made.value;
  const unknown = [...herbs].flatMap(([herb, file]) => (file.monograph === null ? [herb] : []));
  if (options.bench) {
    const { benchAnswer } = await import('../bench-answer.ts');
    return answered([benchAnswer(batch, null)]);
  }
  return answered([{ name: id, sheet: weighSheet(batch, unknown), result: weighJson(batch) }]);
}
