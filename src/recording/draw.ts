import type { Form } from '../folder/forms.ts';
import type { KeptAs } from '../folder/schema/record.ts';
import { type CalendarDate, compareDates, writeDate } from '../measure/calendar.ts';
import { sum } from '../measure/exact.ts';
import type { Strength } from '../measure/parse.ts';
import { comparable, compareQuantities, inUnit, minus, type Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { write } from '../measure/write.ts';
import type { RecordNumber } from './number.ts';
import type { Held, Stock } from './stock.ts';

export type Lot = KeptAs<'lot'>;

/** What a line of a batch needs of the shelf. */
export interface Need {
  readonly key: string;
  /** `spirit` is what a tincture is made with. */
  readonly as: 'herb' | 'vehicle' | 'spirit';
  readonly form: Form;
  /** Of spirit: how strong it must be. */
  readonly strength?: Strength | undefined;
  /** By weight or by volume, or by both where its density is known. */
  readonly amounts: readonly Quantity[];
}

export interface Draw {
  readonly lot: RecordNumber;
  readonly amount: Quantity;
}

/** A line with the lots that it is taken of; `lot` is the first of them, whose ratio and strength all of them have. */
export interface DrawnLine {
  readonly need: Need;
  readonly draws: readonly Draw[];
  readonly lot: Lot | null;
}

/** A herb is drawn of lots or refused; a vehicle and spirit only where any was ever booked in. */
export type Policy = 'lots' | 'without lots';

/**
 * Takes each line of the lots on the shelf, first expiring first, lots without a date last, of one day the older first.
 * Lots that are in quarantine, have expired or are used up give nothing. Lots of another ratio or strength are never
 * poured together as one line: the first to expire that is enough with its like is taken.
 * Errors: for every line what there is and what is wanted.
 */
export function drawLots(
  needs: readonly Need[],
  stock: Stock,
  on: CalendarDate,
  policy: Policy,
): Result<readonly DrawnLine[], readonly string[]> {
  const lacks: string[] = [];
  const lines = needs.map((need): DrawnLine => {
    const none = { need, draws: [], lot: null };
    const lots = [...stock.values()].filter((h): h is Held & { from: Lot } => isOf(h, need));
    if (policy === 'without lots' || (lots.length === 0 && need.as !== 'herb')) return none;
    const usable = lots.filter((h) => whyUnusable(h, need, on) === null).sort(firstExpiringFirst);
    for (const alike of groups(usable)) {
      const [first] = alike;
      const amount = first && amountIn(need, first.left);
      if (amount && compareQuantities(inHand(alike, amount), amount) >= 0)
        return { need, draws: taken(alike, amount), lot: first.from };
    }
    lacks.push(lackOf(need, lots, usable, on));
    return none;
  });
  return lacks.length > 0 ? bad(lacks) : ok(lines);
}

type HeldLot = Held & { readonly from: Lot };

/** The amount by the measure that a lot was booked in by. */
const amountIn = ({ amounts }: Need, like: Quantity): Quantity | undefined =>
  amounts.find((a) => comparable(a.unit, like.unit));

/** What was dried whole can be powdered for a formula; a powder cannot be made whole. */
function isOf({ from }: Held, { key, as, form, strength }: Need): boolean {
  if (from.kind !== 'lot') return false;
  if (as === 'spirit') {
    const { herb, vehicle, spirit } = from;
    return !herb && !vehicle && sameStrength(spirit, strength);
  }
  if (from[as] !== key) return false;
  const its = from.form ?? 'dried';
  return as === 'vehicle' || its === form || (form === 'powder' && its === 'dried');
}

function sameStrength(a: Strength | undefined, b: Strength | undefined): boolean {
  return a !== undefined && b !== undefined && comparable(a.unit, b.unit) && compareQuantities(a, b) === 0;
}

function whyUnusable({ from, left, quarantined }: HeldLot, need: Need, on: CalendarDate): string | null {
  if (quarantined) return 'is in quarantine';
  if (compareDates(from.on, on) > 0) return `was booked in later, on ${writeDate(from.on)}`;
  if (from.expires && compareDates(from.expires, on) < 0) return `expired on ${writeDate(from.expires)}`;
  if (!left.value.gt(0)) return 'is used up';
  if (!amountIn(need, left))
    return `was booked in by ${left.unit.dimension}, and is wanted by ${need.amounts[0]?.unit.dimension ?? 'weight'}`;
  return null;
}

export function firstExpiringFirst(a: Held, b: Held): number {
  const [x, y] = [expiresOn(a), expiresOn(b)];
  const byDate = x && y ? compareDates(x, y) : x ? -1 : y ? 1 : 0;
  return byDate || (a.from.record < b.from.record ? -1 : 1);
}

export const expiresOn = ({ from }: Held): CalendarDate | null =>
  (from.kind === 'lot' ? from.expires : from.label.discard_after) ?? null;

/** What makes the liquid of one lot another than that of the next. */
function strengthOf({ from, left }: HeldLot): string {
  const own = [from.spirit, from.glycerol, from.density].map((q) =>
    q ? `${q.value.toFixed()} ${q.unit.code}` : '',
  );
  const { low, high } = from.moisture ?? { low: null, high: null };
  return [
    left.unit.dimension,
    from.form,
    from.ratio?.text,
    ...own,
    low?.value.toFixed(),
    high?.value.toFixed(),
  ].join('|');
}

/** Lots of one strength together, in the order of the first to expire of each. */
function groups(lots: readonly HeldLot[]): HeldLot[][] {
  const byStrength = new Map<string, HeldLot[]>();
  for (const lot of lots) byStrength.set(strengthOf(lot), [...(byStrength.get(strengthOf(lot)) ?? []), lot]);
  return [...byStrength.values()];
}

function inHand(lots: readonly HeldLot[], { unit }: Quantity): Quantity {
  return { value: sum(lots.map((l) => inUnit(l.left, unit).value)), unit };
}

function taken(lots: readonly HeldLot[], amount: Quantity): Draw[] {
  const draws: Draw[] = [];
  let wanted = amount;
  for (const { from, left } of lots) {
    if (!wanted.value.gt(0)) break;
    const has = inUnit(left, amount.unit);
    const part = compareQuantities(has, wanted) < 0 ? has : wanted;
    draws.push({ lot: from.record, amount: part });
    wanted = minus(wanted, part);
  }
  return draws;
}

function lackOf(need: Need, lots: readonly HeldLot[], usable: readonly HeldLot[], on: CalendarDate): string {
  const what = need.as === 'herb' && need.form !== 'dried' ? `${need.key} (${need.form})` : need.key;
  const [amount] = need.amounts as readonly [Quantity];
  const wanted = `${what}: ${write(amount, 'exact')} wanted`;
  if (lots.length === 0) return `${wanted}, and no lot of it was booked in`;
  const strengths = groups(usable);
  const has =
    strengths.length === 0
      ? 'nothing that may be used'
      : strengths
          .map(
            (g) =>
              `${write(inHand(g, amountIn(need, (g[0] as HeldLot).left) ?? amount), 'exact')} (${lotsInWords(g)})`,
          )
          .join(' and, of another strength, ');
  const others = lots.flatMap((h) => {
    const why = whyUnusable(h, need, on);
    return why === null || why === 'is used up' ? [] : [`lot ${h.from.record} ${why}`];
  });
  return [`${wanted}, there is ${has}`, ...others].join('; ');
}

const lotsInWords = (lots: readonly HeldLot[]): string =>
  `${lots.length > 1 ? 'lots' : 'lot'} ${lots.map((l) => l.from.record).join(', ')}`;
