import { type Taking, takingOf } from '../dosing/directions.ts';
import { potsIn, type Supply, supplyOf } from '../dosing/supply.ts';
import { keyOf } from '../folder/ingredients.ts';
import type { Formula, Kind } from '../folder/schema/formula.ts';
import { exact } from '../measure/exact.ts';
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
import { gram, millilitre, type Unit } from '../measure/units.ts';
import { write } from '../measure/write.ts';
import { type BatchAsked, batchSize } from './batch-size.ts';
import { type Amount, type Composition, exactAmounts, nominalSize, sharesOf } from './composition.ts';
import { type EthanolTaken, ethanolTaken } from './ethanol-taken.ts';
import { type Keeping, keepingOf } from './keeping.ts';
import { type Making, type MakingContext, makingOf } from './making.ts';
import type { HeldBack } from './pot.ts';
import type { Shelf } from './shelf.ts';
import { asRecorded, type Instrument, roundToInstrument, type WeighedLine } from './weighing.ts';

/** What compounding needs besides the formula: the shelf's balance, the water that each herb keeps back. */
export interface Bench {
  readonly balance: Instrument;
  readonly cylinder: Instrument;
  readonly heldBack: (herb: string) => HeldBack;
  readonly boilsOff?: Quantity | undefined;
  /** Herbs of which the law limits the amount: rounding never gives more of them. */
  readonly limited: ReadonlySet<string>;
  /** Published figures of making and keeping. */
  readonly shelf: Shelf;
}

/** A batch worked out: what to weigh, what to make it with, what is taken, how long it lasts. */
export interface Batch {
  readonly formula: Formula;
  /** What the lines are measured in: g, or mL where liquids are poured together. */
  readonly lineUnit: Unit;
  readonly size: Figure<Quantity>;
  readonly lines: readonly WeighedLine[];
  readonly total: Figure<Quantity>;
  readonly making: Making;
  /** Water for the whole batch, in mL. */
  readonly water?: Figure<Quantity>;
  readonly pots?: Figure<Quantity>;
  readonly taking: Taking | null;
  readonly supply: Supply | null;
  readonly keeping: Keeping;
  /** The ethanol that is taken with it; null where it holds none, or nothing says how it is taken. */
  readonly ethanol: EthanolTaken | null;
}

/** Kinds of which the lines are poured by volume. */
const POURED: ReadonlySet<Kind> = new Set<Kind>(['liquid-blend', 'drops']);

function amountOf(i: Formula['ingredients'][number]): Amount {
  if (i.parts) return { kind: 'parts', parts: i.parts };
  if (i.percent) return { kind: 'percent', percent: i.percent };
  if (i.amount) return { kind: 'fixed', amount: i.amount, ...(i.density ? { density: i.density } : {}) };
  return { kind: 'rest' };
}

export function compositionOf(formula: Formula): Result<Composition> {
  const unit = POURED.has(formula.preparation.kind) ? millilitre : gram;
  const components = formula.ingredients.map((i) => ({ key: keyOf(i), amount: amountOf(i) }));
  const total = formula.ingredients.find((i) => i.make_up_to)?.make_up_to;
  if (formula.makes && total && compareQuantities(formula.makes, total) !== 0) {
    return bad(
      `makes: ${write(formula.makes)} and make_up_to: ${write(total)} are two sizes of one formula: keep the right one`,
    );
  }
  const nominal = nominalSize(components, unit, formula.makes ?? total);
  return nominal.ok ? ok({ unit, components, nominal: nominal.value }) : nominal;
}

/** From a formula in parts to a batch: masses to the balance, water for it, doses in it. */
export function compound(formula: Formula, asked: BatchAsked, bench: Bench): Result<Batch> {
  const composition = compositionOf(formula);
  if (!composition.ok) return composition;
  const shares = sharesOf(composition.value);
  if (!shares.ok) return shares;
  const { unit } = composition.value;
  const context = (base: Figure<Quantity>): MakingContext => ({
    masses: (whole) => exactAmounts(composition.value, whole),
    heldBack: bench.heldBack,
    boilsOff: bench.boilsOff,
    ingredients: formula.ingredients,
    base,
    shelf: bench.shelf,
  });
  const nominal = composition.value.nominal ?? quantity(100, unit);
  const one = made(formula, context(given(inUnit(nominal, unit), 'size of the formula as written')));
  if (!one.ok) return one;
  const instrument = unit === gram ? bench.balance : bench.cylinder;
  const size = batchSize(asked, {
    ...one.value,
    nominal: sizeOf(formula, composition.value.nominal),
    shares: shares.value,
    instrument,
    unit,
  });
  if (!size.ok) return size;
  const weighed =
    asked.by === 'recorded'
      ? asRecorded([...shares.value.keys()], asked.lines, unit)
      : weigh(
          composition.value,
          size.value,
          instrument,
          bench.limited,
          asked.by === 'have' ? asked.have : new Map(),
        );
  if (!weighed.ok) return weighed;
  const { lines, total } = weighed.value;
  // A product is worked out once more of the lines as they are weighed or poured, so that its strength is that of the
  // bottle, and its oil, spirit and sugar fit the batch.
  const asWeighed = { ...context(total), masses: () => ok(new Map(lines.map((l) => [l.key, l.weigh]))) };
  const whole = one.value.making.kind === 'product' ? made(formula, asWeighed) : one;
  if (!whole.ok) return whole;
  const { making, taking } = whole.value;
  const supply = taking ? supplyOf(total, taking, making, bench.shelf.bottles) : null;
  return ok({
    formula,
    lineUnit: unit,
    size: size.value,
    lines,
    total,
    making,
    taking,
    supply,
    keeping: keepingOf(
      formula.preparation.kind,
      making.kind === 'product' ? making.contents : null,
      bench.shelf.keeping,
    ),
    ethanol: taking ? ethanolTaken(making, taking) : null,
    ...waterFor(total, making),
  });
}

function made(
  formula: Formula,
  context: MakingContext,
): Result<{ readonly making: Making; readonly taking: Taking | null }> {
  const making = makingOf(formula.preparation, context);
  if (!making.ok) return making;
  const taking = formula.directions ? takingOf(formula.directions, making.value) : ok(null);
  return taking.ok ? ok({ making: making.value, taking: taking.value }) : taking;
}

/** A bottle that the formula names is what is filled; else the size that its amounts belong to, or the herb of one making. */
function sizeOf({ preparation: p }: Formula, nominal: Quantity | null): Quantity | null {
  return ('bottle' in p ? p.bottle : undefined) ?? nominal ?? (p.kind === 'syrup' ? p.herb : null);
}

/** Weighs the batch; where rounding asks for more than is in hand, as many steps of the balance less as it takes. */
function weigh(
  composition: Composition,
  size: Figure<Quantity>,
  instrument: Instrument,
  limited: ReadonlySet<string>,
  have: ReadonlyMap<string, Quantity>,
): Result<{ lines: WeighedLine[]; total: Figure<Quantity> }> {
  const step = given(inUnit(instrument.step, composition.unit), `step of the ${instrument.name}`);
  let batch = size;
  for (let less = 1; ; less += 1) {
    const masses = exactAmounts(composition, batch);
    if (!masses.ok) return masses;
    const weighed = roundToInstrument(masses.value, batch, instrument, composition.unit, limited);
    if (!weighed.ok || !weighed.value.lines.some((l) => isShort(l, have))) return weighed;
    const steps = given(exact(less), 'steps less, until no line needs more than is in hand');
    batch = worked(
      minus(size.value, times(step.value, less)),
      `batch, some steps of the ${instrument.name} less`,
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
