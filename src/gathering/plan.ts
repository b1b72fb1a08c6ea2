import { citeIn } from '../folder/cite-in.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import type { GatheringTable } from '../folder/schema/reference.ts';
import { type Figure, given } from '../measure/figure.ts';
import { type Quantity, quantity, type Range } from '../measure/quantity.ts';
import { percent } from '../measure/units.ts';
import { freshFor, type Moistures, moistureOfYield } from './moisture.ts';

/** What is known of gathering and drying one plant part: its monograph's own facts, else those of the part in general. */
export interface PartPlan {
  readonly monograph: Monograph;
  readonly moistures: Moistures | null;
  /** True where the moisture is that of such parts in general. */
  readonly estimated: boolean;
  /** Every month that any source names; null where none was read. */
  readonly months: ReadonlySet<number> | null;
  readonly general: GatheringTable['parts'][number] | null;
  readonly rules: readonly string[];
}

export function planFor(m: Monograph, table: GatheringTable): PartPlan {
  const general = partOf(m.part, table);
  const dry = dryMoisture(m, table);
  const own =
    m.dry?.fresh_moisture &&
    given(asPercent(m.dry.fresh_moisture), 'moisture of the fresh herb', citeIn(m, m.dry));
  const fresh = own ?? (general && moistureOfYield(general.dry_yield, dry, citeIn(table, general)));
  return {
    monograph: m,
    moistures: fresh ? { fresh, dry } : null,
    estimated: !own,
    months: m.gather?.months?.length ? new Set(m.gather.months) : null,
    general,
    rules: table.rules.filter((r) => r.part === 'any' || r.part === general?.part).map((r) => r.says),
  };
}

/** The part in general: `rhizome with roots` is a rhizome. */
function partOf(part: string, { parts }: GatheringTable): GatheringTable['parts'][number] | null {
  const said = part.toLowerCase().split(/[^a-z]+/);
  return parts.find((p) => said.includes(p.part)) ?? null;
}

/** What is left in the dried herb: as the monograph states it at the most, else as herbs in general. */
function dryMoisture(m: Monograph, table: GatheringTable): Figure<Quantity> {
  const own = m.dry?.dry_moisture;
  const most = own && asPercent(own).high;
  return most && m.dry
    ? given(most, 'water left in the dried herb', citeIn(m, m.dry))
    : given(table.dry_moisture.amount, 'water left in the dried herb', citeIn(table, table.dry_moisture));
}

const asPercent = (r: Range): Range => {
  const end = (q: Quantity | null): Quantity | null => q && quantity(q.value, percent);
  return { low: end(r.low), high: end(r.high) };
};

/** One herb to gather: what is wanted dry, and what that takes fresh; null where no moisture is known. */
export interface GatherLine {
  readonly plan: PartPlan;
  readonly dry: Figure<Quantity> | null;
  readonly fresh: Figure<Range> | null;
}

/** Fresh herb that the formula takes fresh is gathered as it is weighed. */
export function gatherLine(plan: PartPlan, wanted: Figure<Quantity>, isFresh: boolean): GatherLine {
  if (isFresh) {
    const { value } = wanted;
    return { plan, dry: null, fresh: { value: { low: value, high: value }, step: wanted.step } };
  }
  return { plan, dry: wanted, fresh: plan.moistures && freshFor(wanted, plan.moistures) };
}
