import { addUp } from '../measure/add-up.ts';
import { exact, one } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import {
  compareQuantities,
  inUnit,
  minus,
  type Quantity,
  quantity,
  ratioOf,
  times,
} from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { allocate, roundTo } from '../measure/round.ts';
import { gram, millilitre, percent, type Unit } from '../measure/units.ts';
import { write } from '../measure/write.ts';

/** What a line is measured with: the step it is read to, its sensitivity requirement, and the error permitted. */
export interface Instrument {
  readonly name: 'balance' | 'cylinder';
  readonly step: Quantity;
  readonly sensitivity: Quantity;
  readonly permittedError: Quantity;
}

/**
 * A common kitchen or shop balance where the practice has said nothing. 5 % is the tolerance usually taught for
 * compounding (University of North Carolina, Pharmaceutics and Compounding Laboratory, "Weighing").
 */
export const COMMON_BALANCE: Instrument = {
  name: 'balance',
  step: quantity('0.1', gram),
  sensitivity: quantity('0.1', gram),
  permittedError: quantity(5, percent),
};

/** A measuring cylinder with a line for each mL, read to half of one; the same 5 %. Common practice, without a source. */
export const COMMON_CYLINDER: Instrument = {
  name: 'cylinder',
  step: quantity(1, millilitre),
  sensitivity: quantity('0.5', millilitre),
  permittedError: quantity(5, percent),
};

/**
 * The least quantity worth weighing, in the unit of the sensitivity: sensitivity x 100 / permitted error in per cent.
 * Source: University of North Carolina, Pharmaceutics and Compounding Laboratory, "Weighing" (6 mg at 5 % is 120 mg).
 */
export function leastWeighable(sensitivity: Quantity, permittedError: Quantity): Quantity {
  return { value: sensitivity.value.times(100).div(permittedError.value), unit: sensitivity.unit };
}

/** The error that a balance may make in weighing `weighed`, in per cent: sensitivity x 100 / weighed. */
export function weighingError(sensitivity: Quantity, weighed: Quantity): Quantity {
  return quantity(ratioOf(sensitivity, weighed).times(100), percent);
}

export interface Trituration {
  /** What to weigh of the herb: a whole multiple of what is needed. */
  readonly weigh: Quantity;
  readonly diluent: Quantity;
  readonly mixture: Quantity;
  /** What to take of the mixture; it holds the quantity needed. */
  readonly aliquot: Quantity;
}

/**
 * A trituration for a quantity too small to weigh: the least whole multiple that can be weighed is mixed with a
 * diluent so that an aliquot, itself weighable, holds what is needed. weigh = multiple x needed, mixture =
 * multiple x aliquot, diluent = mixture - weigh. Every weighing reaches the least quantity.
 * Source: University of North Carolina, Pharmaceutics and Compounding Laboratory, triturations and aliquots.
 * `multiple` may be chosen higher than the least. Error: an aliquot below the least weighable or not above the need.
 */
export function triturate(
  needed: Quantity,
  least: Quantity,
  aliquot: Quantity = times(least, 2),
  multiple?: number,
): Result<Trituration> {
  if (compareQuantities(aliquot, least) < 0)
    return bad(`an aliquot of ${write(aliquot)} cannot be weighed: take at least ${write(least)}`);
  if (!needed.value.gt(0)) return bad('nothing is needed, so there is nothing to triturate');
  if (compareQuantities(aliquot, needed) <= 0)
    return bad('the quantity needed is itself as large as the aliquot: weigh it');
  const leastMultiple = roundTo(ratioOf(least, needed), one, 'up');
  const chosen = exact(multiple ?? leastMultiple);
  if (chosen.lt(leastMultiple))
    return bad(
      `a multiple of ${chosen.toFixed()} stays below the least weighable: take ${leastMultiple.toFixed()}`,
    );
  const weigh = times(needed, chosen);
  const mixture = times(aliquot, chosen);
  const diluent = minus(mixture, weigh);
  if (compareQuantities(diluent, least) < 0)
    return bad('the diluent would be too small to weigh: take a larger aliquot');
  return ok({ weigh, diluent, mixture, aliquot });
}

/** A trituration for a sheet; null on a line where none works out. */
export type TriturationFigures = { readonly [K in keyof Trituration]: Figure<Quantity> };

/** One line of a weighing or pouring sheet. */
export interface WeighedLine {
  readonly key: string;
  readonly exact: Figure<Quantity>;
  readonly weigh: Figure<Quantity>;
  /** (to weigh - exact) / exact, in per cent. */
  readonly error: Figure<Quantity>;
  /** Less than the exact share, because the law limits how much there may be of it. */
  readonly roundedDown?: true;
  /** Where the balance or cylinder cannot measure it well enough. */
  readonly tooSmall?: { readonly least: Figure<Quantity>; readonly trituration: TriturationFigures | null };
}

