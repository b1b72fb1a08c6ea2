import { exact } from '../measure/exact.ts';
import { type Cited, type Figure, given, worked } from '../measure/figure.ts';
import { atMoisture, solids } from '../measure/moisture.ts';
import {
  compareQuantities,
  inUnit,
  minus,
  type Quantity,
  quantity,
  type Range,
} from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gram, percent } from '../measure/units.ts';
import { write } from '../measure/write.ts';

/**
 * Fresh and dry herb by the balance of moisture, for a moisture that is known as a range.
 */

/** Water in the fresh herb and in the dried, from the least to the most, each with its source. */
export interface Moistures {
  readonly fresh: Figure<Range>;
  readonly dry: Figure<Quantity>;
}

const ends = (r: Range): { low: Quantity; high: Quantity } => ({
  low: (r.low ?? r.high) as Quantity,
  high: (r.high ?? r.low) as Quantity,
});

/** Fresh = dry x (1 - dry moisture) / (1 - fresh moisture), least for the driest of the fresh; g. */
export function freshFor(dry: Figure<Quantity>, { fresh, dry: kept }: Moistures): Figure<Range> {
  const of = (moisture: Quantity): Quantity => atMoisture(dry.value, kept.value, moisture);
  const { low, high } = ends(fresh.value);
  return worked(
    { low: of(low), high: of(high) },
    'fresh herb to gather',
    '{} x (100 % - {}) / (100 % - {})',
    [dry, kept, fresh],
  );
}

/** Dry = fresh x (1 - fresh moisture) / (1 - dry moisture), least for the wettest; g. */
export function dryFrom(fresh: Figure<Quantity>, { fresh: held, dry: kept }: Moistures): Figure<Range> {
  const of = (moisture: Quantity): Quantity => atMoisture(fresh.value, moisture, kept.value);
  const { low, high } = ends(held.value);
  return worked(
    { low: of(high), high: of(low) },
    'weight when it is done',
    '{} x (100 % - {}) / (100 % - {})',
    [fresh, held, kept],
  );
}

/**
 * The moisture that a lot really had, from its own two weights: 1 - dry / fresh x (1 - dry moisture).
 * Errors: a dry weight that is not below the fresh.
 */
export function moistureHad(
  fresh: Figure<Quantity>,
  dry: Figure<Quantity>,
  kept: Figure<Quantity>,
): Result<Figure<Quantity>> {
  if (compareQuantities(dry.value, fresh.value) >= 0)
    return bad(
      `${write(dry.value)} dry is not less than ${write(fresh.value)} fresh: which of the two is wrong?`,
    );
  const share = inUnit(dry.value, gram).value.times(solids(kept.value)).div(inUnit(fresh.value, gram).value);
  return ok(
    worked(
      quantity(exact(100).minus(share), percent),
      'moisture that the fresh herb had',
      '100 % - {} x (100 % - {}) / {}',
      [dry, kept, fresh],
    ),
  );
}

/** The moisture that a dry yield implies: 1 - yield x (1 - dry moisture); the wettest leaves the least. */
export function moistureOfYield(dryYield: Range, kept: Figure<Quantity>, source: Cited): Figure<Range> {
  const stated = given(dryYield, 'dry herb from 100 of fresh', source);
  const of = (y: Quantity): Quantity =>
    quantity(exact(100).minus(y.value.times(solids(kept.value)).div(100)), percent);
  const { low, high } = ends(dryYield);
  return worked(
    { low: of(high), high: of(low) },
    'moisture of the fresh herb, estimate',
    '100 % - {} x (100 % - {})',
    [stated, kept],
  );
}

/** Water to drive off. */
export function waterLost(fresh: Figure<Quantity>, dry: Figure<Range>): Figure<Range> {
  const { low, high } = ends(dry.value);
  const f = inUnit(fresh.value, gram);
  return worked({ low: minus(f, high), high: minus(f, low) }, 'water to drive off', '{} - {}', [fresh, dry]);
}
