import { type Exact, exact, sum } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { massToVolume, volumeToMass } from '../measure/liquid.ts';
import { inUnit, minus, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { held } from '../measure/strength.ts';
import { gram, type Unit } from '../measure/units.ts';
import { write } from '../measure/write.ts';

/** How much of an ingredient a formula asks for. */
export type Amount =
  | { readonly kind: 'parts'; readonly parts: Exact }
  | { readonly kind: 'percent'; readonly percent: Exact }
  /** A fixed amount of the formula's own size; by the other measure only with a density. */
  | { readonly kind: 'fixed'; readonly amount: Quantity; readonly density?: Quantity }
  | { readonly kind: 'rest' };

export interface Component {
  readonly key: string;
  readonly amount: Amount;
}

/** What a formula is made of, and the size that its fixed amounts belong to (null where it has none). */
export interface Composition {
  /** What its lines are measured in: g, or mL where liquids are poured together. */
  readonly unit: Unit;
  readonly components: readonly Component[];
  readonly nominal: Quantity | null;
}

/** A fixed amount in the unit of the lines, g or mL: by its density where it is given by the other measure. */
export function fixedAmount(amount: Quantity, unit: Unit, density?: Quantity): Result<Quantity> {
  if (amount.unit.dimension === unit.dimension) return ok(inUnit(amount, unit));
  const { dimension } = amount.unit;
  if (dimension !== 'mass' && dimension !== 'volume')
    return bad(`${amount.unit.symbol} is neither a mass nor a volume`);
  if (density === undefined) return bad(`a ${dimension} becomes a ${unit.dimension} only with a density`);
  return dimension === 'mass' ? massToVolume(amount, density) : volumeToMass(amount, density);
}

/**
 * The exact amount of each component, in the unit of the lines, when the whole comes to `batch`.
 * Fixed amounts grow with the batch (amount x batch / nominal), percents are of the batch by the measure of its lines, what is left is
 * shared by parts (left x part / sum of parts) or taken by the one that makes up the total.
 * Source of the rule: common pharmaceutical practice (parts, percents and "to make", as in the worked cases of the
 * tests). Errors: nothing left to share, or a share that would be negative.
 */
export function exactAmounts(
  of: Composition,
  batch: Figure<Quantity>,
): Result<Map<string, Figure<Quantity>>> {
  const { unit } = of;
  const total = inUnit(batch.value, unit);
  const masses = new Map<string, Figure<Quantity>>();
  for (const { key, amount } of of.components) {
    if (amount.kind === 'fixed') {
      if (of.nominal === null)
        return bad(`${key}: a fixed amount needs the size of the formula it belongs to`);
      const mass = fixedAmount(amount.amount, unit, amount.density);
      if (!mass.ok) return bad(`${key}: ${mass.why}`);
      const nominal = inUnit(of.nominal, unit);
      const asked = given(mass.value, `${key} in the formula as written`);
      const size = given(nominal, 'size of the formula as written');
      masses.set(
        key,
        worked(
          quantity(mass.value.value.times(total.value).div(nominal.value), unit),
          `${key}, exact`,
          '{} x {} / {}',
          [asked, batch, size],
        ),
      );
    }
    if (amount.kind === 'percent') {
      const share = given(
        quantity(amount.percent, unit === gram ? '%{m/m}' : '%{v/v}'),
        `${key} in the formula`,
      );
      const mass = held(share.value, total);
      if (!mass.ok) return bad(`${key}: ${mass.why}`);
      masses.set(key, worked(mass.value, `${key}, exact`, '{} of {}', [share, batch]));
    }
  }
  const taken = [...masses.values()];
  const leftValue = total.value.minus(sum(taken.map((f) => f.value.value)));
  const left =
    taken.length === 0
      ? batch
      : worked(
          quantity(leftValue, unit),
          'left after fixed amounts and percents',
          `{}${' - {}'.repeat(taken.length)}`,
          [batch, ...taken],
        );
  const byParts = of.components.flatMap((c) =>
    c.amount.kind === 'parts' ? [{ key: c.key, parts: c.amount.parts }] : [],
  );
  const rest = of.components.find((c) => c.amount.kind === 'rest');
  if ((byParts.length > 0 || rest) && leftValue.lte(0))
    return bad('the fixed amounts and percents already fill the batch: nothing is left to share');
  if (byParts.length === 0 && !rest && leftValue.abs().gt('1e-30'))
    return bad(notTheWhole(total, quantity(leftValue, unit)));
  const allParts = sum(byParts.map((p) => p.parts));
  const sumOfParts = given(allParts, 'sum of the parts');
  for (const { key, parts } of byParts) {
    const part = given(parts, `parts of ${key}`);
    masses.set(
      key,
      worked(quantity(leftValue.times(parts).div(allParts), unit), `${key}, exact`, '{} x {} / {}', [
        left,
        part,
        sumOfParts,
      ]),
    );
  }
  if (rest)
    masses.set(rest.key, worked(quantity(leftValue, unit), `${rest.key} to make up the total`, '{}', [left]));
  return ok(new Map(of.components.map((c) => [c.key, masses.get(c.key) as Figure<Quantity>])));
}

function notTheWhole(total: Quantity, left: Quantity): string {
  const sum = `the amounts come to ${write(minus(total, left))} and the whole to ${write(total)}`;
  return `${sum}: let one ingredient take the rest with make_up_to, or correct the size`;
}

/** The share of the whole that each component takes, as exact fractions that add up to one. */
export function sharesOf(of: Composition): Result<Map<string, Exact>> {
  const size = of.nominal ?? quantity(100, of.unit);
  const masses = exactAmounts(of, given(size, 'size of the formula as written'));
  if (!masses.ok) return masses;
  const total = inUnit(size, of.unit).value;
  return ok(new Map([...masses.value].map(([key, f]) => [key, f.value.value.div(total)])));
}

/** The size that fixed amounts belong to: the stated size, else the total to make up to, else their own sum. */
export function nominalSize(
  components: readonly Component[],
  unit: Unit,
  stated: Quantity | undefined,
): Result<Quantity | null> {
  if (stated !== undefined) return ok(stated);
  const fixed = components.flatMap((c) => (c.amount.kind === 'fixed' ? [c.amount] : []));
  if (fixed.length === 0) return ok(null);
  let total = exact(0);
  for (const f of fixed) {
    const mass = fixedAmount(f.amount, unit, f.density);
    if (!mass.ok) return mass;
    total = total.plus(mass.value.value);
  }
  return ok(quantity(total, unit));
}
