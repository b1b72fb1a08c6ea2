import { hasId, idsOf, readById } from '../../folder/folder.ts';
import { findHerb } from '../../folder/herb-names.ts';
import { nearest } from '../../measure/nearest.ts';
import { formulaJson, formulaSheet } from '../../reports/show-formula.ts';
import { monographJson, monographSheet } from '../../reports/show-monograph.ts';
import { loadFolder, loadFormula } from '../load.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';

/** A formula by its id, or a herb by any of its names. */
export async function show([name = '']: readonly string[], options: CommonOptions): Promise<Outcome> {
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  if (hasId(folder.value, 'formula', name)) {
    const formula = await loadFormula(folder.value, name);
    if (!formula.ok) return failed(formula.problems);
    const { value } = formula.value;
    return answered([{ name, sheet: formulaSheet(value), result: formulaJson(value) }]);
  }
  const herb = await findHerb(folder.value, name);
  if (herb.kind === 'several') return misused(`"${name}" could be ${herb.ids.join(' or ')}: write which`);
  if (herb.kind === 'none') {
    const near = [
      ...new Set([
        ...nearest(name, idsOf(folder.value, 'formula')),
        ...herb.near,
        ...holding(name, [...idsOf(folder.value, 'formula'), ...idsOf(folder.value, 'monograph')]),
      ]),
    ].slice(0, MOST_SUGGESTED);
    return misused(
      `there is no formula and no herb "${name}"${near.length > 0 ? `: did you mean ${near.join(' or ')}?` : ': scruple list shows what there is'}`,
    );
  }
  const read = await readById(folder.value, 'monograph', herb.id);
  if (!read.ok) return failed(read.why);
  return answered([
    { name: herb.id, sheet: monographSheet(read.value.value), result: monographJson(read.value.value) },
  ]);
}

const MOST_SUGGESTED = 6;

/** Ids of which the name is a word or more: `fennel` is part of two herbs and names neither. */
function holding(name: string, ids: readonly string[]): string[] {
  const wanted = `-${name.trim().toLowerCase().replace(/\s+/g, '-')}-`;
  return wanted === '--' ? [] : ids.filter((id) => `-${id}-`.includes(wanted));
}
