import { type Taking, takingOf } from '../dosing/directions.ts';
import { potsIn, type Supply, supplyOf } from '../dosing/supply.ts';
import type { Formula } from '../folder/schema/formula.ts';
import { exact } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { compareQuantities, inUnit, minus, type Quantity, ratioOf, times } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gram } from '../measure/units.ts';
import { write } from '../measure/write.ts';
import { type BatchAsked, batchSize } from './batch-size.ts';
import { type Amount, type Composition, exactMasses, nominalSize, sharesOf } from './composition.ts';
import { type Making, makingOf } from './making.ts';
import type { HeldBack } from './pot.ts';
import { type Balance, roundToBalance, type WeighedLine } from './weighing.ts';

/** What compounding needs besides the formula: the shelf's balance, the water that each herb keeps back. */
export interface Bench {
  readonly balance: Balance;
  readonly heldBack: (herb: string) => HeldBack;
  readonly boilsOff?: Quantity | undefined;
}

/** A batch worked out: what to weigh, what to make it with, what is taken, how long it lasts. */
export interface Batch {
  readonly formula: Formula;
  readonly size: Figure<Quantity>;
  readonly lines: readonly WeighedLine[];
  readonly total: Figure<Quantity>;
  readonly making: Making;
  /** Water for the whole batch, in mL. */
  readonly water?: Figure<Quantity>;
  readonly pots?: Figure<Quantity>;
  readonly taking: Taking | null;
  readonly supply: Supply | null;
}

function amountOf(i: Formula['ingredients'][number]): Amount {
  if (i.parts) return { kind: 'parts', parts: i.parts };
  if (i.percent) return { kind: 'percent', percent: i.percent };
  if (i.amount) return { kind: 'fixed', amount: i.amount, ...(i.density ? { density: i.density } : {}) };
  return { kind: 'rest' };
}

export function compositionOf(formula: Formula): Result<Composition> {
  const components = formula.ingredients.map((i) => ({ key: i.herb, amount: amountOf(i) }));
  const total = formula.ingredients.find((i) => i.make_up_to)?.make_up_to;
  if (formula.makes && total && compareQuantities(formula.makes, total) !== 0) {
    return bad(
      `makes: ${write(formula.makes)} and make_up_to: ${write(total)} are two sizes of one formula: keep the right one`,
    );
  }
  const nominal = nominalSize(components, formula.makes ?? total);
  return nominal.ok ? ok({ components, nominal: nominal.value }) : nominal;
}

/** From a formula in parts to a batch: masses to the balance, water for it, doses in it. */
export function compound(formula: Formula, asked: BatchAsked, bench: Bench): Result<Batch> {
  const composition = compositionOf(formula);
  if (!composition.ok) return composition;
  const shares = sharesOf(composition.value);
  if (!shares.ok) return shares;
  const making = makingOf(formula.preparation, {
    masses: (whole) => exactMasses(composition.value, whole),
    heldBack: bench.heldBack,
    boilsOff: bench.boilsOff,
  });
  if (!making.ok) return making;
  const directions = formula.directions ? takingOf(formula.directions, making.value) : ok(null);
  if (!directions.ok) return directions;
  const taking = directions.value;
  const size = batchSize(asked, {
    making: making.value,
    taking,
    nominal: composition.value.nominal,
    shares: shares.value,
    step: bench.balance.step,
  });
  if (!size.ok) return size;
  const weighed = weigh(
    composition.value,
    size.value,
    bench.balance,
    asked.by === 'have' ? asked.have : new Map(),
  );
  if (!weighed.ok) return weighed;
  const { lines, total } = weighed.value;
  const supply = taking ? supplyOf(total, taking, making.value) : null;
  return ok({
    formula,
    size: size.value,
    lines,
    total,
    making: making.value,
    taking,
    supply,
    ...waterFor(total, making.value),
  });
}

/** Weighs the batch; where rounding asks for more than is in hand, as many steps of the balance less as it takes. */
function weigh(
  composition: Composition,
  size: Figure<Quantity>,
  balance: Balance,
  have: ReadonlyMap<string, Quantity>,
): Result<{ lines: WeighedLine[]; total: Figure<Quantity> }> {
  const step = given(inUnit(balance.step, gram), 'step of the balance');
  let batch = size;
  for (let less = 1; ; less += 1) {
    const masses = exactMasses(composition, batch);
    if (!masses.ok) return masses;
    const weighed = roundToBalance(masses.value, batch, balance);
    if (!weighed.ok || !weighed.value.lines.some((l) => isShort(l, have))) return weighed;
    const steps = given(exact(less), 'steps less, until no line needs more than is in hand');
    batch = worked(
      minus(size.value, times(step.value, less)),
      'batch, some steps of the balance less',
      '{} - {} x {}',
      [size, steps, step],
    );
  }
}

function isShort(line: WeighedLine, have: ReadonlyMap<string, Quantity>): boolean {
  const inHand = have.get(line.key);
  return inHand !== undefined && compareQuantities(line.weigh.value, inHand) > 0;
}

function waterFor(
  total: Figure<Quantity>,
  making: Making,
): { water?: Figure<Quantity>; pots?: Figure<Quantity> } {
  if (making.kind !== 'pot') return {};
  const { herb, water } = making.pot;
  const all = worked(
    times(water.value, ratioOf(total.value, herb.value)),
    'water for the whole batch',
    '{} x {} / {}',
    [water, total, herb],
  );
  return { water: all, pots: potsIn(total, making) };
}
