import { hasId, idsOf } from '../../folder/folder.ts';
import type { Monograph } from '../../folder/schema/monograph.ts';
import { bibliographyJson, bibliographySheet } from '../../reports/bibliography.ts';
import { compareJson, compareSheet } from '../../reports/compare-herbs.ts';
import { formulaJson, formulaSheet } from '../../reports/show-formula.ts';
import { monographJson, monographSheet } from '../../reports/show-monograph.ts';
import { type Loading, loadFolder, loadFormula } from '../load.ts';
import { loadEvery, loadHerb } from '../load-herb.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';

/** Side by side there is no room for more on a terminal. */
const MOST_COMPARED = 4;

/** A formula by its id, a herb by any of its names, several herbs side by side, or only the sources. */
export async function show(
  names: readonly string[],
  options: CommonOptions & { readonly sources?: boolean },
): Promise<Outcome> {
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const [name, ...more] = names;
  if (name === undefined && !options.sources)
    return misused('show what? Write a formula or a herb: scruple list shows what there is');
  if (name !== undefined && more.length === 0 && !options.sources && hasId(folder.value, 'formula', name)) {
    const formula = await loadFormula(folder.value, name);
    if (!formula.ok) return failed(formula.problems);
    const { value } = formula.value;
    return answered([{ name, sheet: formulaSheet(value), result: formulaJson(value) }]);
  }
  const herbs: Loading<readonly Monograph[]> =
    name === undefined
      ? await loadEvery(folder.value, 'monograph')
      : await loadAll(names, (n) => loadHerb(folder.value, n, idsOf(folder.value, 'formula')));
  if (!herbs.ok) return failed(herbs.problems);
  if (options.sources)
    return answered([
      { name: 'sources', sheet: bibliographySheet(herbs.value), result: bibliographyJson(herbs.value) },
    ]);
  const [only, ...others] = herbs.value;
  if (only !== undefined && others.length === 0)
    return answered([{ name: only.id, sheet: monographSheet(only), result: monographJson(only) }]);
  if (herbs.value.length > MOST_COMPARED)
    return misused(`side by side there is room for ${MOST_COMPARED} herbs: name fewer`);
  return answered([{ name: 'herbs', sheet: compareSheet(herbs.value), result: compareJson(herbs.value) }]);
}

async function loadAll(
  names: readonly string[],
  load: (name: string) => Promise<Loading<Monograph>>,
): Promise<Loading<readonly Monograph[]>> {
  const herbs: Monograph[] = [];
  for (const name of new Set(names)) {
    const herb = await load(name);
    if (!herb.ok) return herb;
    herbs.push(herb.value);
  }
  return { ok: true, value: herbs };
}
