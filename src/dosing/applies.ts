import { citeIn, type DosedKind, type DoseEntry, type Monograph } from '../folder/schema/monograph.ts';
import { type AgeBand, type Birth, type Ternary, withinBand } from '../measure/age.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import type { Cited } from '../measure/figure.ts';
import type { HerbDose } from './equivalents.ts';

/** Preparations that the European pharmacopoeia counts together as herbal teas (Ph. Eur. 1435, from memory). */
const TEAS: readonly DosedKind[] = ['infusion', 'decoction', 'cold-maceration'];

/** An entry without ages is for adults. */
const ADULTS: AgeBand = { from: { months: 18 * 12, text: '18 years' }, under: null };

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
  dose: Pick<HerbDose, 'kind' | 'route' | 'use'>,
  whose: Whose | null,
): Applying[] {
  if (m.doses === 'none-read') return [];
  const here = m.doses.filter((e) => e.route === dose.route);
  const applying = here.flatMap((entry): Applying[] => {
    const forAge = ageFits(entry, whose);
    if (forAge === false) return [];
    return [
      { entry, cited: citeIn(m, entry), forAge, notComparable: whyNotComparable(entry, dose.kind, here) },
    ];
  });
  const isForUse = ({ entry }: Applying): boolean =>
    dose.use !== null && (entry.use?.includes(dose.use) ?? false);
  const named = applying.some((a) => a.notComparable === null && isForUse(a));
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

function whyNotComparable(
  entry: DoseEntry,
  kind: HerbDose['kind'],
  here: readonly DoseEntry[],
): string | null {
  const kinds = entry.preparation.kind;
  if (kinds.includes(kind))
    return entry.of === 'preparation' ? 'it counts the finished preparation, not the herb' : null;
  if (entry.of !== undefined && entry.of !== 'herb' && entry.of !== 'preparation' && kinds.includes('other'))
    return null;
  if (TEAS.includes(kind) && kinds.some((k) => TEAS.includes(k))) {
    // A source that gives this kind a dose of its own has told the two apart.
    const toldApart = here.some((e) => e.source === entry.source && e.preparation.kind.includes(kind));
    return toldApart
      ? `it is for the ${kinds.join(' or ')}, and its source has a dose for the ${kind} itself`
      : null;
  }
  return `it is for the ${kinds.join(' or ')}`;
}
