import { readTable } from '../../folder/folder.ts';
import { dryFrom, moistureHad, waterLost } from '../../gathering/moisture.ts';
import { type PartPlan, planFor } from '../../gathering/plan.ts';
import { type CalendarDate, plusDays } from '../../measure/calendar.ts';
import { type Figure, given } from '../../measure/figure.ts';
import { parseQuantity, parseRange } from '../../measure/parse.ts';
import { inUnit, type Quantity, quantity, type Range } from '../../measure/quantity.ts';
import { bad, ok, type Result } from '../../measure/result.ts';
import { day, gram, percent } from '../../measure/units.ts';
import { write } from '../../measure/write.ts';
import { type Drying, dryJson, drySheet } from '../../reports/dry.ts';
import { dayOf } from '../day.ts';
import { loadFolder } from '../load.ts';
import { loadHerb } from '../load-herb.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';

export interface DryOptions extends CommonOptions {
  readonly fresh?: string;
  readonly dried?: string;
  readonly moisture?: string;
  readonly to?: string;
}

/** When a drying lot is done, or, from its own two weights, the moisture that it had. */
export async function dry([name = '']: readonly string[], options: DryOptions): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const table = await readTable(folder.value, 'gathering');
  if (!table.ok) return failed(table.why);
  const herb = await loadHerb(folder.value, name);
  if (!herb.ok) return failed(herb.problems);
  const drying = dryingOf(
    planFor(herb.value, table.value.value),
    table.value.value.moulds_above.amount,
    options,
    on.value,
  );
  if (!drying.ok) return misused(drying.why);
  return answered([
    { name: 'dry', sheet: drySheet(drying.value, table.value.value), result: dryJson(drying.value) },
  ]);
}

function dryingOf(plan: PartPlan, moulds: Quantity, o: DryOptions, on: CalendarDate): Result<Drying> {
  if (o.fresh === undefined) return bad('what does the fresh herb weigh? add --fresh "800 g"');
  const fresh = weight(o.fresh, '--fresh', 'fresh herb');
  if (!fresh.ok) return fresh;
  const kept = leftIn(o.to, plan, moulds);
  if (!kept.ok) return kept;
  const until = keepsUntil(plan, on);
  const base = { plan, fresh: fresh.value, kept: kept.value, until };
  if (o.dried !== undefined) {
    if (o.moisture !== undefined) return bad('--dried tells the moisture by itself: leave --moisture out');
    const dried = weight(o.dried, '--dried', 'dried herb, as weighed');
    if (!dried.ok) return dried;
    const had = moistureHad(fresh.value, dried.value, kept.value);
    if (!had.ok) return had;
    return ok({ ...base, moisture: had.value, done: dried.value, lost: null, weighed: true });
  }
  const moisture = o.moisture === undefined ? ok(plan.moistures?.fresh ?? null) : moistureAsked(o.moisture);
  if (!moisture.ok) return moisture;
  if (moisture.value === null) return ok({ ...base, moisture: null, done: null, lost: null, weighed: false });
  if (moisture.value.value.low?.value.lte(kept.value.value.value))
    return bad(
      `fresh herb of ${write(moisture.value.value.low)} is no wetter than the ${write(kept.value.value)} it is dried to`,
    );
  const own = { ...plan, estimated: plan.estimated && o.moisture === undefined };
  const done = dryFrom(fresh.value, { fresh: moisture.value, dry: kept.value });
  const lost = waterLost(fresh.value, done);
  return ok({ ...base, plan: own, moisture: moisture.value, done, lost, weighed: false });
}

function weight(text: string, option: string, says: string): Result<Figure<Quantity>> {
  const q = parseQuantity(text, undefined, ['mass']);
  if (!q.ok) return bad(`${option} ${q.why}`);
  return q.value.value.gt(0) ? ok(given(inUnit(q.value, gram), says)) : bad(`${option} must be above 0`);
}

/** Water left in the dried herb; above what moulds it is refused. */
function leftIn(text: string | undefined, plan: PartPlan, moulds: Quantity): Result<Figure<Quantity>> {
  if (text === undefined)
    return plan.moistures
      ? ok(plan.moistures.dry)
      : ok(given(quantity(12, percent), 'water left in the dried herb'));
  const q = parseQuantity(text, undefined, ['share', 'share m/m']);
  if (!q.ok) return bad(`--to ${q.why}`);
  if (!q.value.value.gt(0) || q.value.value.gte(moulds.value))
    return bad(
      `--to "${text}": herb is dried to below ${write(moulds)}, above which it may mould; write such as --to "12 %"`,
    );
  return ok(given(quantity(q.value.value, percent), 'water left in the dried herb, as asked'));
}

function moistureAsked(text: string): Result<Figure<Range>> {
  const r = parseRange(text, undefined, ['share', 'share m/m']);
  if (!r.ok) return bad(`--moisture ${r.why}`);
  const { low, high } = r.value;
  if (low === null || high === null || low.value.lt(0) || high.value.gte(100))
    return bad(`--moisture "${text}": write from 0 to below 100 %, such as 78 % or 75-80 %`);
  return ok(
    given(
      { low: quantity(low.value, percent), high: quantity(high.value, percent) },
      'moisture of the fresh herb',
    ),
  );
}

/** How long the dried herb keeps from the day: its own time, else that of such parts; the shorter end first. */
function keepsUntil({ monograph: m, general }: PartPlan, on: CalendarDate): Drying['until'] {
  const times = m.keep?.for ?? general?.keep;
  if (!times) return null;
  const after = (q: Quantity | null): CalendarDate | null =>
    q && plusDays(on, Math.floor(inUnit(q, day).value.toNumber()));
  const [from, to] = [after(times.low), after(times.high)];
  const first = from ?? to;
  return first ? { from: first, to: to ?? first } : null;
}
