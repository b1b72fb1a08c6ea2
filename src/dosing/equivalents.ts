import type { Batch } from '../compounding/compound.ts';
import type { Kind } from '../folder/schema/formula.ts';
import { type Figure, worked } from '../measure/figure.ts';
import { type Quantity, quantity, times } from '../measure/quantity.ts';
import { gram } from '../measure/units.ts';

/** What a person takes of one herb, in g of the herb as weighed. */
export interface HerbDose {
  readonly herb: string;
  readonly kind: Kind;
  readonly route: 'oral' | 'oromucosal' | 'cutaneous';
  readonly use: string | null;
  /** True where the grams are of the fresh herb, with all its water. */
  readonly fresh?: boolean;
  readonly single: Figure<Quantity>;
  /** At the most times a day that the directions allow. */
  readonly daily: Figure<Quantity>;
  readonly weekly: Figure<Quantity>;
  readonly timesADay: Figure<Quantity>;
  readonly timesAWeek: Figure<Quantity>;
  readonly course: Figure<Quantity> | null;
}

/**
 * Herb equivalent of every ingredient: herb in a dose x weighed / total, after rounding to the balance.
 * Empty where the formula has no directions.
 */
export function herbDoses(batch: Batch): HerbDose[] {
  const { taking, formula } = batch;
  if (taking === null) return [];
  return batch.lines.map((line) => {
    const value = taking.herb.value.value.times(line.weigh.value.value).div(batch.total.value.value);
    const single = worked(quantity(value, gram), `${line.key} in a dose`, '{} x {} / {}', [
      taking.herb,
      line.weigh,
      batch.total,
    ]);
    const daily = worked(
      times(single.value, taking.timesMost.value.value),
      `${line.key} in a day`,
      '{} x {}',
      [single, taking.timesMost],
    );
    return {
      herb: line.key,
      kind: formula.preparation.kind,
      route: formula.route ?? 'oral',
      use: formula.use ?? null,
      fresh: formula.ingredients.some((i) => i.herb === line.key && i.form === 'fresh'),
      single,
      daily,
      weekly: worked(times(single.value, taking.timesAWeek.value.value), `${line.key} in a week`, '{} x {}', [
        single,
        taking.timesAWeek,
      ]),
      timesADay: taking.timesMost,
      timesAWeek: taking.timesAWeek,
      course: taking.course,
    };
  });
}
