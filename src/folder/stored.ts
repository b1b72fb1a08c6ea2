import { Decimal } from 'decimal.js';
import { type Exact, exact } from '../measure/exact.ts';
import { type Unit, unitByCode } from '../measure/units.ts';

/**
 * The form in which a validated file is kept in the compiled index: JSON in which an exact number is
 * `{"$n": "1.5"}` and a unit is `{"$u": "g"}`. What goes in comes out equal.
 */

function isUnit(v: object): v is Unit {
  return 'code' in v && 'size' in v && 'dimension' in v;
}

function toStored(v: unknown): unknown {
  if (v === null || typeof v !== 'object') return v;
  if (Decimal.isDecimal(v)) return { $n: (v as Exact).toFixed() };
  if (Array.isArray(v)) return v.map(toStored);
  if (isUnit(v)) {
    if (unitByCode(v.code) === undefined)
      return { $own: [v.symbol, v.dimension, v.size[0].toFixed(), v.size[1].toFixed(), v.from] };
    return { $u: v.code };
  }
  return Object.fromEntries(
    Object.entries(v)
      .filter(([, x]) => x !== undefined)
      .map(([k, x]) => [k, toStored(x)]),
  );
}

export function store(value: unknown): string {
  return JSON.stringify(toStored(value));
}

function fromStored(v: unknown): unknown {
  if (v === null || typeof v !== 'object') return v;
  if (Array.isArray(v)) {
    for (let i = 0; i < v.length; i += 1) v[i] = fromStored(v[i]);
    return v;
  }
  const o = v as Record<string, unknown>;
  if ('$n' in o) return exact(o.$n as string);
  if ('$u' in o) return unitByCode(o.$u as string);
  if ('$own' in o) {
    const [name, dimension, over, under, from] = o.$own as [
      string,
      Unit['dimension'],
      string,
      string,
      string,
    ];
    return {
      dimension,
      code: `{${name}}`,
      symbol: name,
      plural: `${name}s`,
      size: [exact(over), exact(under)],
      names: [name],
      from,
      nominal: true,
    } satisfies Unit;
  }
  for (const k of Object.keys(o)) o[k] = fromStored(o[k]);
  return o;
}

export function revive(json: string): unknown {
  return fromStored(JSON.parse(json));
}
