import { asDried } from '../dosing/equivalents.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import { type Figure, given } from '../measure/figure.ts';
import type { Quantity } from '../measure/quantity.ts';
import { type Case, herbsOf, oncePerCase } from './case.ts';
import { takenAlready } from './person.ts';

/** One herb in one of the things that a person takes by mouth; g in a day, null where that is not known. */
export interface Portion {
  readonly herb: string;
  readonly monograph: Monograph | null;
  readonly from: string;
  readonly daily: Figure<Quantity> | null;
  /** g of it at once; null of what is taken already, of which only the day is told. */
  readonly single: Figure<Quantity> | null;
  /** False for what is taken already, and not handed over now. */
  readonly given: boolean;
}

/** Everything that is taken by mouth, from what is handed over and from what is taken already and not stopped. */
export const regimen = oncePerCase<readonly Portion[]>(gather);

function gather(c: Case): Portion[] {
  // A formula that is named twice is handed over once.
  const formulas = [...new Map(c.formulas.map((f) => [f.formula.formula, f])).values()];
  const handed = herbsOf({ ...c, formulas }).flatMap((h): Portion[] => {
    if (h.dose !== null && h.dose.route !== 'oral') return [];
    const amounts = h.dose && asDried(h.dose);
    return [
      {
        herb: h.herb,
        monograph: h.monograph,
        from: h.formula.formula,
        daily: amounts?.daily ?? null,
        single: amounts?.single ?? null,
        given: true,
      },
    ];
  });
  // A formula that is taken already and handed over again is the same remedy going on; its days are counted elsewhere.
  const again = new Set(formulas.map((f) => f.formula.formula));
  const already = (c.person ? takenAlready(c.person) : [])
    .filter((t) => t.stopped === null && !again.has(t.from))
    .map(
      ({ herb, monograph, from, daily }): Portion => ({
        herb,
        monograph,
        from,
        daily: daily && given(daily, `${herb} in ${from}, a day`),
        single: null,
        given: false,
      }),
    );
  return [...handed, ...already];
}
