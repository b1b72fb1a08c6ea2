import type { Taking } from '../dosing/directions.ts';
import { dosesAPot, herbADay } from '../dosing/supply.ts';
import type { Exact } from '../measure/exact.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, type Quantity, quantity, times } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { roundTo } from '../measure/round.ts';
import { gram, millilitre } from '../measure/units.ts';
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

/** The mass of the batch in g, before it is rounded to the balance. */
export function batchSize(asked: BatchAsked, of: SizeContext): Result<Figure<Quantity>> {
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
  if (of.making.kind === 'pot') return ok(of.making.pot.herb);
  if (of.nominal) return ok(given(inUnit(of.nominal, gram), 'size of the formula as written'));
  return bad('how much is to be made? Say --make "100 g", --days 7 or --doses 20');
}

/** Herb for a volume of finished tea: herb in a pot x volume / strained volume. */
function byVolume(volume: Quantity, { making }: SizeContext): Result<Figure<Quantity>> {
  if (making.kind !== 'pot') return bad('a powder is made by mass: write such as --make "100 g"');
  const wanted = given(inUnit(volume, millilitre), 'volume asked for');
  const { herb, strained } = making.pot;
  const value = herb.value.value.times(wanted.value.value).div(strained.value.value);
  return ok(worked(quantity(value, gram), 'batch for the volume', '{} x {} / {}', [herb, wanted, strained]));
}

function byDoses(doses: Quantity, { making, taking }: SizeContext): Result<Figure<Quantity>> {
  if (taking === null) return bad('the formula has no directions, so a dose has no size: say --make "100 g"');
  const wanted = given(doses, 'doses asked for');
  if (making.kind === 'dry') return ok(worked(times(taking.herb.value, doses.value), 'batch for the doses', '{} x {}', [wanted, taking.herb]));
  const each = dosesAPot(taking, making);
  if (each.value.value.isZero()) return bad('one dose is larger than a pot');
  const pots = worked(quantity(doses.value.div(each.value.value).toDecimalPlaces(40).ceil(), '{pot}'), 'pots for the doses', '{} / {}, rounded up', [wanted, each]);
  return ok(worked(times(making.pot.herb.value, pots.value.value), 'batch for the doses', '{} x {}', [pots, making.pot.herb]));
}

function byDays(days: Figure<Quantity>, { making, taking }: SizeContext): Result<Figure<Quantity>> {
  if (taking === null) return bad('the formula has no directions, so a day has no amount: say --make "100 g"');
  const { herb } = herbADay(taking, making);
  const count = inUnit(days.value, quantity(1, 'd').unit).value;
  return ok(worked(times(herb.value, count), 'batch for the days', '{} x {}', [days, herb]));
}

/** The largest batch, in whole steps of the balance, of which no line needs more than there is. */
function byHave(have: ReadonlyMap<string, Quantity>, { shares, step }: SizeContext): Result<Figure<Quantity>> {
  let scarcest: { key: string; batch: Exact; inHand: Quantity; share: Exact } | undefined;
  for (const [key, inHand] of have) {
    const share = shares.get(key);
    if (share === undefined) return bad(`${key} is not in this formula`);
    const batch = inUnit(inHand, gram).value.div(share);
    if (scarcest === undefined || batch.lt(scarcest.batch)) scarcest = { key, batch, inHand, share };
  }
  if (scarcest === undefined) return bad('say what is in hand, such as --have "ginger-rhizome=40 g"');
  const whole = roundTo(scarcest.batch, inUnit(step, gram).value, 'down');
  const share = given(quantity(scarcest.share.times(100), '%{m/m}'), `share of ${scarcest.key}`);
  const inHand = given(inUnit(scarcest.inHand, gram), `${scarcest.key} in hand, the scarcest`);
  return ok(worked(quantity(whole, gram), 'batch that it is enough for', '{} / {}, rounded down to the balance', [inHand, share]));
}
