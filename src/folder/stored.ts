import { Decimal } from 'decimal.js';
import { type Exact, exact } from '../measure/exact.ts';
import type { Measures } from '../measure/parse.ts';
import { putKey } from '../measure/put-key.ts';
import { type Unit, unitByCode } from '../measure/units.ts';

/**
 * The form in which a validated file is kept in the compiled index: JSON in which an exact number is `{"$n": "1.5"}`
 * and a unit is `{"$u": "g"}`, or written out as `{"$own": ...}` where it is a measure that somebody defined. A key of
 * the file that begins with `$` gets another. What goes in comes out equal.
 */

function isUnit(v: object): v is Unit {
  const { code, dimension, size } = v as Partial<Unit>;
  return typeof code === 'string' && typeof dimension === 'string' && Array.isArray(size);
}

function toStored(v: unknown): unknown {
  if (v === null || typeof v !== 'object') return v;
  if (Decimal.isDecimal(v)) return { $n: (v as Exact).toFixed() };
  if (Array.isArray(v)) return v.map(toStored);
  const isOne = isUnit(v);
  if (isOne && unitByCode(v.code) === v) return { $u: v.code };
  const map: Record<string, unknown> = {};
  for (const k of Object.keys(v)) {
    const x = (v as Record<string, unknown>)[k];
    if (x !== undefined) putKey(map, k.startsWith('$') ? `$${k}` : k, toStored(x));
  }
  return isOne ? { $own: map } : map;
}

export function store(value: unknown): string {
  return JSON.stringify(toStored(value));
}

/** A measure that a file defines is one object wherever the file uses it, as units are. */
type Own = Map<string, unknown>;

function fromStored(v: unknown, own: Own): unknown {
  if (v === null || typeof v !== 'object') return v;
  if (Array.isArray(v)) {
    for (let i = 0; i < v.length; i += 1) v[i] = fromStored(v[i], own);
    return v;
  }
  const o = v as Record<string, unknown>;
  if ('$n' in o) return exact(o.$n as string);
  if ('$u' in o) return known(o.$u as string);
  if ('$own' in o) return ownUnit(o.$own, own);
  let renamed = false;
  for (const k of Object.keys(o)) {
    o[k] = fromStored(o[k], own);
    renamed ||= k.startsWith('$');
  }
  return renamed ? Object.fromEntries(Object.entries(o).map(([k, x]) => [k.replace(/^\$/, ''), x])) : o;
}

function known(code: string): Unit {
  const unit = unitByCode(code);
  if (!unit) throw new Error(`no unit has the code ${code}`);
  return unit;
}

function ownUnit(stored: unknown, own: Own): unknown {
  const key = JSON.stringify(stored);
  if (!own.has(key)) own.set(key, fromStored(stored, own));
  return own.get(key);
}

/** Throws where the text is not what `store` wrote. A text without a marked key, as the largest tables are, is walked no further. */
export function revive(json: string): unknown {
  const value: unknown = JSON.parse(json);
  return json.includes('"$') ? fromStored(value, new Map()) : value;
}

/** What the practice has settled, as text. */
export function storedMeasures({ settled, own }: Measures): string {
  return store({ settled: [...settled], own: [...own] });
}
