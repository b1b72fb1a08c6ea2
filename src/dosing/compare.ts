import type { DoseEntry, Monograph } from '../folder/schema/monograph.ts';
import type { Cited } from '../measure/figure.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import type { NumberRange } from '../measure/parse.ts';
import {
  comparable,
  compareQuantities,
  inUnit,
  isSingleFigure,
  type Quantity,
  quantity,
  type Range,
  rangeUnit,
} from '../measure/quantity.ts';
import { type Applying, entriesThatApply, type Whose } from './applies.ts';
import type { HerbDose } from './equivalents.ts';

/** What a published figure limits. Each is independent of the others, so each is compared. */
export type Measure = 'single' | 'daily' | 'weekly' | 'times a day' | 'times a week';

export type Outcome = 'below' | 'within' | 'above';

/** One figure of an entry against the same figure of the dose. */
export interface Against {
  readonly measure: Measure;
  readonly dose: Figure<Quantity>;
  readonly published: Figure<Range>;
  readonly outcome: Outcome;
  /** One printed figure is a usual dose, not a range with a top. */
  readonly usual: boolean;
  /** The source prints single dose and times a day, and this is their product. */
  readonly implied: boolean;
}

export interface Compared {
  readonly herb: string;
  readonly entry: DoseEntry;
  readonly cited: Cited;
  readonly forAge: Applying['forAge'];
  readonly outcome: Outcome | 'not comparable';
  readonly because: string | null;
  readonly against: readonly Against[];
}

/**
 * A herb's dose beside every published entry that applies: below, within, above, or not comparable and why.
 * The one comparison that both `dose` and `check` use.
 */
export function compare(m: Monograph, dose: HerbDose, whose: Whose | null): Compared[] {
  return entriesThatApply(m, dose, whose).map((a) => {
    const base = { herb: dose.herb, entry: a.entry, cited: a.cited, forAge: a.forAge };
    if (a.notComparable !== null)
      return { ...base, outcome: 'not comparable', because: a.notComparable, against: [] };
    const marker = a.entry.of !== undefined && a.entry.of !== 'herb' ? a.entry.of : null;
    const found =
      marker === null
        ? { against: herbAgainst(dose, a.entry, a.cited), because: null }
        : markerAgainst(m, dose, a.entry, a.cited, marker);
    if (found.against.length === 0)
      return {
        ...base,
        outcome: 'not comparable',
        because: found.because ?? 'it states no amount of herb',
        against: [],
      };
    return { ...base, outcome: worst(found.against), because: found.because, against: found.against };
  });
}

function worst(against: readonly Against[]): Outcome {
  if (against.some((a) => a.outcome === 'above')) return 'above';
  return against.some((a) => a.outcome === 'below') ? 'below' : 'within';
}

/** The published ranges of an entry, the daily one also where it only follows from single dose and times a day. */
function publishedRanges(
  e: DoseEntry,
  cited: Cited,
): { measure: Measure; range: Figure<Range>; implied: boolean }[] {
  const printed = (range: Range, measure: Measure) => ({
    measure,
    range: given(range, `${measure} as published`, cited),
    implied: false,
  });
  const counted = (n: NumberRange, measure: Measure) =>
    printed({ low: n.low && quantity(n.low, '1'), high: n.high && quantity(n.high, '1') }, measure);
  return [
    ...(e.single ? [printed(e.single, 'single')] : []),
    ...(e.daily ? [printed(e.daily, 'daily')] : impliedDaily(e, cited)),
    ...(e.weekly ? [printed(e.weekly, 'weekly')] : []),
    ...(e.times ? [counted(e.times, 'times a day')] : []),
    ...(e.times_a_week ? [counted(e.times_a_week, 'times a week')] : []),
  ];
}

function impliedDaily(
  e: DoseEntry,
  cited: Cited,
): { measure: Measure; range: Figure<Range>; implied: boolean }[] {
  const { single, times } = e;
  if (!single || !times) return [];
  const end = (q: Quantity | null, n: NumberRange['low']): Quantity | null =>
    q && n ? { value: q.value.times(n), unit: q.unit } : null;
  const low = end(single.low, times.low);
  const high = end(single.high, times.high);
  if (low === null && high === null) return [];
  const often = given(
    { low: times.low && quantity(times.low, '1'), high: times.high && quantity(times.high, '1') },
    'times a day as published',
    cited,
  );
  const range = worked(
    { low, high },
    'daily, from the published single dose and times',
    '{} x {}',
    [given(single, 'single as published', cited), often],
    { ...cited, reading: 'computed' },
  );
  return [{ measure: 'daily', range, implied: true }];
}

