import type { DoseEntry, Monograph } from '../folder/schema/monograph.ts';
import type { Cited } from '../measure/figure.ts';
import { rangeUnit } from '../measure/quantity.ts';
import { type Against, type Outcome, publishedAgainst } from './against.ts';
import {
  type Applying,
  agesThatFit,
  countsDried,
  countsLiquid,
  entriesThatApply,
  markerOf,
  type Whose,
} from './applies.ts';
import type { Amounts, HerbDose } from './equivalents.ts';
import { markerAgainst } from './marker.ts';
import { isAmount, publishedRanges } from './published.ts';

export type { Against, Outcome } from './against.ts';
export type { Measure } from './published.ts';

export interface Compared {
  readonly herb: string;
  readonly entry: DoseEntry;
  readonly cited: Cited;
  readonly forAge: Applying['forAge'];
  readonly outcome: Outcome | 'not comparable';
  readonly because: string | null;
  /** Of an entry that is not comparable, only how often it is taken. */
  readonly against: readonly Against[];
}

/**
 * A herb's dose beside every published entry that applies: below, within, above, or not comparable and why.
 * The one comparison that both `dose` and `check` use. Taken too often is above on its own; taken often enough says
 * nothing of the amount, so an entry of which no amount could be compared is not comparable.
 */
export function compare(m: Monograph, dose: HerbDose, whose: Whose | null): readonly Compared[] {
  const ofDose = known.get(dose) ?? new WeakMap<Monograph, Map<string, readonly Compared[]>>();
  known.set(dose, ofDose);
  const of = ofDose.get(m) ?? new Map<string, readonly Compared[]>();
  ofDose.set(m, of);
  const ages = agesThatFit(m, whose);
  const before = of.get(ages) ?? compared(m, dose, whose);
  of.set(ages, before);
  return before;
}

/** All who are of the same published bands of age have the same beside their dose. */
const known = new WeakMap<HerbDose, WeakMap<Monograph, Map<string, readonly Compared[]>>>();

function compared(m: Monograph, dose: HerbDose, whose: Whose | null): Compared[] {
  return entriesThatApply(m, dose, whose).map((a): Compared => {
    const base = { herb: dose.herb, entry: a.entry, cited: a.cited, forAge: a.forAge };
    if (a.notComparable !== null)
      return { ...base, outcome: 'not comparable', because: a.notComparable, against: [] };
    const published = publishedRanges(a.entry, a.cited);
    const marker = markerOf(a.entry);
    const found =
      marker === null
        ? {
            against: publishedAgainst(dose, countedBy(a.entry, dose), published),
            because: null,
          }
        : markerAgainst(m, dose, marker, published);
    const outcome = worst(found.against);
    const because = outcome === 'not comparable' ? (found.because ?? noAmount(a.entry)) : found.because;
    return { ...base, outcome, because, against: found.against };
  });
}

/** What the entry counts: mL of what was drawn out, or herb; of fresh herb the dried herb that it comes to. */
function countedBy(entry: DoseEntry, dose: HerbDose): Amounts | null {
  if (countsLiquid(entry)) return dose.drawn;
  return dose.fresh && dose.dried !== null && countsDried(entry) ? dose.dried : dose.amounts;
}

function worst(against: readonly Against[]): Outcome | 'not comparable' {
  if (against.some((a) => a.outcome === 'above')) return 'above';
  if (!against.some((a) => isAmount(a.measure))) return 'not comparable';
  return against.some((a) => a.outcome === 'below') ? 'below' : 'within';
}

function noAmount({ single, daily, weekly }: DoseEntry): string {
  const stated = single ?? daily ?? weekly;
  return stated === undefined
    ? 'it states no amount of herb'
    : `its amount is in ${rangeUnit(stated).symbol}, which is no weight of herb`;
}
