import type { Taking } from '../dosing/directions.ts';
import { dosesFromADay, herbADay, potsADay } from '../dosing/supply.ts';
import { type Exact, one } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, type Quantity, quantity, times } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { roundTo } from '../measure/round.ts';
import { day, gram, millilitre } from '../measure/units.ts';
import { write } from '../measure/write.ts';
import type { Making } from './making.ts';

/** What the size of a batch is asked by. */
export type BatchAsked =
  | { readonly by: 'mass'; readonly mass: Quantity }
  | { readonly by: 'volume'; readonly volume: Quantity }
  | { readonly by: 'doses'; readonly doses: Quantity }
  | { readonly by: 'days'; readonly days: Quantity }
  /** What is in hand; the scarcest ingredient decides. */
  | { readonly by: 'have'; readonly have: ReadonlyMap<string, Quantity> }
  /** Nothing said: the course of the directions, else one pot, else the size of the formula as written. */
  | { readonly by: 'formula' };

export interface SizeContext {
  readonly making: Making;
  readonly taking: Taking | null;
  readonly nominal: Quantity | null;
  readonly shares: ReadonlyMap<string, Exact>;
  readonly step: Quantity;
}

/**
 * The mass of the batch in g. What has to be enough (for doses, days, a volume, a pot) is brought up to a whole step
 * of the balance here, for rounded down it would come out a day or a pot short; a mass asked for is left as it is.
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
      return ok(given(inUnit(asked.mass, gram), 'batch asked for'));
    case 'volume':
      return byVolume(asked.volume, of);
    case 'doses':
      return byDoses(asked.doses, of);
    case 'days':
      return byDays(given(asked.days, 'days asked for'), of);
    case 'have':
      return byHave(asked.have, of);
    case 'formula':
      return byFormula(of);
  }
}

function byFormula(of: SizeContext): Result<Figure<Quantity>> {
  if (of.taking?.days) return byDays(of.taking.days, of);
  if (of.making.kind === 'pot') return ok(enough(of.making.pot.herb, of.step));
  if (of.nominal) return ok(given(inUnit(of.nominal, gram), 'size of the formula as written'));
  return bad('how much is to be made? Say --make "100 g", --days 7 or --doses 20');
}

/** The batch as it is where the balance can weigh it, else a whole step of the balance more. */
function enough(batch: Figure<Quantity>, step: Quantity): Figure<Quantity> {
  const stepInGrams = inUnit(step, gram);
  const whole = roundTo(batch.value.value, stepInGrams.value, 'up');
  if (whole.eq(batch.value.value)) return batch;
  return worked(quantity(whole, gram), `${batch.step.says}, enough of it`, '{}, up to a whole step of {}', [
    batch,
    given(stepInGrams, 'step of the balance'),
  ]);
}

/** Herb for a volume of finished tea: herb in a pot x volume / strained volume. */
function byVolume(volume: Quantity, { making, step }: SizeContext): Result<Figure<Quantity>> {
  if (making.kind !== 'pot') return bad('a powder is made by mass: write such as --make "100 g"');
  const wanted = given(inUnit(volume, millilitre), 'volume asked for');
  const { herb, strained } = making.pot;
  const value = herb.value.value.times(wanted.value.value).div(strained.value.value);
  return ok(
    enough(
      worked(quantity(value, gram), 'batch for the volume', '{} x {} / {}', [herb, wanted, strained]),
      step,
    ),
  );
}

function byDoses(doses: Quantity, { making, taking, step }: SizeContext): Result<Figure<Quantity>> {
  if (taking === null) return bad('the formula has no directions, so a dose has no size: say --make "100 g"');
  const wanted = given(doses, 'doses asked for');
  if (making.kind === 'dry') {
    const value = times(taking.herb.value, doses.value);
    return ok(enough(worked(value, 'batch for the doses', '{} x {}', [wanted, taking.herb]), step));
  }
  const pots = potsForDoses(wanted, taking, making);
  if (!pots.ok) return pots;
  const { herb } = making.pot;
  const value = times(herb.value, pots.value.value.value);
  return ok(enough(worked(value, 'batch for the doses', '{} x {}', [pots.value, herb]), step));
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

function byDays(days: Figure<Quantity>, { making, taking, step }: SizeContext): Result<Figure<Quantity>> {
  if (taking === null)
    return bad('the formula has no directions, so a day has no amount: say --make "100 g"');
  const { herb } = herbADay(taking, making);
  const count = inUnit(days.value, day).value;
  return ok(enough(worked(times(herb.value, count), 'batch for the days', '{} x {}', [days, herb]), step));
}

/** The largest batch, in whole steps of the balance, of which no line needs more than there is. */
function byHave(
  have: ReadonlyMap<string, Quantity>,
  { shares, step }: SizeContext,
): Result<Figure<Quantity>> {
  let scarcest: { key: string; batch: Exact; inHand: Quantity; share: Exact } | undefined;
  for (const [key, inHand] of have) {
    const share = shares.get(key);
    if (share === undefined) return bad(`${key} is not in this formula`);
    if (inHand.unit.dimension !== 'mass')
      return bad(`${write(inHand)} of ${key}: what is in hand is weighed, so write such as 40 g`);
    const batch = inUnit(inHand, gram).value.div(share);
    if (scarcest === undefined || batch.lt(scarcest.batch)) scarcest = { key, batch, inHand, share };
  }
  if (scarcest === undefined) return bad('say what is in hand, such as --have "ginger-rhizome=40 g"');
  const whole = roundTo(scarcest.batch, inUnit(step, gram).value, 'down');
  if (whole.isZero())
    return bad(
      `${write(scarcest.inHand)} of ${scarcest.key} is too little for any batch that this balance can weigh`,
    );
  const share = given(quantity(scarcest.share.times(100), '%{m/m}'), `share of ${scarcest.key}`);
  const inHand = given(inUnit(scarcest.inHand, gram), `${scarcest.key} in hand, the scarcest`);
  return ok(
    worked(quantity(whole, gram), 'batch that it is enough for', '{} / {}, rounded down to the balance', [
      inHand,
      share,
    ]),
  );
}
