import type { Compared } from '../dosing/compare.ts';
import type { Formula } from '../folder/schema/formula.ts';
import { type Figure, given } from '../measure/figure.ts';
import { inUnit, type Quantity } from '../measure/quantity.ts';
import { day } from '../measure/units.ts';
import type { HerbInFormula } from './case.ts';
import { concerning } from './concerns.ts';

/** The two clocks of a published dose: when to stop, and when to see a doctor if there is no improvement. */
export type Clock = 'stop_after' | 'refer_after';

/** A time that a source states for this preparation. */
export interface StatedTime {
  readonly compared: Compared;
  readonly limit: Figure<Quantity>;
}

/** What sources say of this preparation's time, the shortest first; also of one whose amount could not be compared. */
export function timesStated(h: HerbInFormula & { readonly formula: Formula }, clock: Clock): StatedTime[] {
  const says = clock === 'stop_after' ? 'stop after, as published' : 'see a doctor after, as published';
  const entries = h.compared.map((compared) => ({
    compared,
    source: compared.entry.source,
    preparation: compared.entry.preparation.kind,
  }));
  return concerning(entries, h.formula, h.herb, () => true)
    .flatMap(({ compared }): StatedTime[] => {
      const limit = compared.entry[clock];
      return limit ? [{ compared, limit: given(inUnit(limit, day), says, compared.cited) }] : [];
    })
    .sort(
      (a, b) =>
        a.limit.value.value.comparedTo(b.limit.value.value) ||
        (a.compared.cited.key < b.compared.cited.key ? -1 : 1),
    );
}
