import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type FileKind, REFERENCE_KINDS } from '../../src/folder/kinds.ts';
import { readDocument } from '../../src/folder/read.ts';
import { revive, store } from '../../src/folder/stored.ts';
import { exact } from '../../src/measure/exact.ts';
import { NO_MEASURES, ownMeasure } from '../../src/measure/parse.ts';
import { quantity } from '../../src/measure/quantity.ts';
import {
  gram,
  milligram,
  millilitre,
  mustUnit,
  per,
  UNITS,
  type Unit,
  unitByCode,
} from '../../src/measure/units.ts';
import { changed, FORMULA, valid } from './written.ts';

const root = new URL('../../', import.meta.url).pathname;

const shipped = (place: string): string[] =>
  readdirSync(join(root, place))
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => join(root, place, f));

const round = (value: unknown): unknown => revive(store(value));

/** Every unit that the program itself knows, in the order in which it is met in a value. */
function unitsIn(value: unknown): Unit[] {
  if (value === null || typeof value !== 'object') return [];
  const unit = value as Unit;
  if (typeof unit.code === 'string' && unitByCode(unit.code) === unit) return [unit];
  return Object.values(value).flatMap(unitsIn);
}

describe('what is stored comes back equal', () => {
  const files: [FileKind, string][] = [
    ...shipped('monographs').map((f): [FileKind, string] => ['monograph', f]),
    ...shipped('formulas').map((f): [FileKind, string] => ['formula', f]),
    ...REFERENCE_KINDS.map((k): [FileKind, string] => [k, join(root, 'monographs/reference', `${k}.yaml`)]),
  ];

  it.each(files)('%s %s', async (kind, file) => {
    const read = await readDocument(kind, file, file, NO_MEASURES, null);
    if (!read.ok) throw new Error(read.why.map((p) => p.message).join());
    const back = round(read.value.value);
    expect(back).toEqual(read.value.value);
    // toEqual compares numbers by their parts; their text says the same to a person.
    expect(JSON.stringify(back)).toBe(JSON.stringify(read.value.value));
    expect(unitsIn(back)).toHaveLength(unitsIn(read.value.value).length);
    unitsIn(read.value.value).forEach((unit, i) => {
      expect(unitsIn(back)[i]).toBe(unit);
    });
  });

  it('any structure that a file may hold', () => {
    const figure = fc
      .tuple(fc.bigInt({ min: 0n, max: 10n ** 24n }), fc.integer({ min: 0, max: 20 }))
      .map(([n, places]) => exact(`${n}e-${places}`));
    const third = fc.tuple(figure, fc.integer({ min: 1, max: 99 })).map(([a, b]) => a.div(b));
    const unit = fc.constantFrom(...UNITS, per(milligram, millilitre, exact(5)), per(gram, gram));
    const key = fc.oneof(
      fc.string().filter((k) => k !== '__proto__'),
      fc.constantFrom('$n', '$u', '$own', '$', '$$n', 'code', 'size', 'unit', 'constructor', 'toString', '1'),
    );
    const { any } = fc.letrec((tie) => ({
      any: fc.oneof(
        { depthSize: 'small' },
        fc.string(),
        fc.boolean(),
        fc.constant(null),
        fc.integer(),
        figure,
        third,
        fc.record({ value: figure, unit }),
        fc.array(tie('any')),
        fc.dictionary(key, tie('any'), { noNullPrototype: true }),
      ),
    }));
    fc.assert(
      fc.property(any, (value) => {
        const back = round(value);
        expect(back).toEqual(value);
        unitsIn(value).forEach((u, i) => {
          expect(unitsIn(back)[i]).toBe(u);
        });
      }),
      { numRuns: 400, seed: 20260502 },
    );
  });

  it('a number as it is, to its last figure', () => {
    for (const n of ['0', '0.000000000000000000000001', '1234567890123456789012345678901234567890', '1.50'])
      expect((round(exact(n)) as { toFixed(): string }).toFixed()).toBe(exact(n).toFixed());
    expect((round(exact(1).div(3)) as ReturnType<typeof exact>).eq(exact(1).div(3))).toBe(true);
  });

  it('what is undefined is left out', () => {
    expect(round({ a: undefined, b: 'c' })).toEqual({ b: 'c' });
  });
});

describe('a measure that a file or a practice defines', () => {
  const scoop = ownMeasure('level scoop', quantity('0.5', 'g'));
  const box = ownMeasure('match box', quantity('12.5', 'mL'));

  it('comes back with its code, its plural and its size', () => {
    expect(round(scoop)).toEqual(scoop);
    expect(round(box)).toEqual(box);
    expect((round(box) as typeof box).plural).toBe('match boxes');
  });

  it('that bears the name of a unit stays apart from it', () => {
    const teacup = ownMeasure('teacup', quantity(150, 'mL'));
    expect(round(teacup)).toEqual(teacup);
    expect(round(teacup)).not.toBe(mustUnit('{teacup}'));
  });

  it('is one object wherever the file uses it', () => {
    const back = round([scoop, { of: scoop }, box]) as [unknown, { of: unknown }, unknown];
    expect(back[0]).toBe(back[1].of);
    expect(back[2]).not.toBe(back[0]);
  });

  it('comes back from what is per such a measure too', () => {
    const strength = per(milligram, scoop);
    expect(round(quantity(3, strength))).toEqual(quantity(3, strength));
  });

  it('of a formula is what its directions are read with', async () => {
    const text = `${changed(changed(FORMULA, '{kind: decoction, herb: 12 g, water: 400 mL, boil: 10 min, make_up_to: 300 mL}', '{kind: powder}'), 'take: 150 mL', 'take: 2 level scoops')}measures: {level scoop: 0.5 g}\n`;
    const formula = await valid('formula', text);
    expect(round(formula)).toEqual(formula);
    expect(round(formula)).toMatchObject({
      directions: { take: { amount: { unit: { code: '{level_scoop}', plural: 'level scoops' } } } },
    });
  });
});

describe('what is not what was stored', () => {
  it.each(['', '{', '{"a": {"$n": "x"}}', '{"a": {"$u": "no such unit"}}', '{"a": {"$n"'])(
    '%j is refused',
    (json) => {
      expect(() => revive(json)).toThrow();
    },
  );
});

it('the stored form can be read by a person', () => {
  expect(store({ single: quantity('1.5', 'g'), $n: 'x' })).toBe(
    '{"single":{"value":{"$n":"1.5"},"unit":{"$u":"g"}},"$$n":"x"}',
  );
});
