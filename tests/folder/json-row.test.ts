import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathKey, type RowPlaces, readRow } from '../../src/folder/json-row.ts';
import { must } from '../must.ts';

/** JSON with every scalar as its text, which is what the row reader must come to. */
function asText(v: unknown): unknown {
  if (Array.isArray(v)) return v.map(asText);
  if (v !== null && typeof v === 'object')
    return Object.fromEntries(Object.entries(v).map(([k, x]) => [k, asText(x)]));
  return typeof v === 'string' ? v : JSON.stringify(v);
}

const why = (text: string): string => {
  const r = readRow(text);
  return r.ok ? '' : `${r.why.at}: ${r.why.message}`;
};

describe('a row of JSON', () => {
  it('is what the JSON of the language reads, every scalar as its text (law)', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 4 }), (v) => {
        const json = JSON.stringify(v);
        const plain = JSON.parse(json) as unknown;
        expect(must(readRow(json))).toEqual(asText(plain));
        expect(must(readRow(JSON.stringify(plain, null, 2)))).toEqual(asText(plain));
      }),
    );
  });

  it('is refused wherever the JSON of the language refuses it (law)', () => {
    const spoiled = fc
      .tuple(
        fc.jsonValue({ maxDepth: 3 }),
        fc.nat(),
        fc.constantFrom('', ',', '"', '}', ']', ':', '\\', '0', '.', 'x', '\u0001'),
      )
      .map(([v, n, put]) => {
        const json = JSON.stringify(v);
        const at = n % (json.length + 1);
        return json.slice(0, at) + put + json.slice(at + (put === '' ? 1 : 0));
      });
    fc.assert(
      fc.property(spoiled, (text) => {
        let fine = true;
        try {
          JSON.parse(text);
        } catch {
          fine = false;
        }
        const r = readRow(text);
        // Only what stands twice is right there and refused here.
        if (r.ok !== fine) expect(r.ok ? '' : r.why.message).toMatch(/stands twice/);
      }),
      { numRuns: 2000 },
    );
  });

  it('keeps figures as they are written', () => {
    expect(
      must(readRow('{"a": 0.50, "b": 1e400, "c": 12345678901234567890123, "d": -0, "e": null, "f": true}')),
    ).toEqual({
      a: '0.50',
      b: '1e400',
      c: '12345678901234567890123',
      d: '-0',
      e: 'null',
      f: 'true',
    });
  });

  it('with a key twice is refused at the second, the odd keys of the language among them', () => {
    expect(why('{"sex": "male", "sex": "female"}')).toBe('16: "sex" stands twice: keep one');
    expect(must(readRow('{"__proto__": "a", "constructor": "b"}'))).toSatisfy(
      (r: object) => Object.getOwnPropertyNames(r).length === 2,
    );
  });

  it('that ends early, goes on, or goes too deep says where', () => {
    expect(why('{"a": ')).toBe('6: the row ends too early');
    expect(why('{} {}')).toBe('3: more follows after the row: write one to a line');
    expect(why('['.repeat(60))).toMatch(/go too deep/);
    expect(why('{a: 1}')).toBe('1: a key in double quotes belongs here');
    expect(why('{"a": 01}')).toMatch(/^6: /);
  });

  it('knows where each value stands', () => {
    const places: RowPlaces = new Map();
    must(readRow('{"a": [1, {"b": 2}]}', places));
    expect(places.get(pathKey(['a', 1, 'b']))).toBe(16);
  });
});
