import { fileURLToPath } from 'node:url';
import type { BatchAsked } from '../../src/compounding/batch-size.ts';
import { type Batch, type Bench, compound } from '../../src/compounding/compound.ts';
import { shelfOf } from '../../src/compounding/shelf.ts';
import { COMMON_CYLINDER } from '../../src/compounding/weighing.ts';
import type { Holds } from '../../src/folder/kinds.ts';
import { writeProblem } from '../../src/folder/problem.ts';
import { readDocument, readText } from '../../src/folder/read.ts';
import type { Formula } from '../../src/folder/schema/formula.ts';
import { DEFAULT_SETTINGS } from '../../src/folder/settings.ts';
import type { Exact } from '../../src/measure/exact.ts';
import type { Figure } from '../../src/measure/figure.ts';
import { type Measures, NO_MEASURES, parseQuantity } from '../../src/measure/parse.ts';
import type { Quantity } from '../../src/measure/quantity.ts';
import type { Result } from '../../src/measure/result.ts';
import { write } from '../../src/measure/write.ts';

/** A formula as its file would be written; the first two lines, which never matter here, are put in front. */
export async function formula(yaml: string, measures: Measures = NO_MEASURES): Promise<Formula> {
  const text = `formula: trial\ntitle: Trial\n${yaml}`;
  const read = await readText('formula', text, 'formulas/trial.yaml', null, 'none', measures);
  if (!read.ok) throw new Error(read.why.map(writeProblem).join('\n'));
  return read.value.value;
}

export function value<T>(r: Result<T>): T {
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

export function why(r: Result<unknown>): string {
  if (r.ok) throw new Error('it was not refused');
  return r.why;
}

export const q = (text: string): Quantity => value(parseQuantity(text));

async function table<K extends 'vehicles' | 'making' | 'keeping'>(kind: K): Promise<Holds[K]> {
  const file = fileURLToPath(new URL(`../../monographs/reference/${kind}.yaml`, import.meta.url));
  const read = await readDocument(kind, file, file);
  if (!read.ok) throw new Error(read.why.map(writeProblem).join('\n'));
  return read.value.value;
}

/** A balance read to 0.1 g, and a herb that keeps back 2 mL for each gram unless a test says otherwise. */
export const BENCH: Bench = {
  balance: { name: 'balance', step: q('0.1 g'), sensitivity: q('0.1 g'), permittedError: q('5 %') },
  cylinder: COMMON_CYLINDER,
  heldBack: () => ({ perGram: q('2 mL/g'), says: 'water kept back' }),
  limited: new Set(),
  shelf: shelfOf(
    {
      vehicles: await table('vehicles'),
      making: await table('making'),
      keeping: await table('keeping'),
    },
    DEFAULT_SETTINGS,
  ),
};

export const finer = (step: string): Bench => ({
  ...BENCH,
  balance: { ...BENCH.balance, step: q(step), sensitivity: q(step) },
});

export async function made(
  yaml: string,
  asked: BatchAsked = { by: 'formula' },
  bench: Bench = BENCH,
): Promise<Batch> {
  return value(compound(await formula(yaml), asked, bench));
}

export async function refused(
  yaml: string,
  asked: BatchAsked = { by: 'formula' },
  bench: Bench = BENCH,
): Promise<string> {
  return why(compound(await formula(yaml), asked, bench));
}

export const byMass = (mass: string): BatchAsked => ({ by: 'mass', mass: q(mass) });
export const byVolume = (volume: string): BatchAsked => ({ by: 'volume', volume: q(volume) });
export const byDays = (days: string): BatchAsked => ({ by: 'days', days: q(days) });
export const byDoses = (doses: string): BatchAsked => ({ by: 'doses', doses: q(doses) });
export const byHave = (have: Record<string, string>): BatchAsked => ({
  by: 'have',
  have: new Map(Object.entries(have).map(([herb, mass]) => [herb, q(mass)])),
});

/** What is put on the balance, herb by herb. */
export const weights = (batch: Batch): Record<string, string> =>
  Object.fromEntries(batch.lines.map((l) => [l.key, write(l.weigh.value, 'exact')]));

/** The same before rounding, to twelve figures. */
export const exactly = (batch: Batch): Record<string, string> =>
  Object.fromEntries(batch.lines.map((l) => [l.key, twelve(l.exact.value.value)]));

export const twelve = (n: Exact): string => n.toSignificantDigits(12).toFixed();

export const shown = (f: Figure<Quantity> | undefined | null): string => (f ? write(f.value) : 'none');
export const shownExact = (f: Figure<Quantity> | undefined | null): string =>
  f ? write(f.value, 'exact') : 'none';

/** The method as sentences. */
export const method = (batch: Batch): string[] =>
  batch.making.method.map((line) =>
    line.map((part) => (typeof part === 'string' ? part : write(part.value as Quantity))).join(' '),
  );
