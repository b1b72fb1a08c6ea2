import type { Amendment } from '../folder/amend.ts';
import type { Folder } from '../folder/folder.ts';
import { keyOf } from '../folder/ingredients.ts';
import type { Read } from '../folder/read.ts';
import type { Formula } from '../folder/schema/formula.ts';
import type { KeptAs } from '../folder/schema/record.ts';
import { type CalendarDate, compareDates, writeDate } from '../measure/calendar.ts';
import { compareQuantities, inUnit, type Quantity, times } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { write } from '../measure/write.ts';
import type { DrawnLine } from '../recording/draw.ts';
import { firstExpiringFirst, type Lot } from '../recording/draw.ts';
import type { Snapshot } from '../recording/journal.ts';
import { mentioning, readRecords } from '../recording/journal.ts';
import { quantityText } from '../recording/quantity-text.ts';
import { lotsOf, stockAmong } from '../recording/relevant.ts';
import { cancelled, type Stock } from '../recording/stock.ts';
import { inHandOf } from '../reports/label-facts.ts';
import { amountLike } from './amount-like.ts';
import { changesAsked } from './changes-asked.ts';
import { discardDate } from './discard-date.ts';
import { amended, fromShelf, linesText, type Written, writtenFormula } from './from-shelf.ts';
import { failedLoading, type Loading, type MadeUp, madeUp } from './load.ts';
import { asRecorded, formulaOf } from './lot-made.ts';
import type { DispenseOptions } from './options.ts';
import { usage } from './outcome.ts';
import { numberTyped, recordOf } from './recorded.ts';

/** What is handed over: made up for this person, or filled from a batch; as the formula has it, or like one before. */
export interface Remedy {
  readonly made: MadeUp;
  /** The formula as it was made, for the record. */
  readonly text: string;
  /** The formula of the folder that it goes back to. */
  readonly base: Formula;
  readonly amount: Quantity;
  readonly batch: string | null;
  readonly lines: readonly DrawnLine[];
  readonly linesText: readonly Record<string, unknown>[];
  readonly stock: Stock;
  readonly otherwise: readonly Amendment[];
  readonly madeOn: CalendarDate;
  readonly discardAfter: CalendarDate;
  readonly like: string | null;
  readonly changes: readonly string[];
  readonly corrects: string | null;
}

export async function remedyFor(
  folder: Folder,
  now: Snapshot,
  id: string,
  options: DispenseOptions,
  on: CalendarDate,
): Promise<Loading<Remedy>> {
  const corrects = await correctedOf(now, options.corrects);
  if (!corrects.ok) return corrects;
  if (options.batch !== undefined) {
    if (options.like !== undefined) return refusedFor('--batch is filled as it is: leave out --like');
    return filled(folder, now, id, options, corrects.value, on);
  }
  const wanted = await wantedFor(folder, now, id, options);
  if (!wanted.ok) return wanted;
  const shelf = await fromShelf(folder, wanted.value.written, now, wanted.value.options, on, corrects.value);
  if (!shelf.ok) return shelf;
  const until = discardDate(folder, shelf.value, options.discardAfter, on);
  if (!until.ok) return refusedFor(until.why);
  const base = await baseOf(folder, wanted.value.written);
  return {
    ok: true,
    value: {
      made: shelf.value.made,
      text: shelf.value.text,
      base,
      amount: inHandOf(shelf.value.made.batch),
      batch: null,
      lines: shelf.value.lines,
      linesText: linesText(shelf.value.lines),
      stock: shelf.value.stock,
      otherwise: shelf.value.otherwise,
      madeOn: on,
      discardAfter: until.value.date,
      like: wanted.value.like,
      changes: wanted.value.changes,
      corrects: corrects.value,
    },
  };
}

const refusedFor = (why: string) => failedLoading([usage(why)]);

/** The formula of the folder as it stands today; as it was made, where the folder has it no more. */
async function baseOf(folder: Folder, written: Written): Promise<Formula> {
  const own = await writtenFormula(folder, written.read.value.formula);
  return (own.ok ? own.value : written).read.value;
}

async function correctedOf(now: Snapshot, typed: string | undefined): Promise<Loading<string | null>> {
  if (typed === undefined) return { ok: true, value: null };
  const number = numberTyped(typed, '--corrects');
  if (!number.ok) return number;
  const record = await recordOf(now, number.value, ['dispensing']);
  if (!record.ok) return record;
  const read = await readRecords(now, mentioning(now, ['kind: correction', 'corrects: ']));
  if (!read.ok) return read;
  if (cancelled(read.value).has(number.value)) return refusedFor(`${number.value} was corrected already`);
  return { ok: true, value: number.value };
}

interface Wanted {
  readonly written: Written;
  readonly options: DispenseOptions;
  readonly like: string | null;
  readonly changes: readonly string[];
}

