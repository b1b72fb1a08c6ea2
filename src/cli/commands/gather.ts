import { hasId, idsOf, readTable } from '../../folder/folder.ts';
import { isStockForm } from '../../folder/forms.ts';
import { keyOf } from '../../folder/ingredients.ts';
import type { GatheringTable } from '../../folder/schema/reference.ts';
import { parseMonth } from '../../gathering/months.ts';
import { gatherLine, planFor } from '../../gathering/plan.ts';
import { given } from '../../measure/figure.ts';
import { parseQuantity } from '../../measure/parse.ts';
import { inUnit } from '../../measure/quantity.ts';
import { gram } from '../../measure/units.ts';
import { type Gathered, gatherJson, gatherSheet } from '../../reports/gather.ts';
import { loadBatch, loadFolder, type MadeUp } from '../load.ts';
import { loadHerb } from '../load-herb.ts';
import type { BatchOptions, CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';

export interface GatherOptions extends CommonOptions, BatchOptions {
  readonly dry?: string;
  readonly month?: string;
}

/** How much fresh for what is needed dry, when, and what it must not be mistaken for. */
export async function gather([name = '']: readonly string[], options: GatherOptions): Promise<Outcome> {
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const month = options.month === undefined ? null : parseMonth(options.month);
  if (month !== null && !month.ok) return misused(`--month ${month.why}`);
  const table = await readTable(folder.value, 'gathering');
  if (!table.ok) return failed(table.why);
  const about = {
    month: month?.value ?? null,
    jurisdiction: folder.value.settings.jurisdiction,
  };
  if (hasId(folder.value, 'formula', name)) {
    if (options.dry !== undefined)
      return misused(`${name} is a formula: say how much with --make, --days or --doses`);
    const made = await loadBatch(folder.value, name, options);
    if (!made.ok) return failed(made.problems);
    const without = [...made.value.herbs].flatMap(([id, h]) => (h.monograph ? [] : [id]));
    if (without.length > 0)
      return misused(`no monograph of ${without.join(', ')}: nothing is known of gathering it`);
    return told(forFormula(made.value, table.value.value, about), table.value.value);
  }
  const herb = await loadHerb(folder.value, name, idsOf(folder.value, 'formula'));
  if (!herb.ok) return failed(herb.problems);
  if (options.dry === undefined)
    return misused(`how much of ${herb.value.id} is wanted dry? add --dry "200 g"`);
  const dry = parseQuantity(options.dry, folder.value.measures, ['mass']);
  if (!dry.ok) return misused(`--dry ${dry.why}`);
  if (dry.value.value.lte(0)) return misused('--dry must be above 0');
  const wanted = given(inUnit(dry.value, gram), 'dry herb wanted');
  const line = gatherLine(planFor(herb.value, table.value.value), wanted, false);
  const gathered: Gathered = {
    ...about,
    title: `Gathering ${herb.value.names.common[0] ?? herb.value.id}`,
    lines: [line],
    notGathered: [],
    next: `scruple dry ${herb.value.id} --fresh with what you have gathered`,
  };
  return told(gathered, table.value.value);
}

const told = (g: Gathered, table: GatheringTable): Outcome =>
  answered([{ name: 'gather', sheet: gatherSheet(g, table), result: gatherJson(g) }]);

/** The herbs of a formula that are gathered; what was drawn out before, and what carries them, are not. */
function forFormula(
  { formula, batch, herbs }: MadeUp,
  table: GatheringTable,
  about: Pick<Gathered, 'month' | 'jurisdiction'>,
): Gathered {
  const notGathered: string[] = [];
  const lines = formula.ingredients.flatMap((i) => {
    const line = batch.lines.find((l) => l.key === keyOf(i));
    const m = i.herb === undefined ? null : herbs.get(i.herb)?.monograph;
    if (!m || !line || isStockForm(i.form)) {
      notGathered.push(i.form ? `${keyOf(i)} (${i.form})` : keyOf(i));
      return [];
    }
    return [gatherLine(planFor(m, table), line.weigh, i.form === 'fresh')];
  });
  return {
    ...about,
    title: `Gathering for ${formula.title}`,
    lines,
    notGathered,
    next: `scruple weigh ${formula.formula}`,
  };
}
