import type { Exact } from '../measure/exact.ts';
import { type Figure, isExact, type Value } from '../measure/figure.ts';
import { putKey } from '../measure/put-key.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { Unit } from '../measure/units.ts';
import { numberJson, quantityJson } from '../measure/write.ts';
import { cleanJson } from './escape.ts';
import { textOf } from './pieces.ts';
import { isShown, isText } from './sheet.ts';

/**
 * One answer as one line of JSON, ending in a line feed. What is in it may hold figures, quantities, ranges, exact
 * numbers and cells of a sheet at any depth.
 */
export function envelope(
  command: string,
  result: unknown,
  findings: readonly unknown[] = [],
  problems: readonly unknown[] = [],
): string {
  return `${cleanJson(JSON.stringify(machineForm({ scruple: 1, command, result, findings, problems })))}\n`;
}

/**
 * The machine form: a figure is its value, a quantity `{value, unit}` with decimal text and a UCUM code, a range
 * `{low, high}` with null for an open end, words their text. A number that is not finite is a fault of ours and throws,
 * because JSON would turn it into null, which means something else here.
 */
export function machineForm(value: unknown): unknown {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return value;
  if (typeof value === 'number') return finite(value, Number.isFinite(value));
  if (typeof value !== 'object') throw new TypeError(`a value of type ${typeof value} has no machine form`);
  if (Array.isArray(value)) return value.map(machineForm);
  if (value instanceof Set) return machineForm([...value]);
  if (value instanceof Map) return machineForm(Object.fromEntries(value));
  if (isExact(value as Value)) return exactForm(value as Exact);
  if (isShown(value)) return machineForm(value.figure.value);
  if (isText(value)) return textOf(value);
  if (isFigure(value)) return machineForm(value.value);
  if (isQuantity(value)) return { ...quantityJson(value), value: exactForm(value.value) };
  if (isUnit(value)) return value.code;
  const form: Record<string, unknown> = {};
  for (const key of Object.keys(value)) {
    const held = (value as Record<string, unknown>)[key];
    if (held !== undefined) putKey(form, key, machineForm(held));
  }
  return form;
}

function exactForm(value: Exact): string {
  return finite(numberJson(value), value.isFinite());
}

function finite<T>(form: T, is: boolean): T {
  if (!is) throw new RangeError(`${String(form)} is not a number to print`);
  return form;
}

function isFigure(value: object): value is Figure {
  return 'value' in value && 'step' in value;
}

function isQuantity(value: object): value is Quantity {
  return (
    'value' in value &&
    'unit' in value &&
    typeof value.unit === 'object' &&
    value.unit !== null &&
    isUnit(value.unit)
  );
}

function isUnit(value: object): value is Unit {
  return 'code' in value && 'dimension' in value && 'size' in value;
}
