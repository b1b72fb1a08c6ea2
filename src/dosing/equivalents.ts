import type { Batch } from '../compounding/compound.ts';
import type { Making } from '../compounding/making.ts';
import type { Ingredient } from '../folder/schema/formula.ts';
import type { DosedKind } from '../folder/schema/monograph.ts';
import type { Exact } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { atMoisture } from '../measure/moisture.ts';
import type { SolventRatio, Strength } from '../measure/parse.ts';
import { inUnit, over, type Quantity, quantity, times } from '../measure/quantity.ts';
import { gram, gramPerMillilitre, millilitre, percent } from '../measure/units.ts';
import { dosedAs, type Route, routeOf } from './dosed-as.ts';

/** An amount at once, in a day and in a week, at the most times that the directions allow. */
export interface Amounts {
  readonly single: Figure<Quantity>;
  readonly daily: Figure<Quantity>;
  readonly weekly: Figure<Quantity>;
}

/** What a herb was drawn out with, and how much of that liquid is taken. */
export interface DrawnDose extends Amounts {
  /** Null for an essential oil, which stands in nothing. */
  readonly ratio: SolventRatio | null;
  readonly spirit: Strength | null;
}

/** What a person takes of one herb, in g of the herb as weighed. */
export interface HerbDose {
  readonly herb: string;
  /** The kinds of preparation that a published dose of it may be stated for. */
  readonly kinds: readonly DosedKind[];
  readonly route: Route;
  readonly use: string | null;
  /** True where the grams are of the fresh herb, with all its water. */
  readonly fresh: boolean;
  /** Null for what is put on the skin without measure. */
  readonly amounts: Amounts | null;
  /** Of fresh herb whose moisture is known: as much dried herb, at the most. */
  readonly dried: Amounts | null;
  readonly drawn: DrawnDose | null;
  /** Herb in the finished preparation, by each measure that a source may state it in. */
  readonly concentrations: readonly Figure<Quantity>[];
  readonly timesADay: Figure<Quantity> | null;
  readonly timesAWeek: Figure<Quantity> | null;
  readonly course: Figure<Quantity> | null;
}

/** The herb as dried wherever that is known, else as it was weighed. */
export const asDried = ({ dried, amounts }: HerbDose): Amounts | null => dried ?? amounts;

/**
 * Herb equivalent of every ingredient: lines in a dose x poured or weighed / total, after rounding, x the herb that a
 * unit of the line holds where it was drawn out before. Empty where the formula has no directions.
 */
export function herbDoses(batch: Batch): readonly HerbDose[] {
  const before = known.get(batch) ?? workedOut(batch);
  known.set(batch, before);
  return before;
}

/** The same for everyone who takes it: worked out once. */
const known = new WeakMap<Batch, readonly HerbDose[]>();

function workedOut(batch: Batch): HerbDose[] {
  const { taking, formula, making } = batch;
  if (formula.directions === undefined) return [];
  return batch.lines.flatMap((line): HerbDose[] => {
    const ingredient = formula.ingredients.find((i) => i.herb === line.key);
    if (ingredient === undefined) return [];
    const portion = taking && {
      value: taking.herb.value.value.times(line.weigh.value.value).div(batch.total.value.value),
      inputs: [taking.herb, line.weigh, batch.total],
    };
    const holds = making.kind === 'product' ? making.holds.get(line.key) : undefined;
    const fresh = ingredient.form === 'fresh' || ingredient.of_fresh === true;
    const poured =
      portion &&
      holds &&
      worked(
        quantity(portion.value, batch.lineUnit),
        `${line.key}, its ${ingredient.form} in a dose`,
        '{} x {} / {}',
        portion.inputs,
      );
    const single = portion && singleOf(line.key, portion, holds, poured);
    return [
      {
        herb: line.key,
        kinds: dosedAs(formula, ingredient),
        route: routeOf(formula),
        use: formula.use ?? null,
        fresh,
        amounts: single && amountsOf(single, line.key, batch),
        dried: single && fresh ? driedOf(single, ingredient, batch) : null,
        drawn: drawnOf(batch, ingredient, poured ?? null),
        concentrations: concentrationsOf(batch, line, holds),
        timesADay: taking?.timesMost ?? null,
        timesAWeek: taking?.timesAWeek ?? null,
        course: taking?.course ?? null,
      },
    ];
  });
}

interface Portion {
  readonly value: Exact;
  readonly inputs: readonly Figure<Quantity>[];
}

function singleOf(
  herb: string,
  portion: Portion,
  holds: Figure<Quantity> | undefined,
  poured: Figure<Quantity> | null | undefined,
): Figure<Quantity> {
  if (holds === undefined || !poured)
    return worked(quantity(portion.value, gram), `${herb} in a dose`, '{} x {} / {}', portion.inputs);
  const value = portion.value.times(holds.value.value);
  return worked(quantity(value, gram), `${herb} in a dose`, '{} x {}', [poured, holds]);
}

