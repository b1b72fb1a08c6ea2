import { type Exact, exact, greatest, zero } from '../measure/exact.ts';
import { type Figure, isRange } from '../measure/figure.ts';
import { type Quantity, type Range, rangeIn, rangeUnit } from '../measure/quantity.ts';

/** A dose beside one published range, on a scale from nothing to `scaleMax`, all in one unit. */
export interface Gauge {
  readonly gauge: {
    /** Null: the printed range alone. */
    readonly dose: Figure<Quantity | Range> | null;
    readonly range: Figure<Range>;
    readonly scaleMax: Quantity;
  };
}

export const GAUGE_WIDTH = 24;

/** Below this the marks have no room to stand apart. */
export const GAUGE_LEAST = 12;

/** What the marks mean, for the foot of a table that has gauges. */
export const GAUGE_KEY =
  'o is the dose (O where it is exactly a printed figure), [ and ] are the printed range, + a single printed figure, > runs beyond the scale.';

/** The dose beside each published range in turn, all on one scale, so that the gauges can be compared by eye. */
export function gaugesOf(dose: Figure<Quantity | Range> | null, ranges: readonly Figure<Range>[]): Gauge[] {
  const first = ranges[0];
  if (first === undefined) return [];
  const unit = rangeUnit(first.value);
  const ends = [...(dose ? [dose] : []), ...ranges].flatMap((f) => {
    const r = rangeIn(asRange(f.value), unit);
    return [r.low, r.high].flatMap((q) => (q === null ? [] : [q.value]));
  });
  // A fifth of the scale is left free above the largest figure, so that what lies above it has somewhere to be.
  const scaleMax = { value: (greatest(ends) ?? zero).times(exact('1.2')), unit };
  return ranges.map((range) => ({ gauge: { dose, range, scaleMax } }));
}

function asRange(value: Quantity | Range): Range {
  return isRange(value) ? value : { low: value, high: value };
}

export function gaugeText({ gauge }: Gauge, width: number = GAUGE_WIDTH): string {
  const unit = gauge.scaleMax.unit;
  const range = rangeIn(gauge.range.value, unit);
  const dose = gauge.dose && rangeIn(asRange(gauge.dose.value), unit);
  const from = dose && (dose.low ?? dose.high);
  const to = dose && (dose.high ?? dose.low);
  if (dose && (from === null || to === null)) throw new Error('a dose with both ends open');
  return drawGauge({
    ...(from && to ? { dose: from.value, doseTo: to.value } : {}),
    low: range.low?.value ?? null,
    high: range.high?.value ?? null,
    scaleMax: gauge.scaleMax.value,
    width,
  });
}

export interface GaugeDrawing {
  /** Left out, the range alone is drawn. */
  readonly dose?: Exact;
  /** Where the dose is itself a range, its upper end. */
  readonly doseTo?: Exact;
  /** Null is an open end. */
  readonly low: Exact | null;
  readonly high: Exact | null;
  readonly scaleMax: Exact;
  readonly width: number;
}

/**
 * `:....[==o====].........:` A true picture in order, whatever the width: figures that differ never share a column,
 * so that a dose just above a range stands outside its mark, however coarse the scale.
 */
export function drawGauge({ dose, doseTo = dose, low, high, scaleMax, width }: GaugeDrawing): string {
  if (width < GAUGE_LEAST) throw new RangeError(`a gauge needs ${GAUGE_LEAST} columns`);
  const last = width - 3;
  const doses = dose === undefined || doseTo === undefined ? [] : dose.eq(doseTo) ? [dose] : [dose, doseTo];
  const column = columnsOf([...doses, ...(low ? [low] : []), ...(high ? [high] : [])], scaleMax, last);

  const track: string[] = new Array(last + 1).fill('.');
  const put = (at: Exact, mark: string): void => {
    track[column(at)] = mark;
  };
  if (low || high) track.fill('=', low ? column(low) : 0, high ? column(high) : last + 1);
  if (low && high && low.eq(high)) put(low, '+');
  else {
    if (low) put(low, '[');
    if (high) put(high, ']');
  }
  for (const d of doses) put(d, (low && d.eq(low)) || (high && d.eq(high)) ? 'O' : 'o');

  const beyond = [...doses, ...(low ? [low] : []), ...(high ? [high] : [])].some((v) => v.gt(scaleMax));
  return `:${track.join('')}${beyond ? '>' : ':'}`;
}

/** A column from 0 to `last` for each value, in proportion, nudged apart so that a larger value is further right. */
function columnsOf(values: readonly Exact[], scaleMax: Exact, last: number): (value: Exact) => number {
  const sorted = [...values]
    .sort((a, b) => a.comparedTo(b))
    .filter((v, i, all) => i === 0 || !v.eq(all[i - 1] ?? v));
  const columns = sorted.map((v) =>
    scaleMax.lte(0) ? 0 : Math.min(last, v.times(last).div(scaleMax).round().toNumber()),
  );
  for (let i = 1; i < columns.length; i++) columns[i] = Math.max(columns[i] ?? 0, (columns[i - 1] ?? 0) + 1);
  for (let i = columns.length - 1, most = last; i >= 0; i--) {
    columns[i] = Math.min(columns[i] ?? 0, most);
    most = (columns[i] ?? 0) - 1;
  }
  return (value) => columns[sorted.findIndex((v) => v.eq(value))] ?? 0;
}
