import { readingsJson, readingsSheet } from '../../reports/bibliography.ts';
import { listJson, listSheet } from '../../reports/list.ts';
import { filterHerbs, type HerbFilters } from '../herb-filters.ts';
import { loadFolder } from '../load.ts';
import { loadEvery } from '../load-herb.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';

const FILTERS = [
  'action',
  'use',
  'month',
  'family',
  'part',
  'effect',
  'constituent',
  'medicine',
  'signedOff',
  'notSignedOff',
] as const satisfies readonly (keyof HerbFilters)[];

/** The formulas and herbs of the folder, each on a line; the herbs by whatever they are chosen by. */
export async function list(
  [what]: readonly string[],
  options: CommonOptions & HerbFilters & { readonly readings?: boolean },
): Promise<Outcome> {
  if (what !== undefined && what !== 'formulas' && what !== 'herbs')
    return misused(`"${what}" cannot be listed: write formulas or herbs, or nothing for both`);
  const filtered = FILTERS.some((f) => options[f] !== undefined);
  if (what === 'formulas' && (filtered || options.readings))
    return misused('these options choose among herbs: write list herbs');
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const every = what === 'formulas' ? null : await loadEvery(folder.value, 'monograph');
  if (every && !every.ok) return failed(every.problems);
  const herbs = every && (filtered ? await filterHerbs(every.value, options, folder.value) : every);
  if (herbs && !herbs.ok) return failed(herbs.problems);
  if (options.readings && herbs)
    return answered([
      { name: 'readings', sheet: readingsSheet(herbs.value), result: readingsJson(herbs.value) },
    ]);
  const formulas = what === 'herbs' || filtered ? null : await loadEvery(folder.value, 'formula');
  if (formulas && !formulas.ok) return failed(formulas.problems);
  const [f, h] = [formulas?.value ?? null, herbs?.value ?? null];
  return answered([{ name: 'list', sheet: listSheet(f, h), result: listJson(f, h) }]);
}
