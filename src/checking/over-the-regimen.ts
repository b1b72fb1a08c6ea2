import { againstTaken } from '../dosing/against.ts';
import { markerOf } from '../dosing/applies.ts';
import type { Compared } from '../dosing/compare.ts';
import { comparable } from '../measure/quantity.ts';
import type { Case, HerbInFormula } from './case.ts';
import { regimen } from './regimen.ts';
import { dailyOf } from './shares.ts';

/** The published daily amounts beside what is taken of the herb in all; nothing where only this formula holds it. */
export function overTheRegimen(h: HerbInFormula, told: readonly Compared[], c: Case): Compared[] {
  const portions = regimen(c).filter((p) => p.herb === h.herb && p.daily !== null);
  const taken = new Set(portions.map((p) => p.from)).size > 1 ? dailyOf(portions) : null;
  if (taken === null || h.dose?.route !== 'oral') return [];
  return told.flatMap((x) => {
    const daily = x.against.filter(
      (a) =>
        a.measure === 'daily' &&
        markerOf(x.entry) === null &&
        comparable(a.dose.value.unit, taken.value.unit),
    );
    const against = daily.map((a) => againstTaken(a, taken));
    return against.length > 0 ? [{ ...x, against }] : [];
  });
}
