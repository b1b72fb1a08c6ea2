// What holds for every bottle, not only for the worked examples.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Batch } from '../../src/compounding/compound.ts';
import type { Product } from '../../src/compounding/product.ts';
import { type HerbDose, herbDoses } from '../../src/dosing/equivalents.ts';
import { type Exact, exact, sum } from '../../src/measure/exact.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { made } from '../compounding/formula.ts';

interface Poured {
  readonly parts: number;
  readonly strength: number;
}

const poured = fc.record({
  parts: fc.integer({ min: 1, max: 20 }),
  strength: fc.integer({ min: 10, max: 96 }),
});
const bottles = fc.array(poured, { minLength: 1, maxLength: 5 });
const volume = fc.integer({ min: 50, max: 2000 });

const blend = (parts: readonly Poured[], ml: number, take = 5): Promise<Batch> =>
  made(
    `ingredients:
${parts.map((p, i) => `  - {herb: herb-${i}, form: tincture, ratio: 1:5 w/v, spirit: ${p.strength} % v/v, parts: ${p.parts}}`).join('\n')}
preparation: {kind: liquid-blend}
directions: {take: ${take} mL, times: 3, for: 7 days}`,
    { by: 'volume', volume: quantity(ml, 'mL') },
  );

const product = ({ making }: Batch): Product => {
  if (making.kind !== 'product') throw new Error('no product');
  return making;
};
const close = (a: Exact, b: Exact): boolean => a.minus(b).abs().lte(a.abs().plus(1).times('1e-38'));
const once = (d: HerbDose | undefined): Exact => {
  if (!d?.amounts) throw new Error('no dose');
  return d.amounts.single.value.value;
};
const RUNS = { numRuns: 60 };

describe('a blend', () => {
  it('holds the ethanol that was poured in, and stands between its weakest and strongest', async () => {
    await fc.assert(
      fc.asyncProperty(bottles, volume, async (parts, ml) => {
        const batch = await blend(parts, ml);
        const strength = product(batch).strength?.value;
        if (!strength || !('unit' in strength)) throw new Error('no strength');
        const all = sum(batch.lines.map((l, i) => l.weigh.value.value.times(parts[i]?.strength ?? 0)));
        expect(close(strength.value.times(batch.total.value.value), all)).toBe(true);
        const each = parts.map((p) => p.strength);
        expect(strength.value.gte(exact(Math.min(...each)).minus('1e-38'))).toBe(true);
        expect(strength.value.lte(exact(Math.max(...each)).plus('1e-38'))).toBe(true);
      }),
      RUNS,
    );
  });

  it('is poured in lines that add up to it', async () => {
    await fc.assert(
      fc.asyncProperty(bottles, volume, async (parts, ml) => {
        const batch = await blend(parts, ml);
        expect(sum(batch.lines.map((l) => l.weigh.value.value)).eq(ml)).toBe(true);
      }),
      RUNS,
    );
  });

  it('twice the dose holds twice the herb and twice the ethanol', async () => {
    await fc.assert(
      fc.asyncProperty(bottles, fc.integer({ min: 1, max: 10 }), async (parts, take) => {
        const [one, two] = [await blend(parts, 1000, take), await blend(parts, 1000, take * 2)];
        herbDoses(one).forEach((d, i) => {
          expect(close(once(d).times(2), once(herbDoses(two)[i]))).toBe(true);
        });
        expect(
          close(
            one.ethanol?.perDose.value.value.times(2) as Exact,
            two.ethanol?.perDose.value.value as Exact,
          ),
        ).toBe(true);
      }),
      RUNS,
    );
  });

  it('a larger bottle never lasts fewer days', async () => {
    await fc.assert(
      fc.asyncProperty(bottles, volume, fc.integer({ min: 1, max: 500 }), async (parts, ml, more) => {
        const days = async (v: number) => (await blend(parts, v)).supply?.days.value.value as Exact;
        expect((await days(ml + more)).gte(await days(ml))).toBe(true);
      }),
      RUNS,
    );
  });
});

describe('a fresh tincture', () => {
  const fresh = (moisture: number, solvent: number): Promise<Batch> =>
    made(
      `ingredients: [{herb: herb-1, form: fresh, moisture: ${moisture} %, parts: 1}]
preparation: {kind: fresh-tincture, ratio: 1:${solvent} w/v, spirit: 96 % v/v, marc: pressed}`,
      { by: 'mass', mass: quantity(100, 'g') },
    );
  const moisture = fc.integer({ min: 40, max: 90 });
  const solvent = fc.integer({ min: 2, max: 10 });

  it('ends weaker the wetter the herb is, and stronger the more spirit is poured', async () => {
    await fc.assert(
      fc.asyncProperty(moisture, fc.integer({ min: 1, max: 5 }), solvent, async (wet, more, n) => {
        const at = async (m: number, s: number): Promise<Exact> =>
          product(await fresh(m, s)).contents.ethanol?.value.value as Exact;
        expect((await at(wet + more, n)).lt(await at(wet, n))).toBe(true);
        expect((await at(wet, n + 1)).gt(await at(wet, n))).toBe(true);
      }),
      RUNS,
    );
  });

  it('never yields more than the spirit and the water of the herb', async () => {
    await fc.assert(
      fc.asyncProperty(moisture, solvent, async (wet, n) => {
        const { yields } = product(await fresh(wet, n));
        // 100 mL of spirit for each part, and a mL for each g of water.
        expect(yields?.value.high?.value.lte(100 * n + wet)).toBe(true);
      }),
      RUNS,
    );
  });
});

describe('what the marc keeps', () => {
  it('of a tincture of dried herb leaves less than was poured, and more where it is pressed', async () => {
    const tincture = (solvent: number, marc: string): Promise<Batch> =>
      made(
        `ingredients: [{herb: herb-1, parts: 1}]
preparation: {kind: tincture, ratio: 1:${solvent} w/v, spirit: 45 % v/v, marc: ${marc}}`,
        { by: 'mass', mass: quantity(100, 'g') },
      );
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 2, max: 20 }), async (n) => {
        const [pressed, squeezed] = [
          product(await tincture(n, 'pressed')),
          product(await tincture(n, 'hand-squeezed')),
        ];
        const low = (p: Product): Exact => p.yields?.value.low?.value as Exact;
        expect(low(pressed).lt(pressed.makes.value.value)).toBe(true);
        expect(low(squeezed).lt(low(pressed))).toBe(true);
      }),
      RUNS,
    );
  });

  it('never makes a batch for so many days last fewer', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 2, max: 20 }),
        fc.integer({ min: 1, max: 60 }),
        fc.integer({ min: 1, max: 10 }),
        async (n, days, take) => {
          const batch = await made(
            `ingredients: [{herb: herb-1, parts: 1}]
preparation: {kind: tincture, ratio: 1:${n} w/v, spirit: 45 % v/v, marc: hand-squeezed}
directions: {take: ${take} mL, times: 3}`,
            { by: 'days', days: quantity(days, 'd') },
          );
          expect(batch.supply?.days.value.value.gte(days)).toBe(true);
          // A gram less would not do: what is over is below what 1 g of herb is drawn out to.
          expect(batch.supply?.over.value.value.lt(n)).toBe(true);
        },
      ),
      RUNS,
    );
  });
});
