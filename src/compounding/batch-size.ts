import type { Taking } from '../dosing/directions.ts';
import { dosesFromADay, herbADay, potsADay } from '../dosing/supply.ts';
import { addUp } from '../measure/add-up.ts';
import { type Exact, one } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, type Quantity, quantity, times } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { roundTo } from '../measure/round.ts';
import { day, gram, millilitre, type Unit } from '../measure/units.ts';
import { write } from '../measure/write.ts';
import type { Making } from './making.ts';
import type { Product } from './product.ts';
import type { Instrument } from './weighing.ts';

/** What the size of a batch is asked by. */
export type BatchAsked =
  | { readonly by: 'mass'; readonly mass: Quantity }
  | { readonly by: 'volume'; readonly volume: Quantity }
  /** Capsules or suppositories. */
  | { readonly by: 'count'; readonly count: Quantity }
  | { readonly by: 'doses'; readonly doses: Quantity }
  | { readonly by: 'days'; readonly days: Quantity }
  /** What is in hand; the scarcest ingredient decides. */
  | { readonly by: 'have'; readonly have: ReadonlyMap<string, Quantity> }
  /** What was weighed or poured when it was made, line by line. */
  | { readonly by: 'recorded'; readonly lines: ReadonlyMap<string, Quantity> }
  /** Nothing said: the course of the directions, else one pot, else the size of the formula as written. */
  | { readonly by: 'formula' };

export interface SizeContext {
  readonly making: Making;
  readonly taking: Taking | null;
  readonly nominal: Quantity | null;
  readonly shares: ReadonlyMap<string, Exact>;
  readonly instrument: Instrument;
  /** What the lines are measured in. */
  readonly unit: Unit;
}

/**
 * The size of the batch in the unit of its lines. What has to be enough (for doses, days, a volume, a pot) is brought up to a whole step
 * of the balance or cylinder here, for rounded down it would come out a day or a pot short; a mass asked for is left as it is.
 * Errors: a size that nothing says, and a batch of nothing.
 */
export function batchSize(asked: BatchAsked, of: SizeContext): Result<Figure<Quantity>> {
  const size = sizeAsked(asked, of);
  if (!size.ok || size.value.value.value.gt(0)) return size;
  return bad(`${size.value.step.says}: ${write(size.value.value)}, which is nothing to make`);
}

function sizeAsked(asked: BatchAsked, of: SizeContext): Result<Figure<Quantity>> {
  switch (asked.by) {
    case 'mass':
      return byMass(asked.mass, of);
    case 'volume':
      return byVolume(asked.volume, of);
    case 'count':
      return byCount(asked.count, of);
    case 'doses':
      return byDoses(asked.doses, of);
    case 'days':
      return byDays(given(asked.days, 'days asked for'), of);
    case 'have':
      return byHave(asked.have, of);
    case 'recorded':
      return ok(
        addUp(
          [...asked.lines].map(([key, q]) => given(inUnit(q, of.unit), `${key}, as recorded`)),
          'batch, as recorded',
        ),
      );
    case 'formula':
      return byFormula(of);
  }
}

/** What the formula names as its size; a jar of what is drawn out; else the course of the directions, else one pot. */
function byFormula(of: SizeContext): Result<Figure<Quantity>> {
  const { making, taking, nominal, unit } = of;
  const asWritten = nominal && given(inUnit(nominal, unit), 'size of the formula as written');
  if (making.kind === 'product' && asWritten) return ok(asWritten);
  if (making.kind === 'product' && making.solvent !== null) return ok(making.base);
  if (taking?.days) return byDays(taking.days, of);
  if (making.kind === 'pot') return ok(enough(making.pot.herb, of));
  if (asWritten) return ok(asWritten);
  if (making.kind === 'product') return ok(making.base);
  return bad('how much is to be made? Say --make "100 g", --days 7 or --doses 20');
}

