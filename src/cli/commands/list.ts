import { type Folder, idsOf, readById } from '../../folder/folder.ts';
import type { Problem } from '../../folder/problem.ts';
import type { Formula } from '../../folder/schema/formula.ts';
import type { Monograph } from '../../folder/schema/monograph.ts';
import { listJson, listSheet } from '../../reports/list.ts';
import { loadFolder } from '../load.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';

/** The formulas and herbs of the folder, each on a line. */
export async function list([what]: readonly string[], options: CommonOptions): Promise<Outcome> {
  if (what !== undefined && what !== 'formulas' && what !== 'herbs')
    return misused(`"${what}" cannot be listed: write formulas or herbs, or nothing for both`);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const problems: Problem[] = [];
  const formulas = what === 'herbs' ? null : await readAll<Formula>(folder.value, 'formula', problems);
  const herbs = what === 'formulas' ? null : await readAll<Monograph>(folder.value, 'monograph', problems);
  if (problems.length > 0) return failed(problems);
  return answered([{ name: 'list', sheet: listSheet(formulas, herbs), result: listJson(formulas, herbs) }]);
}

async function readAll<T>(folder: Folder, kind: 'formula' | 'monograph', problems: Problem[]): Promise<T[]> {
  const all: T[] = [];
  for (const id of idsOf(folder, kind)) {
    const read = await readById(folder, kind, id);
    if (read.ok) all.push(read.value.value as T);
    else problems.push(...read.why);
  }
  return all;
}
