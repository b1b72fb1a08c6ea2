import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Batch, compound } from '../../src/compounding/compound.ts';
import { herbDoses } from '../../src/dosing/equivalents.ts';
import { type Exact, exact, sum } from '../../src/measure/exact.ts';
import { roundTo } from '../../src/measure/round.ts';
import { BENCH, byHave, byMass, finer, formula, q, twelve, value, weights } from '../compounding/formula.ts';

/** Two to eight herbs with parts of up to two decimals, as a file would have them. */
const parts = fc.array(fc.integer({ min: 1, max: 2000 }), { minLength: 2, maxLength: 8 });
const step = fc.constantFrom('0.01 g', '0.1 g', '0.25 g', '1 g', '5 g');
const grams = fc.integer({ min: 1, max: 500_000 });

const inHundredths = (n: number): string => exact(n).div(100).toFixed();
const named = (values: readonly number[]): { herb: string; parts: string }[] =>
  values.map((n, i) => ({ herb: `herb-${i + 1}`, parts: inHundredths(n) }));

const powder = (ingredients: readonly { herb: string; parts: string }[]): string => `
ingredients:
${ingredients.map((i) => `  - {herb: ${i.herb}, parts: ${i.parts}}`).join('\n')}
preparation: {kind: powder}`;

type Made = ReturnType<typeof compound>;
const weighed = async (yaml: string, mass: number, on: string): Promise<Made> =>
  compound(await formula(yaml), byMass(`${inHundredths(mass)} g`), finer(on));

const stepOf = (on: string): Exact => q(on).value;
const inAll = (batch: Batch): Exact => sum(batch.lines.map((l) => l.weigh.value.value));
const outcome = (r: Made): unknown => (r.ok ? weights(r.value) : r.why);

describe('parts to weights', () => {
  it('the lines add up exactly to the batch rounded to the balance, each a whole number of steps', async () => {
    await fc.assert(
      fc.asyncProperty(parts, grams, step, async (values, mass, on) => {
        const r = await weighed(powder(named(values)), mass, on);
        if (!r.ok) return;
        const rounded = roundTo(exact(inHundredths(mass)), stepOf(on), 'half-even');
        expect(inAll(r.value).eq(rounded)).toBe(true);
        expect(r.value.total.value.value.eq(rounded)).toBe(true);
        for (const l of r.value.lines) expect(l.weigh.value.value.mod(stepOf(on)).isZero()).toBe(true);
      }),
    );
  });

  it('every line is less than a step from its share of what is weighed', async () => {
    await fc.assert(
      fc.asyncProperty(parts, grams, step, async (values, mass, on) => {
        const r = await weighed(powder(named(values)), mass, on);
        if (!r.ok) return;
        const whole = sum(values.map((n) => exact(n)));
        r.value.lines.forEach((l, i) => {
          const share = r.value.total.value.value.times(values[i] ?? 0).div(whole);
          expect(l.weigh.value.value.minus(share).abs().lt(stepOf(on))).toBe(true);
        });
      }),
    );
  });

  it('of a batch that the balance can show, every line is less than a step from exact', async () => {
    await fc.assert(
      fc.asyncProperty(parts, fc.integer({ min: 1, max: 20_000 }), async (values, steps) => {
        const r = await weighed(powder(named(values)), steps * 10, '0.1 g');
        if (!r.ok) return;
        for (const l of r.value.lines) {
          expect(l.weigh.value.value.minus(l.exact.value.value).abs().lt('0.1')).toBe(true);
        }
      }),
    );
  });

  it('only a line that rounds to nothing is refused, and then its exact share is under a step', async () => {
    await fc.assert(
      fc.asyncProperty(parts, grams, step, async (values, mass, on) => {
        const r = await weighed(powder(named(values)), mass, on);
        if (r.ok) {
          for (const l of r.value.lines) expect(l.weigh.value.value.gt(0)).toBe(true);
          return;
        }
        expect(r.why).toMatch(/rounds to nothing/);
        const rounded = roundTo(exact(inHundredths(mass)), stepOf(on), 'half-even');
        const smallest = rounded.times(Math.min(...values)).div(sum(values.map((n) => exact(n))));
        expect(smallest.lt(stepOf(on))).toBe(true);
      }),
    );
  });

  it('the order of the ingredients never matters', async () => {
    const shuffled = parts.chain((values) =>
      fc.tuple(fc.constant(named(values)), fc.shuffledSubarray(named(values), { minLength: values.length })),
    );
    await fc.assert(
      fc.asyncProperty(shuffled, grams, step, async ([inOrder, mixed], mass, on) => {
        const [a, b] = [await weighed(powder(inOrder), mass, on), await weighed(powder(mixed), mass, on)];
        expect(b.ok).toBe(a.ok);
        if (a.ok && b.ok) expect(weights(b.value)).toEqual(weights(a.value));
      }),
    );
  });

  it('parts that are all so many times as large weigh the same', async () => {
    const factor = fc.integer({ min: 1, max: 5000 });
    await fc.assert(
      fc.asyncProperty(parts, factor, grams, step, async (values, by, mass, on) => {
        const more = named(values).map((i) => ({ ...i, parts: exact(i.parts).times(by).div(100).toFixed() }));
        const [a, b] = [
          await weighed(powder(named(values)), mass, on),
          await weighed(powder(more), mass, on),
        ];
        expect(outcome(b)).toEqual(outcome(a));
      }),
    );
  });

  it('twice the batch is twice each exact mass', async () => {
    await fc.assert(
      fc.asyncProperty(parts, fc.integer({ min: 10_000, max: 500_000 }), async (values, mass) => {
        const [a, b] = [
          await weighed(powder(named(values)), mass, '0.01 g'),
          await weighed(powder(named(values)), mass * 2, '0.01 g'),
        ];
        if (!a.ok || !b.ok) return;
        a.value.lines.forEach((l, i) => {
          const twice = l.exact.value.value.times(2).toSignificantDigits(40).toFixed();
          expect(b.value.lines[i]?.exact.value.value.toSignificantDigits(40).toFixed()).toBe(twice);
        });
      }),
    );
  });
});