/** The batch as it is where it can be measured, else a whole step of the balance or cylinder more. */
function enough(batch: Figure<Quantity>, { instrument, unit }: SizeContext): Figure<Quantity> {
  const step = inUnit(instrument.step, unit);
  const whole = roundTo(batch.value.value, step.value, 'up');
  if (whole.eq(batch.value.value)) return batch;
  return worked(quantity(whole, unit), `${batch.step.says}, enough of it`, '{}, up to a whole step of {}', [
    batch,
    given(step, `step of the ${instrument.name}`),
  ]);
}

/** What is weighed together; a blend that is poured has a weight only with the density of each part. */
function byMass(mass: Quantity, { unit }: SizeContext): Result<Figure<Quantity>> {
  if (unit.dimension !== 'mass') return bad('this is poured by volume: write such as --make "100 mL"');
  return ok(given(inUnit(mass, gram), 'batch asked for'));
}

/** Lines for so many capsules or suppositories: base x count / what the base comes to. */
function byCount(count: Quantity, of: SizeContext): Result<Figure<Quantity>> {
  const { making } = of;
  if (making.kind !== 'product' || making.makes.value.unit !== count.unit)
    return bad(`this makes no ${count.unit.plural}: say such as --make "100 ${of.unit.symbol}"`);
  return ok(ofProduct(given(count, 'number asked for'), making, of));
}

/** The lines that come to so much of the finished product: base x wanted / makes. */
function ofProduct(wanted: Figure<Quantity>, { base, makes }: Product, of: SizeContext): Figure<Quantity> {
  const value = base.value.value.times(wanted.value.value).div(makes.value.value);
  return enough(worked(quantity(value, of.unit), 'batch for it', '{} x {} / {}', [base, wanted, makes]), of);
}

/** Herb for a volume of finished tea: herb in a pot x volume / strained volume. */
function byVolume(volume: Quantity, of: SizeContext): Result<Figure<Quantity>> {
  const { making } = of;
  if (making.kind === 'product') return productByVolume(volume, making, of);
  if (making.kind !== 'pot') return bad('a powder is made by mass: write such as --make "100 g"');
  const wanted = given(inUnit(volume, millilitre), 'volume asked for');
  const { herb, strained } = making.pot;
  const value = herb.value.value.times(wanted.value.value).div(strained.value.value);
  return ok(
    enough(
      worked(quantity(value, gram), 'batch for the volume', '{} x {} / {}', [herb, wanted, strained]),
      of,
    ),
  );
}

/** As much as yields the volume even where the marc keeps the most; by its density where doses are weighed. */
function productByVolume(volume: Quantity, making: Product, of: SizeContext): Result<Figure<Quantity>> {
  const wanted = given(inUnit(volume, millilitre), 'volume asked for');
  const { makes, yields, density } = making;
  const least = yields?.value.low;
  if (least && least.unit.dimension === 'volume')
    return ok(
      ofProduct(wanted, { ...making, makes: worked(least, 'yield, at the least', '{}', [yields]) }, of),
    );
  if (makes.value.unit.dimension === 'volume') return ok(ofProduct(wanted, making, of));
  if (density === null) return bad('this is weighed, not measured: write such as --make "100 g"');
  const value = quantity(wanted.value.value.times(density.value.value), gram);
  return ok(ofProduct(worked(value, 'the same by weight', '{} x {}', [wanted, density]), making, of));
}

function byDoses(doses: Quantity, of: SizeContext): Result<Figure<Quantity>> {
  const { making, taking } = of;
  if (taking === null) return bad('the formula has no directions, so a dose has no size: say --make "100 g"');
  const wanted = given(doses, 'doses asked for');
  if (making.kind !== 'pot') {
    const value = times(taking.herb.value, doses.value);
    const batch = worked(value, 'batch for the doses', '{} x {}', [wanted, taking.herb]);
    return ok(enough(beforeParting(batch, making), of));
  }
  const pots = potsForDoses(wanted, taking, making);
  if (!pots.ok) return pots;
  const { herb } = making.pot;
  const value = times(herb.value, pots.value.value.value);
  return ok(enough(worked(value, 'batch for the doses', '{} x {}', [pots.value, herb]), of));
}

