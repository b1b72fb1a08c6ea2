import { lawsOfHerb } from '../checking/law/names.ts';
import { type Folder, pathOf, readTable } from '../folder/folder.ts';
import type { LegalLimits } from '../folder/schema/reference.ts';
import type { HerbFile, Loading } from './load.ts';
import { once } from './once.ts';

/** The table of legal limits, with the practitioner's own entries, each of which names a law that stands in it. */
export const loadLegalLimits = (folder: Folder): Promise<Loading<LegalLimits>> =>
  once(folder, 'legal-limits', async () => {
    const read = await readTable(folder, 'legal-limits');
    if (!read.ok) return { ok: false, problems: read.why };
    const { laws, limits, sources } = read.value.value;
    const file = pathOf('legal-limits', 'legal-limits');
    const astray = limits
      .filter((l) => !laws.some((law) => law.id === l.law))
      .map((l) => `${l.id} names the law "${l.law}", which is not among its laws`);
    const unsourced = laws
      .filter((l) => !Object.hasOwn(sources, l.source))
      .map((l) => `the law ${l.id} names the source "${l.source}", which is not among its sources`);
    const problems = [...astray, ...unsourced].map(
      (message) => ({ code: 'bad-value', file, message }) as const,
    );
    return problems.length > 0 ? { ok: false, problems } : { ok: true, value: read.value.value };
  });

/** The herbs of which the practice's law states an amount, so that no rounding may give more of them. */
export async function loadLimitedByLaw(
  folder: Folder,
  herbs: ReadonlyMap<string, HerbFile>,
): Promise<Loading<ReadonlySet<string>>> {
  const { jurisdiction } = folder.settings;
  if (jurisdiction === null) return { ok: true, value: new Set() };
  const legal = await loadLegalLimits(folder);
  if (!legal.ok) return legal;
  const named = [...herbs].filter(([id, { monograph }]) =>
    lawsOfHerb(legal.value, id, monograph).some((law) => law.jurisdiction === jurisdiction),
  );
  return { ok: true, value: new Set(named.map(([id]) => id)) };
}
