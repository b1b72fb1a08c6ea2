// What holds for every quantity, range and batch, not only for the examples.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Exact, exact, sum } from '../../src/measure/exact.ts';
import { parseQuantity, parseRange, parseRatio, parseStrength, parseUnit } from '../../src/measure/parse.ts';
import { comparable, compareQuantities, inUnit, quantity, type Range } from '../../src/measure/quantity.ts';
import { allocate, type RoundingRule, roundTo, type Share } from '../../src/measure/round.ts';
import { UNITS, type Unit } from '../../src/measure/units.ts';
import { writeRange } from '../../src/measure/write.ts';

const decimal = (most: number): fc.Arbitrary<Exact> =>
  fc
    .tuple(fc.nat(most), fc.integer({ min: 0, max: 6 }), fc.nat(999_999))
    .map(([whole, places, part]) => exact(`${whole}.${String(part).padStart(6, '0').slice(0, places)}0`));

const anyUnit = fc.constantFrom<Unit>(...UNITS);
const likeUnits = (count: number): fc.Arbitrary<Unit[]> =>
  anyUnit.chain((first) =>
    fc
      .array(fc.constantFrom(...UNITS.filter((u) => comparable(u, first))), {
        minLength: count - 1,
        maxLength: count - 1,
      })
      .map((others) => [first, ...others]),
  );

/** Equal, or apart by less than the 40th figure. */
function agree(a: Exact, b: Exact): boolean {
  return a.minus(b).abs().lte(a.abs().times('1e-40'));
}

describe('converting', () => {
  it('there and back is the same quantity', () => {
    fc.assert(
      fc.property(decimal(1_000_000), likeUnits(2), (value, [a, b]) => {
        if (!a || !b) return;
        expect(agree(value, inUnit(inUnit(quantity(value, a), b), a).value)).toBe(true);
        expect(compareQuantities(quantity(value, a), inUnit(quantity(value, a), b))).toBe(0);
      }),
    );
  });

  it('by way of a third unit is the same as directly', () => {
    fc.assert(
      fc.property(decimal(1_000_000), likeUnits(3), (value, [a, b, c]) => {
        if (!a || !b || !c) return;
        const direct = inUnit(quantity(value, a), c);
        expect(agree(direct.value, inUnit(inUnit(quantity(value, a), b), c).value)).toBe(true);
      }),
    );
  });

  it('never turns the order of two quantities round', () => {
    fc.assert(
      fc.property(decimal(1000), decimal(1000), likeUnits(3), (x, y, [a, b, c]) => {
        if (!a || !b || !c) return;
        const [one, other] = [quantity(x, a), quantity(y, b)];
        const order = Math.sign(compareQuantities(one, other));
        expect(Math.sign(compareQuantities(other, one))).toBe(order === 0 ? 0 : -order);
        expect(Math.sign(compareQuantities(inUnit(one, c), inUnit(other, c)))).toBe(order);
      }),
    );
  });
});

const step = fc
  .constantFrom('0.0001', '0.001', '0.01', '0.02', '0.05', '0.1', '0.25', '0.5', '1', '5', '3')
  .map((s) => exact(s));
const rule = fc.constantFrom<RoundingRule>('half-even', 'half-up', 'down', 'up');

describe('rounding', () => {
  it('a rounded figure again changes nothing', () => {
    fc.assert(
      fc.property(decimal(100_000), step, rule, (value, by, how) => {
        const once = roundTo(value, by, how);
        expect(roundTo(once, by, how).eq(once)).toBe(true);
      }),
    );
  });

  it('stays within a step, within half of one when to the nearest, and down is never above', () => {
    fc.assert(
      fc.property(decimal(100_000), step, (value, by) => {
        expect(roundTo(value, by, 'down').lte(value)).toBe(true);
        expect(roundTo(value, by, 'up').gte(value)).toBe(true);
        expect(
          roundTo(value, by, 'up')
            .minus(roundTo(value, by, 'down'))
            .lte(by),
        ).toBe(true);
        for (const how of ['half-even', 'half-up'] as const) {
          expect(roundTo(value, by, how).minus(value).abs().times(2).lte(by)).toBe(true);
        }
      }),
    );
  });

  it('never puts the smaller above the larger', () => {
    fc.assert(
      fc.property(decimal(1000), decimal(1000), step, rule, (x, y, by, how) => {
        const [low, high] = x.lt(y) ? [x, y] : [y, x];
        expect(roundTo(low, by, how).lte(roundTo(high, by, how))).toBe(true);
      }),
    );
  });
});

/** Parts such as 3, 1.5 or a third, a few of them nothing; each herb once. */
const part = fc.oneof(decimal(1000), fc.constantFrom(exact(0), exact(1), exact(1).div(3), exact(2).div(7)));
const shares: fc.Arbitrary<Share[]> = fc
  .uniqueArray(fc.tuple(fc.stringMatching(/^[a-z][a-z-]{0,8}$/), part), {
    selector: ([key]) => key,
    minLength: 1,
    maxLength: 30,
  })
  .map((list) => list.map(([key, weight]) => ({ key, weight })))
  .filter((list) => list.some((s) => s.weight.gt(0)));

