import { citeIn } from '../folder/cite-in.ts';
import type { DosedKind, DoseEntry, Monograph } from '../folder/schema/monograph.ts';
import { type AgeBand, type Birth, type Ternary, withinBand } from '../measure/age.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import type { Cited } from '../measure/figure.ts';
import { rangeUnit } from '../measure/quantity.ts';
import type { HerbDose } from './equivalents.ts';
import { COUNTS_FINISHED, whyNotTheSame } from './solvent-fits.ts';

/** Preparations that the European pharmacopoeia counts together as herbal teas (Ph. Eur. 1435, from memory). */
export const TEAS: readonly DosedKind[] = ['infusion', 'decoction', 'cold-maceration'];

/** An entry without ages is for adults. */
export const ADULTS: AgeBand = { from: { months: 18 * 12, text: '18 years' }, under: null };

/** Whose dose it is. Null: nobody was named, and an adult is meant. */
export interface Whose {
  readonly birth: Birth;
  readonly on: CalendarDate;
}

/** A published entry that speaks of this person, route and use; with why it cannot be compared, if it cannot. */
export interface Applying {
  readonly entry: DoseEntry;
  readonly cited: Cited;
  /** Unknown where a month of birth straddles the edge of its age band. */
  readonly forAge: Ternary;
  readonly notComparable: string | null;
}

/**
 * The published entries that apply. Naming a use selects the customary entries for that use where the monograph has
 * any that can be compared; it never hides a safety limit. Another preparation's dose is never turned into this one's.
 */
export function entriesThatApply(
  m: Monograph,
  dose: Pick<HerbDose, 'kinds' | 'route' | 'use' | 'fresh' | 'drawn' | 'dried'>,
  whose: Whose | null,
): Applying[] {
  if (m.doses === 'none-read') return [];
  const here = m.doses.filter((e) => e.route === dose.route);
  const applying = here.flatMap((entry): Applying[] => {
    const forAge = ageFits(entry, whose);
    if (forAge === false) return [];
    return [{ entry, cited: citeIn(m, entry), forAge, notComparable: whyNotComparable(entry, dose, here) }];
  });
  const isForUse = ({ entry }: Applying): boolean =>
    dose.use !== null && (entry.use?.includes(dose.use) ?? false);
  const named = applying.some((a) => a.notComparable === null && a.entry.limit !== 'safety' && isForUse(a));
  return applying.filter(
    (a) => !named || a.entry.limit === 'safety' || a.entry.use === undefined || isForUse(a),
  );
}

/** Whether an entry is for this person's age; without a person, whether it is for adults. */
function ageFits(entry: DoseEntry, whose: Whose | null): Ternary {
  const band = entry.ages ?? ADULTS;
  if (whose) return withinBand(whose.birth, band, whose.on);
  return band.under === null || band.under.months > 18 * 12;
}

/** For which entries of a monograph the age fits, as a word: people of one word are alike to it. */
export function agesThatFit(m: Monograph, whose: Whose | null): string {
  if (m.doses === 'none-read') return '';
  return m.doses.map((e) => String(ageFits(e, whose))[0]).join('');
}

/** The constituent that an entry counts; null where it counts the herb or the finished preparation. */
export function markerOf({ of }: DoseEntry): string | null {
  return of === undefined || of === 'herb' || of === 'preparation' ? null : of;
}

function whyNotComparable(
  entry: DoseEntry,
  dose: Pick<HerbDose, 'kinds' | 'fresh' | 'drawn' | 'dried'>,
  here: readonly DoseEntry[],
): string | null {
  const { kinds, fresh } = dose;
  const named = entry.preparation.kind;
  const own = named.some((k) => kinds.includes(k)) || (markerOf(entry) !== null && named.includes('other'));
  if (!own && !(isTea(kinds) && isTea(named))) return `it is for the ${named.join(' or ')}`;
  if (countsLiquid(entry)) {
    if (!own) return COUNTS_FINISHED;
    // A mL drawn from fresh herb holds a fraction of what one drawn from as much dried herb holds.
    return weighedAlike(entry, fresh) ? whyNotTheSame(entry.preparation, dose.drawn) : countsOther(fresh);
  }
  if (entry.of === 'preparation') return COUNTS_FINISHED;
  if (!own && here.some((e) => isToldApart(e, entry, kinds))) {
    return `it is for the ${named.join(' or ')}, and its source has a dose for the ${kinds.join(' or ')} itself`;
  }
  return weighedAlike(entry, fresh) || (dose.dried !== null && countsDried(entry))
    ? null
    : countsOther(fresh);
}

const countsOther = (fresh: boolean): string =>
  `it counts the herb ${fresh ? 'dried' : 'fresh'}, and the formula weighs it ${fresh ? 'fresh' : 'dried'}`;

const isTea = (kinds: readonly DosedKind[]): boolean => kinds.some((k) => TEAS.includes(k));

const DRAWN: readonly DosedKind[] = [
  'tincture',
  'liquid-extract',
  'glycerite',
  'infused-oil',
  'essential-oil',
  'syrup',
  'honey',
];

/** Whether it counts mL of what was drawn out, which has a ratio and a solvent of its own. */
export function countsLiquid(entry: DoseEntry): boolean {
  if (markerOf(entry) !== null || !entry.preparation.kind.some((k) => DRAWN.includes(k))) return false;
  const stated = entry.single ?? entry.daily ?? entry.weekly;
  if (stated === undefined) return entry.of === 'preparation';
  return rangeUnit(stated).dimension === 'volume';
}

/** A source that gives this kind of tea a dose of its own, in the same measure, has told the two apart. */
function isToldApart(e: DoseEntry, entry: DoseEntry, kinds: HerbDose['kinds']): boolean {
  return (
    e.source === entry.source &&
    e.of !== 'preparation' &&
    markerOf(e) === markerOf(entry) &&
    e.preparation.kind.some((k) => kinds.includes(k))
  );
}

/** Of fresh herb whose moisture is known, the dried herb that it comes to can be set beside what counts dried herb. */
export const countsDried = ({ preparation: { form = '' } }: DoseEntry): boolean =>
  !/\bfresh\b/i.test(form) || /\bdried\b/i.test(form);

/** Fresh herb is mostly water, so that its grams are not those of a dried herb, which an entry means unless it says fresh. */
function weighedAlike(entry: DoseEntry, fresh: boolean): boolean {
  const saysFresh = /\bfresh\b/i.test(entry.preparation.form ?? '');
  return fresh ? saysFresh : countsDried(entry);
}
