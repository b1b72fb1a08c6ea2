import { weighJson, weighSheet } from '../../reports/weigh.ts';
import { loadBatch, loadFolder } from '../load.ts';
import type { BatchOptions, CommonOptions } from '../options.ts';
import { answered, failed, type Outcome } from '../outcome.ts';

/** From parts to grams: what to weigh, the water for it, and how long it lasts. */
export async function weigh(
  [id = '']: readonly string[],
  options: CommonOptions & BatchOptions,
): Promise<Outcome> {
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const made = await loadBatch(folder.value, id, options);
  if (!made.ok) return failed(made.problems);
  const { batch, herbs } = made.value;
  const unknown = [...herbs].flatMap(([herb, file]) => (file.monograph === null ? [herb] : []));
  return answered([{ name: id, sheet: weighSheet(batch, unknown), result: weighJson(batch) }]);
}