function herbAgainst(dose: HerbDose, e: DoseEntry, cited: Cited): Against[] {
  return publishedRanges(e, cited).flatMap(({ measure, range, implied }) => {
    const taken = takenAs(dose, measure);
    if (!comparable(rangeUnit(range.value), taken.value.unit)) return [];
    return [judged(measure, inUnitOf(taken, range), range, implied)];
  });
}

function takenAs(dose: HerbDose, measure: Measure): Figure<Quantity> {
  switch (measure) {
    case 'single':
      return dose.single;
    case 'daily':
      return dose.daily;
    case 'weekly':
      return dose.weekly;
    case 'times a day':
      return dose.timesADay;
    case 'times a week':
      return dose.timesAWeek;
  }
}

/** The dose in the unit that the source prints, so that the two are read side by side. */
function inUnitOf(dose: Figure<Quantity>, published: Figure<Range>): Figure<Quantity> {
  const unit = rangeUnit(published.value);
  return unit === dose.value.unit ? dose : worked(inUnit(dose.value, unit), dose.step.says, '{}', [dose]);
}

function judged(
  measure: Measure,
  dose: Figure<Quantity>,
  published: Figure<Range>,
  implied: boolean,
): Against {
  const { low, high } = published.value;
  const above = high !== null && compareQuantities(settled(dose.value), high) > 0;
  const below = low !== null && compareQuantities(settled(dose.value), low) < 0;
  return {
    measure,
    dose,
    published,
    outcome: above ? 'above' : below ? 'below' : 'within',
    usual: isSingleFigure(published.value),
    implied,
  };
}

/** Drops what only a 40th digit of a division left over, so that a third taken three times is a whole. */
function settled(q: Quantity): Quantity {
  return { value: q.value.toDecimalPlaces(40), unit: q.unit };
}

/**
 * An entry that counts a constituent: the herb's content says how much of it a dose holds, as a range. Above when
 * even the least that it holds is above; within when even the most is; else it cannot be told, and says so.
 */
function markerAgainst(
  m: Monograph,
  dose: HerbDose,
  e: DoseEntry,
  cited: Cited,
  marker: string,
): { against: Against[]; because: string | null } {
  const stated =
    m.constituents?.filter((c) => c.name === marker && c.content !== undefined && c.in === undefined) ?? [];
  if (stated.length === 0)
    return { against: [], because: `it counts ${marker}, and how much of it the herb holds was not read` };
  const low = stated
    .map((c) => c.content?.low ?? null)
    .reduce((a, b) => (a === null || b === null ? null : compareQuantities(a, b) <= 0 ? a : b));
  const high = stated
    .map((c) => c.content?.high ?? null)
    .reduce((a, b) => (a === null || b === null ? null : compareQuantities(a, b) >= 0 ? a : b));
  const content = (q: Quantity | null, end: string): Figure<Quantity> | null =>
    q && given(inUnit(q, quantity(1, '%{m/m}').unit), `${marker} in the herb, ${end}`);
  const least = content(low, 'at the least');
  const most = content(high, 'at the most');
  let open = false;
  const against = publishedRanges(e, cited).flatMap(({ measure, range, implied }): Against[] => {
    const herb = takenAs(dose, measure);
    const unit = rangeUnit(range.value);
    if (unit.dimension === 'count') return [];
    const holds = (c: Figure<Quantity>, end: string): Figure<Quantity> =>
      worked(
        { value: inUnit(herb.value, unit).value.times(c.value.value).div(100), unit },
        `${marker}, ${measure}, ${end}`,
        '{} of {}',
        [c, herb],
      );
    const atLeast = least && holds(least, 'at the least');
    const atMost = most && holds(most, 'at the most');
    const { high: limit, low: floor } = range.value;
    if (atLeast && limit && compareQuantities(atLeast.value, limit) > 0)
      return [
        {
          measure,
          dose: atLeast,
          published: range,
          outcome: 'above',
          usual: isSingleFigure(range.value),
          implied,
        },
      ];
    if (atMost && limit && compareQuantities(atMost.value, limit) <= 0) {
      const outcome: Outcome = floor && compareQuantities(atMost.value, floor) < 0 ? 'below' : 'within';
      return [
        { measure, dose: atMost, published: range, outcome, usual: isSingleFigure(range.value), implied },
      ];
    }
    open = true;
    return [];
  });
  const because = open
    ? `it counts ${marker}, and the herb's content is stated only as ${least && !most ? 'a least figure' : 'a range'}: the intake cannot be bounded`
    : null;
  return { against, because };
}