function amountsOf(single: Figure<Quantity>, what: string, { taking }: Batch): Amounts | null {
  if (taking === null) return null;
  const daily = times(single.value, taking.timesMost.value.value);
  const weekly = times(single.value, taking.timesAWeek.value.value);
  return {
    single,
    daily: worked(daily, `${what} in a day`, '{} x {}', [single, taking.timesMost]),
    weekly: worked(weekly, `${what} in a week`, '{} x {}', [single, taking.timesAWeek]),
  };
}

/** Dried herb keeps about 12 % of water: the limit of most pharmacopoeial monographs, from memory. */
const DRY_MOISTURE = given(quantity(12, percent), 'water in the dried herb', {
  key: 'dried-herb',
  body: 'pharmacopoeias',
  title: 'loss on drying of most dried herbs, at most 12 %',
  reading: 'memory',
});

/** Dried = fresh x (1 - moisture of the fresh) / (1 - moisture of the dried); the driest that the fresh herb may be. */
function driedOf(single: Figure<Quantity>, { herb, moisture }: Ingredient, batch: Batch): Amounts | null {
  if (!moisture?.low) return null;
  const water = given(moisture.low, `moisture of ${herb} at the least, from the formula`);
  const says = `${herb} in a dose, as dried herb`;
  const once = worked(
    atMoisture(single.value, moisture.low, DRY_MOISTURE.value),
    says,
    '{} x (100 % - {}) / (100 % - {})',
    [single, water, DRY_MOISTURE],
  );
  return amountsOf(once, `${herb}, as dried herb,`, batch);
}

/** In a blend the liquid of this herb; of a tincture the whole of it, whatever herbs it was drawn from. */
function drawnOf(batch: Batch, i: Ingredient, poured: Figure<Quantity> | null): DrawnDose | null {
  const { making, taking } = batch;
  if (making.kind !== 'product' || taking === null) return null;
  if (poured !== null && (i.ratio !== undefined || i.form === 'essential-oil')) {
    const amounts = amountsOf(poured, `${i.herb}, its ${i.form}`, batch);
    return amounts && { ...amounts, ratio: i.ratio ?? null, spirit: i.spirit ?? null };
  }
  // Only of a single herb: of two drawn together neither is the tincture that a source speaks of.
  if (making.solvent === null || batch.lines.length !== 1) return null;
  const amounts = amountsOf(taking.dose, 'taken', batch);
  return amounts && { ...amounts, ...making.solvent };
}

/** g in 1 mL and g in 100 g of what is finished, as far as its volume and its weight are known. */
function concentrationsOf(
  { making, lines, total, lineUnit }: Batch,
  line: Batch['lines'][number],
  holds: Figure<Quantity> | undefined,
): Figure<Quantity>[] {
  if (lines.length === 0) return [];
  if (making.kind === 'dry') return [];
  const share = line.weigh.value.value.div(total.value.value);
  if (making.kind === 'pot') return potConcentrations(making, share, line.key);
  const { makes } = making;
  const herb = holds ? times(holds.value, line.weigh.value.value).value : line.weigh.value.value;
  const weighed: Figure<Quantity> = holds
    ? worked(quantity(herb, gram), `${line.key} in the batch`, '{} x {}', [line.weigh, holds])
    : line.weigh;
  if (makes.value.unit === millilitre)
    return [
      worked(quantity(herb.div(makes.value.value), gramPerMillilitre), `${line.key} in 1 mL`, '{} / {}', [
        weighed,
        makes,
      ]),
    ];
  if (makes.value.unit !== gram || lineUnit !== gram) return [];
  return [
    worked(quantity(herb.times(100).div(makes.value.value), percent), `${line.key} in 100 g`, '{} / {}', [
      weighed,
      makes,
    ]),
  ];
}

function potConcentrations(
  making: Extract<Making, { kind: 'pot' }>,
  share: Exact,
  herb: string,
): Figure<Quantity>[] {
  const { pot, into } = making;
  const weighed = worked(times(pot.herb.value, share), `${herb} in one pot`, 'its share of {}', [pot.herb]);
  const whole = into
    ? worked(
        quantity(inUnit(into.value, millilitre).value.plus(pot.strained.value.value), millilitre),
        'the bath',
        '{} + {}',
        [into, pot.strained],
      )
    : pot.strained;
  const value = over(weighed.value, whole.value.value).value;
  return [worked(quantity(value, gramPerMillilitre), `${herb} in 1 mL`, '{} / {}', [weighed, whole])];
}