/**
 * Rounds exact amounts to the balance or the cylinder so that the lines add up exactly to the batch (itself rounded to
 * the step): largest remainder, ties by name. A line that is `limited` by law is rounded down, and the others make up
 * for it; where every line is, the batch comes out smaller. A line that would round to nothing is an error.
 */
export function roundToInstrument(
  masses: ReadonlyMap<string, Figure<Quantity>>,
  batch: Figure<Quantity>,
  balance: Instrument,
  unit: Unit,
  limited: ReadonlySet<string>,
): Result<{ lines: WeighedLine[]; total: Figure<Quantity> }> {
  const step = inUnit(balance.step, unit);
  const shares = [...masses].map(([key, f]) => ({
    key,
    weight: f.value.value,
    notAbove: limited.has(key),
  }));
  const rounded = allocate(inUnit(batch.value, unit).value, shares, step.value);
  const stepFigure = given(step, `step of the ${balance.name}`);
  const to = balance.name === 'balance' ? 'weigh' : 'pour';
  const least = leastWeighable(balance.sensitivity, balance.permittedError);
  const lines: WeighedLine[] = [];
  for (const [key, of] of masses) {
    const value = rounded.get(key) ?? exact(0);
    if (value.isZero()) {
      return bad(
        `${key} would be ${write(of.value)}, which rounds to nothing at ${write(step, 'exact')}: make a larger batch or use a finer ${balance.name}`,
      );
    }
    const weigh = worked(
      quantity(value, unit),
      `${key}, to ${to}`,
      limited.has(key)
        ? '{}, limited by law and rounded down to steps of {}'
        : 'share of the rounded batch nearest to {}, in steps of {}',
      [of, stepFigure],
    );
    const off = of.value.value.minus(value).neg().times(100).div(of.value.value);
    lines.push({
      key,
      exact: of,
      weigh,
      error: worked(quantity(off, percent), `${key}, rounding error`, '({} - {}) / {}', [weigh, of, of]),
      ...(limited.has(key) && off.lt(0) ? { roundedDown: true } : {}),
      ...(compareQuantities(weigh.value, least) < 0 ? { tooSmall: tooSmall(of, balance, least, unit) } : {}),
    });
  }
  const total = worked(
    quantity(
      lines.reduce((t, l) => t.plus(l.weigh.value.value), exact(0)),
      unit,
    ),
    `batch, to ${to}`,
    lines.map(() => '{}').join(' + '),
    lines.map((l) => l.weigh),
  );
  return ok({ lines, total });
}

/**
 * The lines of a batch that was made, each as it was weighed or poured then; nothing of it is rounded anew. An error where a
 * line of the formula was not recorded.
 */
export function asRecorded(
  keys: readonly string[],
  recorded: ReadonlyMap<string, Quantity>,
  unit: Unit,
): Result<{ lines: WeighedLine[]; total: Figure<Quantity> }> {
  const lines: WeighedLine[] = [];
  for (const key of keys) {
    const amount = recorded.get(key);
    if (!amount) return bad(`the record does not say how much of ${key} it was made with`);
    const weigh = given(inUnit(amount, unit), `${key}, as recorded`);
    lines.push({ key, exact: weigh, weigh, error: given(quantity(0, percent), `${key}, rounding error`) });
  }
  return ok({
    lines,
    total: addUp(
      lines.map((l) => l.weigh),
      'batch, as recorded',
    ),
  });
}

function tooSmall(
  needed: Figure<Quantity>,
  balance: Instrument,
  leastQuantity: Quantity,
  unit: Unit,
): NonNullable<WeighedLine['tooSmall']> {
  const sensitivity = given(balance.sensitivity, `sensitivity of the ${balance.name}`);
  const permitted = given(balance.permittedError, 'permitted error');
  const least = worked(inUnit(leastQuantity, unit), 'least measurable', '{} x 100 % / {}', [
    sensitivity,
    permitted,
  ]);
  if (unit !== gram) return { least, trituration: null };
  const t = triturate(needed.value, least.value);
  if (!t.ok) return { least, trituration: null };
  const multiple = given(ratioOf(t.value.weigh, needed.value), 'multiple weighed for the trituration');
  const aliquot = worked(t.value.aliquot, 'aliquot, twice the least weighable', '2 x {}', [least]);
  const weigh = worked(t.value.weigh, 'weighed for the trituration', '{} x {}', [multiple, needed]);
  const mixture = worked(t.value.mixture, 'mixture', '{} x {}', [multiple, aliquot]);
  return {
    least,
    trituration: {
      weigh,
      mixture,
      aliquot,
      diluent: worked(t.value.diluent, 'diluent', '{} - {}', [mixture, weigh]),
    },
  };
}