describe('sharing out a batch', () => {
  it('the lines add up to the batch as rounded to the balance, exactly', () => {
    fc.assert(
      fc.property(decimal(10_000), shares, step, (total, herbs, by) => {
        expect(sum(allocate(total, herbs, by).values()).eq(roundTo(total, by, 'half-even'))).toBe(true);
      }),
    );
  });

  it('of a line that may not be above its share there is never more, of the batch asked for or as rounded', () => {
    const limited = fc.tuple(shares, fc.infiniteStream(fc.boolean())).map(([list, flags]) => {
      const flag = flags[Symbol.iterator]();
      return list.map((s): Share => ({ ...s, notAbove: flag.next().value === true }));
    });
    fc.assert(
      fc.property(decimal(10_000), limited, step, (total, herbs, by) => {
        const lines = allocate(total, herbs, by);
        const parts = sum(herbs.map((h) => h.weight));
        const rounded = roundTo(total, by, 'half-even');
        for (const herb of herbs.filter((h) => h.notAbove)) {
          const line = lines.get(herb.key) ?? exact(-1);
          for (const batch of [total, rounded])
            expect(line.times(parts).minus(batch.times(herb.weight)).lte('1e-30')).toBe(true);
        }
        // The others make up for it, where there are any.
        const all = sum(lines.values());
        if (herbs.some((h) => !h.notAbove && h.weight.gt(0))) expect(all.eq(rounded)).toBe(true);
        else expect(all.lte(rounded)).toBe(true);
      }),
    );
  });

  it('each line is a whole number of steps and within one step of its exact share', () => {
    fc.assert(
      fc.property(decimal(10_000), shares, step, (total, herbs, by) => {
        const lines = allocate(total, herbs, by);
        const parts = sum(herbs.map((h) => h.weight));
        for (const herb of herbs) {
          const line = lines.get(herb.key) ?? exact(-1);
          const share = roundTo(total, by, 'half-even').times(herb.weight).div(parts);
          expect(line.div(by).isInteger()).toBe(true);
          expect(line.minus(share).abs().lt(by)).toBe(true);
        }
      }),
    );
  });

  it('does not depend on the order of the herbs in the formula', () => {
    const reordered = shares.chain((list) =>
      fc.tuple(
        fc.constant(list),
        fc.shuffledSubarray(list, { minLength: list.length, maxLength: list.length }),
      ),
    );
    fc.assert(
      fc.property(decimal(10_000), reordered, step, (total, [herbs, shuffled], by) => {
        const [lines, others] = [allocate(total, herbs, by), allocate(total, shuffled, by)];
        for (const { key } of herbs) expect(others.get(key)?.eq(lines.get(key) ?? -1)).toBe(true);
      }),
    );
  });

  it('does not depend on whether the parts are written as 1 and 2 or as 10 and 20', () => {
    fc.assert(
      fc.property(
        decimal(10_000),
        shares,
        step,
        fc.constantFrom('10', '0.001', '7'),
        (total, herbs, by, factor) => {
          const scaled = herbs.map((h) => ({ key: h.key, weight: h.weight.times(factor) }));
          const [lines, others] = [allocate(total, herbs, by), allocate(total, scaled, by)];
          for (const { key } of herbs) expect(others.get(key)?.eq(lines.get(key) ?? -1)).toBe(true);
        },
      ),
    );
  });

  it('gives more parts never less, and of equal parts the extra step to the first by name', () => {
    fc.assert(
      fc.property(decimal(10_000), shares, step, (total, herbs, by) => {
        const lines = allocate(total, herbs, by);
        for (const a of herbs) {
          for (const b of herbs) {
            const [lineA, lineB] = [lines.get(a.key) ?? exact(-1), lines.get(b.key) ?? exact(-1)];
            if (a.weight.gt(b.weight) || (a.weight.eq(b.weight) && a.key < b.key))
              expect(lineA.gte(lineB)).toBe(true);
          }
        }
      }),
    );
  });
});

describe('reading', () => {
  // A thousand is written with a comma and read without one; a cup of unknown size is never read.
  const readable = UNITS.filter((u) => u.code !== '{cup}');

  it('what was written as a range is the same range again', () => {
    const range: fc.Arbitrary<Range> = fc
      .tuple(decimal(999), decimal(999), fc.constantFrom(...readable), fc.constantFrom('both', 'low', 'high'))
      .map(([x, y, u, ends]) => {
        const [low, high] = x.lt(y) ? [x, y] : [y, x];
        return {
          low: ends === 'high' ? null : quantity(low, u),
          high: ends === 'low' ? null : quantity(high, u),
        };
      });
    fc.assert(
      fc.property(range, (r) => {
        const again = parseRange(writeRange(r, 'exact'));
        if (!again.ok) throw new Error(again.why);
        for (const end of ['low', 'high'] as const) {
          expect(again.value[end] === null).toBe(r[end] === null);
          if (r[end] && again.value[end]) expect(compareQuantities(again.value[end], r[end])).toBe(0);
        }
      }),
    );
  });

  it('takes any text whatever, and reads it or says why not: nothing else', () => {
    const scrap = fc.constantFrom(
      '1',
      '2.5',
      '1/2',
      '½',
      '-',
      ' to ',
      ' ',
      'g',
      'mL',
      '/',
      '%',
      'pint',
      'up to ',
      ':',
      'e',
      ',',
      '0',
      '{dose}',
      '\u200b',
    );
    const text = fc.oneof(
      fc.string(),
      fc.string({ unit: 'binary' }),
      fc.array(scrap, { maxLength: 8 }).map((a) => a.join('')),
    );
    fc.assert(
      fc.property(text, (t) => {
        const read = parseQuantity(t);
        if (read.ok) expect(read.value.value.isFinite() && read.value.value.gte(0)).toBe(true);
        const range = parseRange(t);
        if (range.ok && range.value.low && range.value.high) {
          expect(compareQuantities(range.value.low, range.value.high)).toBeLessThanOrEqual(0);
        }
        for (const r of [read, range, parseUnit(t), parseRatio(t), parseStrength(t)]) {
          if (!r.ok) expect(r.why).toMatch(/\S/);
        }
      }),
      { numRuns: 1000 },
    );
  });
});
