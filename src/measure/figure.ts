import { Decimal } from 'decimal.js';
import type { Exact } from './exact.ts';
import type { Quantity, Range } from './quantity.ts';
import { numberJson, quantityJson, rangeJson, readable, write, writeNumber, writeRange } from './write.ts';

/**
 * How a source was read. `original`: in the official text itself; `product-text`: in a text that a national
 * authority approved for a single-herb product; `restated`: an official text as another page restates it;
 * `computed`; `memory`: not read, and always shown as such; `practice`: common practice without a source.
 */
export type Reading = 'original' | 'product-text' | 'restated' | 'computed' | 'memory' | 'practice';

export const READINGS = [
  'original',
  'product-text',
  'restated',
  'computed',
  'memory',
  'practice',
] as const satisfies readonly Reading[];

/** A source as it is cited on a sheet. */
export interface Cited {
  readonly key: string;
  readonly body: string;
  readonly title: string;
  readonly ref?: string | undefined;
  readonly year?: string | undefined;
  readonly reading: Reading;
}

export type Value = Quantity | Range | Exact;

/**
 * A value that can show how it came about. Reports accept nothing but figures, so every number on a sheet
 * leads back to what was given. `by` is the sum with `{}` for each input in turn; a given figure has none.
 */
export interface Figure<V extends Value = Value> {
  readonly value: V;
  readonly step: Step;
}

export interface Step {
  readonly says: string;
  readonly by?: string;
  readonly inputs: readonly Figure[];
  readonly source?: Cited | undefined;
}

/** A figure that was given: by the formula, the person, the practice or a published source. */
export function given<V extends Value>(value: V, says: string, source?: Cited): Figure<V> {
  return { value, step: { says, inputs: [], source } };
}

/** A figure worked out from others: `worked(q, 'herb in a dose', '{} x {} / {}', [pot, take, strained])`. */
export function worked<V extends Value>(
  value: V,
  says: string,
  by: string,
  inputs: readonly Figure[],
  source?: Cited,
): Figure<V> {
  return { value, step: { says, by, inputs, source } };
}

export function isExact(v: Value): v is Exact {
  return Decimal.isDecimal(v);
}

export function isRange(v: Value): v is Range {
  return !isExact(v) && 'low' in v;
}

/** The figure as a person reads it. */
export function show(figure: Figure, as: 'readable' | 'exact' = 'readable'): string {
  return showValue(figure.value, as);
}

export function showValue(v: Value, as: 'readable' | 'exact' = 'readable'): string {
  if (isExact(v)) return writeNumber(as === 'exact' ? v : readable(v));
  return isRange(v) ? writeRange(v, as) : write(v, as);
}

export function valueJson(v: Value): unknown {
  if (isExact(v)) return numberJson(v);
  return isRange(v) ? rangeJson(v) : quantityJson(v);
}

/** One line of the working: its number, what it is, the sum with references, what came of it, where it is from. */
export interface WorkingLine {
  readonly number: number;
  readonly says: string;
  readonly sum?: string;
  readonly result: string;
  readonly source?: Cited;
}

/** Figures in a working keep up to ten significant digits, so that a reader can redo the sum. */
function atLength(v: Value): string {
  const cut = (q: Quantity): Quantity => ({ value: q.value.toSignificantDigits(10), unit: q.unit });
  if (isExact(v)) return writeNumber(v.toSignificantDigits(10));
  if (isRange(v)) return writeRange({ low: v.low && cut(v.low), high: v.high && cut(v.high) }, 'exact');
  return write(cut(v), 'exact');
}

/** The last sum behind a figure with its inputs as they are, less what it comes to: `3 g x 33.6 g / 84 g`. Null where it was given. */
export function sumOf({ step }: Figure): string | null {
  if (step.by === undefined) return null;
  let next = 0;
  return step.by.replace(/\{\}/g, () => {
    const input = step.inputs[next++];
    return input ? atLength(input.value) : '{}';
  });
}

/** Every step behind these figures, each once, what is used before what uses it. */
export function workingOf(figures: Iterable<Figure>): WorkingLine[] {
  const lines: WorkingLine[] = [];
  const numbers = new Map<Step, number>();
  const visit = (f: Figure): number => {
    const known = numbers.get(f.step);
    if (known !== undefined) return known;
    const refs = f.step.inputs.map((input) => `${atLength(input.value)} [${visit(input)}]`);
    const number = lines.length + 1;
    numbers.set(f.step, number);
    let next = 0;
    const sum = f.step.by?.replace(/\{\}/g, () => refs[next++] ?? '{}');
    lines.push({
      number,
      says: f.step.says,
      result: atLength(f.value),
      ...(sum === undefined ? {} : { sum }),
      ...(f.step.source === undefined ? {} : { source: f.step.source }),
    });
    return number;
  };
  for (const f of figures) visit(f);
  return lines;
}