/** The formula that was named, or that of a record, with what is to be changed of it. */
async function wantedFor(
  folder: Folder,
  now: Snapshot,
  id: string,
  options: DispenseOptions,
): Promise<Loading<Wanted>> {
  if (options.like === undefined) {
    if (options.change !== undefined)
      return refusedFor('--change changes what was handed over before: add --like RECORD');
    if (id === '') return refusedFor('which formula? name one, or --like RECORD for the same as before');
    const written = await writtenFormula(folder, id);
    return written.ok
      ? { ok: true, value: { written: written.value, options, like: null, changes: [] } }
      : written;
  }
  const number = numberTyped(options.like, '--like');
  if (!number.ok) return number;
  const record = await recordOf(now, number.value, ['dispensing']);
  if (!record.ok) return record;
  const { formula, text } = record.value;
  if (id !== '' && id !== formula)
    return refusedFor(`${number.value} is ${formula}, and not ${id}: leave the formula out`);
  const read = await formulaOf(folder, record.value);
  if (!read.ok) return read;
  const written: Written = { read: read.value, text };
  const sized = ['make', 'days', 'doses', 'have'].some(
    (k) => options[k as keyof DispenseOptions] !== undefined,
  );
  if (options.change === undefined) {
    const size = sized ? options : { ...options, make: quantityText(record.value.amount) };
    return { ok: true, value: { written, options: size, like: number.value, changes: [] } };
  }
  if (sized) return refusedFor('--change sets each amount: leave out --make, --days and --doses');
  const before = await amountsBefore(folder, record.value, read.value);
  if (!before.ok) return before;
  const lots = await lotsOf(now, ['herb: ']);
  if (!lots.ok) return lots;
  const shelf = (herb: string): Lot[] =>
    [...lots.value.values()]
      .filter((h) => h.from.kind === 'lot' && h.from.herb === herb && h.left.value.gt(0) && !h.quarantined)
      .sort(firstExpiringFirst)
      .map((h) => h.from as Lot);
  const changes = await changesAsked(options.change, read.value.value, before.value, folder, shelf);
  if (!changes.ok) return refusedFor(`--change ${changes.why}`);
  const anew = await amended(folder, written, changes.value.amendments, ['makes']);
  if (!anew.ok) return anew;
  return {
    ok: true,
    value: { written: anew.value, options, like: number.value, changes: changes.value.says },
  };
}

/** What each line came to in what was handed over. */
async function amountsBefore(
  folder: Folder,
  record: KeptAs<'dispensing'>,
  read: Read<Formula>,
): Promise<Loading<ReadonlyMap<string, Quantity>>> {
  const keys = new Set(read.value.ingredients.map(keyOf));
  if (record.lines)
    return {
      ok: true,
      value: new Map(record.lines.filter((l) => keys.has(l.of)).map((l) => [l.of, l.amount])),
    };
  const made = await madeUp(folder, read, { make: quantityText(record.amount) });
  if (!made.ok) return made;
  return { ok: true, value: new Map(made.value.batch.lines.map((l) => [l.key, l.weigh.value])) };
}

/** So much of a batch; as much as the course takes, where nothing else is said. */
async function filled(
  folder: Folder,
  now: Snapshot,
  id: string,
  options: DispenseOptions,
  corrects: string | null,
  on: CalendarDate,
): Promise<Loading<Remedy>> {
  const number = numberTyped(options.batch ?? '', '--batch');
  if (!number.ok) return number;
  const record = await recordOf(now, number.value, ['batch']);
  if (!record.ok) return record;
  const { formula } = record.value;
  if (id !== '' && id !== formula) return refusedFor(`batch ${number.value} is ${formula}, and not ${id}`);
  for (const key of ['days', 'doses', 'have', 'discardAfter', 'withoutLots'] as const)
    if (options[key] !== undefined)
      return refusedFor(
        `a batch is filled as it is: leave out --${key.replace(/[A-Z]/g, (c) => `-${c.toLowerCase()}`)}`,
      );
  const stock = await stockAmong(now, [number.value], corrects);
  if (!stock.ok) return stock;
  const held = stock.value.get(number.value);
  if (!held) return refusedFor(`batch ${number.value} was cancelled`);
  if (held.quarantined)
    return refusedFor(`batch ${number.value} is in quarantine: it is not handed to anyone`);
  const why = whyNotToday(record.value, on);
  if (why !== null) return refusedFor(`batch ${number.value} ${why}`);
  const made = await asRecorded(folder, record.value);
  if (!made.ok) return made;
  const amount = amountAsked(options.make, made.value, held.left);
  if (!amount.ok) return refusedFor(amount.why);
  if (compareQuantities(amount.value, held.left) > 0)
    return refusedFor(
      `${write(amount.value, 'exact')} wanted, and ${write(held.left, 'exact')} of batch ${number.value} is left: say how much with --make`,
    );
  const own = await writtenFormula(folder, formula);
  return {
    ok: true,
    value: {
      made: made.value,
      text: record.value.text,
      base: own.ok ? own.value.read.value : made.value.formula,
      amount: amount.value,
      batch: number.value,
      lines: [],
      linesText: [],
      stock: stock.value,
      otherwise: [],
      madeOn: record.value.on,
      discardAfter: record.value.label.discard_after,
      like: null,
      changes: [],
      corrects,
    },
  };
}

function whyNotToday({ on: made, label }: KeptAs<'batch'>, on: CalendarDate): string | null {
  if (compareDates(made, on) > 0) return `was made later, on ${writeDate(made)}: set the day with --on`;
  return compareDates(label.discard_after, on) < 0
    ? `is to be discarded after ${writeDate(label.discard_after)}: it is not handed to anyone`
    : null;
}

function amountAsked(typed: string | undefined, { batch }: MadeUp, left: Quantity): Result<Quantity> {
  if (typed !== undefined) return amountLike('--make', typed, left);
  const course = courseNeeds(batch);
  return course
    ? ok(inUnit(course, left.unit))
    : bad('how much? the directions set no end: add --make, such as --make "100 mL"');
}

/** What the course takes of what is handed over: of a product its doses, of a blend for tea its pots. */
function courseNeeds({ supply, taking }: MadeUp['batch']): Quantity | null {
  if (!supply || !taking?.days) return null;
  return supply.course?.needs.value ?? times(supply.perDay.value, taking.days.value.value);
}
