import type { DoseEntry } from '../folder/schema/monograph.ts';
import { type Cited, type Figure, given, worked } from '../measure/figure.ts';
import type { NumberRange } from '../measure/parse.ts';
import { type Quantity, quantity, type Range } from '../measure/quantity.ts';

/** What a published figure limits. Each is independent of the others, so each is compared. */
export type Measure = 'single' | 'daily' | 'weekly' | 'concentration' | 'times a day' | 'times a week';

/** How often is no amount: it says nothing of whether the dose is large. */
export const isAmount = (m: Measure): boolean => m !== 'times a day' && m !== 'times a week';

export interface Published {
  readonly measure: Measure;
  readonly range: Figure<Range>;
  /** The source prints single dose and times a day, and this is their product. */
  readonly implied: boolean;
}

const timesOf = (n: NumberRange): Range => ({
  low: n.low && quantity(n.low, '1'),
  high: n.high && quantity(n.high, '1'),
});

/** The published ranges of an entry, the daily one also where it only follows from single dose and times a day. */
export function publishedRanges(e: DoseEntry, cited: Cited): Published[] {
  const printed = (range: Range, measure: Measure): Published => ({
    measure,
    range: given(range, `${measure} as published`, cited),
    implied: false,
  });
  return [
    ...(e.single ? [printed(e.single, 'single')] : []),
    ...(e.daily ? [printed(e.daily, 'daily')] : impliedDaily(e, cited)),
    ...(e.weekly ? [printed(e.weekly, 'weekly')] : []),
    ...(e.concentration ? [printed(e.concentration, 'concentration')] : []),
    ...(e.times ? [printed(timesOf(e.times), 'times a day')] : []),
    ...(e.times_a_week ? [printed(timesOf(e.times_a_week), 'times a week')] : []),
  ];
}

function impliedDaily(e: DoseEntry, cited: Cited): Published[] {
  const { single, times } = e;
  if (!single || !times) return [];
  const end = (q: Quantity | null, n: NumberRange['low']): Quantity | null =>
    q && n ? { value: q.value.times(n), unit: q.unit } : null;
  const low = end(single.low, times.low);
  const high = end(single.high, times.high);
  if (low === null && high === null) return [];
  const once = given(single, 'single as published', cited);
  const often = given(timesOf(times), 'times a day as published', cited);
  const says = 'daily, from the published single dose and times';
  const range = worked({ low, high }, says, '{} x {}', [once, often], { ...cited, reading: 'computed' });
  return [{ measure: 'daily', range, implied: true }];
}
