import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Amendment } from '../folder/amend.ts';
import { type Folder, pathOf } from '../folder/folder.ts';
import { type Read, readText } from '../folder/read.ts';
import type { Formula } from '../folder/schema/formula.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import { type DrawnLine, drawLots } from '../recording/draw.ts';
import type { Snapshot } from '../recording/journal.ts';
import { asDrawn, needsOf } from '../recording/needs.ts';
import { quantityText } from '../recording/quantity-text.ts';
import { lotsOf } from '../recording/relevant.ts';
import type { Stock } from '../recording/stock.ts';
import { failedLoading, type Loading, loadFormula, type MadeUp, madeUp } from './load.ts';
import type { BatchOptions, ShelfOptions } from './options.ts';
import { usage } from './outcome.ts';

/** A formula with the text that a record keeps of it. */
export interface Written {
  readonly read: Read<Formula>;
  readonly text: string;
}

export async function writtenFormula(folder: Folder, id: string): Promise<Loading<Written>> {
  const read = await loadFormula(folder, id);
  if (!read.ok) return read;
  const text = readFileSync(join(folder.root, pathOf('formula', id)), 'utf8');
  return { ok: true, value: { read: read.value, text } };
}

/** A formula's text with some of it changed, read again. */
export async function amended(
  folder: Folder,
  { read, text }: Written,
  changes: readonly Amendment[],
  unset: readonly string[] = [],
): Promise<Loading<Written>> {
  if (changes.length + unset.length === 0) return { ok: true, value: { read, text } };
  const { amendedText } = await import('../folder/validate-text.ts');
  const anew = amendedText(text, changes, unset);
  const { formula } = read.value;
  const again = await readText('formula', anew, read.file, formula, '', folder.measures);
  return again.ok ? { ok: true, value: { read: again.value, text: anew } } : failedLoading(again.why);
}

/** A remedy made of the lots on the shelf, with their own strengths. */
export interface FromShelf extends Written {
  readonly made: MadeUp;
  readonly lines: readonly DrawnLine[];
  readonly stock: Stock;
  /** Herbs and vehicles that the lots make stronger, weaker or otherwise than the formula says. */
  readonly otherwise: readonly Amendment[];
}

/** Makes a formula up, draws its lots, and makes it up again where they are of another strength. */
export async function fromShelf(
  folder: Folder,
  written: Written,
  now: Snapshot,
  options: BatchOptions & ShelfOptions,
  on: CalendarDate,
  except: string | null = null,
): Promise<Loading<FromShelf>> {
  const first = await madeUp(folder, written.read, options);
  if (!first.ok) return first;
  const needs = needsOf(first.value.batch, folder.settings);
  const stock = await lotsOf(now, [...needs.map((n) => n.key), 'spirit: '], except);
  if (!stock.ok) return stock;
  const drawn = drawLots(needs, stock.value, on, options.withoutLots ? 'without lots' : 'lots');
  if (!drawn.ok)
    return failedLoading([
      ...drawn.why.map(usage),
      usage('book it in with scruple lots book-in, make less with --make, or record it --without-lots'),
    ]);
  const otherwise = asDrawn(first.value.formula, drawn.value);
  const anew = await amended(folder, written, otherwise);
  if (!anew.ok) return anew;
  const made = otherwise.length === 0 ? first : await madeUp(folder, anew.value.read, options);
  if (!made.ok) return made;
  return {
    ok: true,
    value: { ...anew.value, made: made.value, lines: drawn.value, stock: stock.value, otherwise },
  };
}

/** The lines of a record, as YAML takes them. */
export function linesText(lines: readonly DrawnLine[]): Record<string, unknown>[] {
  return lines.map(({ need, draws }) => ({
    of: need.key,
    amount: quantityText(
      need.amounts.find((a) => draws.every((d) => d.amount.unit === a.unit)) ??
        (need.amounts[0] as DrawnLine['draws'][number]['amount']),
    ),
    draws: draws.map((d) => ({ lot: d.lot, amount: quantityText(d.amount) })),
  }));
}

export const monographsOf = ({ herbs }: MadeUp): ReadonlyMap<string, Monograph | null> =>
  new Map([...herbs].map(([id, h]) => [id, h.monograph]));