/** Whole pots: those of the full days, and for the doses of a last day as many as they need. */
function potsForDoses(
  wanted: Figure<Quantity>,
  taking: Taking,
  making: Extract<Making, { kind: 'pot' }>,
): Result<Figure<Quantity>> {
  const aDay = potsADay(taking, making);
  const each = dosesFromADay(taking, making);
  if (each.value.value.isZero()) return bad('one dose is larger than the pots of a day');
  const days = roundTo(wanted.value.value.div(each.value.value), one, 'down');
  const rest = wanted.value.value.minus(days.times(each.value.value));
  const last = roundTo(rest.times(taking.dose.value.value).div(making.pot.strained.value.value), one, 'up');
  const by = 'full days of {} / {} x {}, and what is over x {} / {}, rounded up to whole pots';
  const inputs = [wanted, each, aDay, taking.dose, making.pot.strained];
  return ok(
    worked(quantity(days.times(aDay.value.value).plus(last), '{pot}'), 'pots for the doses', by, inputs),
  );
}

function byDays(days: Figure<Quantity>, of: SizeContext): Result<Figure<Quantity>> {
  const { making, taking } = of;
  if (taking === null)
    return bad('the formula has no directions, so a day has no amount: say --make "100 g"');
  const { herb } = herbADay(taking, making);
  const count = inUnit(days.value, day).value;
  const batch = worked(times(herb.value, count), 'batch for the days', '{} x {}', [days, herb]);
  return ok(enough(beforeParting(batch, making), of));
}

/** So much more as the marc may keep of it: batch x what it makes / what is in hand at the least. */
function beforeParting(batch: Figure<Quantity>, making: Making): Figure<Quantity> {
  const least = making.kind === 'product' ? making.yields?.value.low : null;
  if (making.kind !== 'product' || !least || making.yields === null) return batch;
  if (least.unit !== making.makes.value.unit || least.unit.dimension === 'count') return batch;
  const inHand = worked(least, 'in hand, at the least', '{}', [making.yields]);
  const more = times(batch.value, making.makes.value.value.div(least.value));
  return worked(more, 'batch, with what the marc may keep', '{} x {} / {}', [batch, making.makes, inHand]);
}

/** The largest batch, in whole steps of the balance, of which no line needs more than there is. */
function byHave(
  have: ReadonlyMap<string, Quantity>,
  { shares, instrument, unit }: SizeContext,
): Result<Figure<Quantity>> {
  let scarcest: { key: string; batch: Exact; inHand: Quantity; share: Exact } | undefined;
  for (const [key, inHand] of have) {
    const share = shares.get(key);
    if (share === undefined) return bad(`${key} is not in this formula`);
    if (inHand.unit.dimension !== unit.dimension)
      return bad(
        `${write(inHand)} of ${key}: this formula is made by ${unit.dimension}, so write such as 40 ${unit.symbol}`,
      );
    const batch = inUnit(inHand, unit).value.div(share);
    if (scarcest === undefined || batch.lt(scarcest.batch)) scarcest = { key, batch, inHand, share };
  }
  if (scarcest === undefined) return bad('say what is in hand, such as --have "ginger-rhizome=40 g"');
  const whole = roundTo(scarcest.batch, inUnit(instrument.step, unit).value, 'down');
  if (whole.isZero())
    return bad(
      `${write(scarcest.inHand)} of ${scarcest.key} is too little for any batch that this ${instrument.name} can measure`,
    );
  const share = given(quantity(scarcest.share.times(100), '%'), `share of ${scarcest.key}`);
  const inHand = given(inUnit(scarcest.inHand, unit), `${scarcest.key} in hand, the scarcest`);
  return ok(
    worked(
      quantity(whole, unit),
      'batch that it is enough for',
      `{} / {}, rounded down to the ${instrument.name}`,
      [inHand, share],
    ),
  );
}