describe('what is in hand', () => {
  it('no line ever asks for more than there is', async () => {
    const hands = fc.array(fc.integer({ min: 1, max: 50_000 }), { minLength: 1, maxLength: 8 });
    await fc.assert(
      fc.asyncProperty(parts, hands, step, async (values, inHand, on) => {
        const have = Object.fromEntries(
          inHand.slice(0, values.length).map((n, i) => [`herb-${i + 1}`, `${inHundredths(n)} g`]),
        );
        const r = compound(await formula(powder(named(values))), byHave(have), finer(on));
        if (!r.ok) return;
        for (const l of r.value.lines) {
          const limit = have[l.key];
          if (limit !== undefined) expect(l.weigh.value.value.lte(q(limit).value)).toBe(true);
        }
      }),
    );
  });
});

describe('the herb in a dose', () => {
  const tea = (herb: number, take: number): string => `
ingredients: [{herb: herb-1, parts: 3}, {herb: herb-2, parts: 2}]
preparation: {kind: infusion, herb: ${inHundredths(herb)} g, water: 2 L, strained: 1 L, infuse: 10 min}
directions: {take: ${take} mL, times: 1}`;
  const doses = async (herb: number, take: number) =>
    herbDoses(value(compound(await formula(tea(herb, take)), byMass('100 g'), BENCH))).map(
      (d) => d.amounts?.single.value.value as Exact,
    );

  it('grows with the volume drunk and with the herb in the pot', async () => {
    const herb = fc.integer({ min: 1, max: 10_000 });
    const volume = fc.integer({ min: 1, max: 1000 });
    await fc.assert(
      fc.asyncProperty(herb, volume, volume, async (inPot, a, b) => {
        fc.pre(a < b);
        const [less, more, stronger] = [
          await doses(inPot, a),
          await doses(inPot, b),
          await doses(inPot + 1, a),
        ];
        less.forEach((d, i) => {
          expect(more[i]?.gt(d)).toBe(true);
          expect(stronger[i]?.gt(d)).toBe(true);
        });
      }),
    );
  });

  it('of all ingredients together is the dose of the blend', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 10_000 }),
        fc.integer({ min: 1, max: 1000 }),
        async (inPot, take) => {
          const blend = exact(inHundredths(inPot)).times(take).div(1000);
          expect(twelve(sum(await doses(inPot, take)))).toBe(twelve(blend));
        },
      ),
    );
  });
});
