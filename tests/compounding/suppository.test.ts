// The displacement value is the g of powder that take the place of 1 g of base: pharmacy teaching, with worked cases in
// tests/reference/worked-cases.
import { describe, expect, it } from 'vitest';
import { byDoses, byMass, made, q, refused, shown } from './formula.ts';
import { added, herbDose, product } from './product.ts';

const suppositories = (more = 'each: 200 mg, displacement: 1.2', base = 'cocoa-butter'): string => `
ingredients: [{herb: chamomile-flower, form: powder, parts: 1}]
preparation: {kind: suppository, mould: 2 g, base: ${base}, ${more}}
directions: {take: 1 suppository, times: 1, for: 5 days}`;

const count = (n: number) => ({ by: 'count', count: q(`${n} suppositories`) }) as const;

describe('suppositories', () => {
  it('take less base by what their powder displaces', async () => {
    const six = await made(suppositories(), count(6));
    // 6 x 0.2 = 1.2 g of powder; 6 x 2 g - 1.2 / 1.2 = 11 g of base
    expect([shown(six.total), added(six)]).toEqual(['1.2 g', { 'cocoa butter': '11 g' }]);
  });

  it('of a powder that weighs twice the base that it displaces take half as much less', async () => {
    const ten = await made(suppositories('each: 400 mg, displacement: 2'), count(10));
    // 20 - 4 / 2 = 18 g
    expect(added(ten)).toEqual({ 'cocoa butter': '18 g' });
  });

  it('hold what is meant for each', async () => {
    const batch = await made(suppositories(), count(6));
    expect(shown(herbDose(batch).amounts?.single)).toBe('0.2 g');
    expect([shown(batch.supply?.days), shown(batch.supply?.course?.needs)]).toEqual([
      '6 days',
      '5 suppositories',
    ]);
  });

  it('are enough for a course, or for so many doses', async () => {
    expect(shown((await made(suppositories())).total)).toBe('1 g');
    expect(shown((await made(suppositories(), byDoses('12 doses'))).total)).toBe('2.4 g');
  });

  it('are counted whole, as capsules are', async () => {
    // 1.1 g / 0.2 g = 5.5: five are filled.
    const batch = await made(suppositories(), byMass('1.1 g'));
    expect([shown(batch.supply?.inHand), shown(batch.supply?.doses)]).toEqual(['5 suppositories', '5 doses']);
  });

  it('too full of powder are refused', async () => {
    // 6 x 2 - 6 x 2.4 / 1.2 = 0
    expect(await refused(suppositories('each: 2.4 g, displacement: 1.2'), count(6))).toMatch(
      /of powder fills the moulds by itself: put less into each or take a larger mould$/,
    );
  });

  it('of a base that is not in the table are refused', async () => {
    expect(await refused(suppositories(undefined, 'coco-butter'))).toBe(
      '"coco-butter" is not among the vehicles: did you mean cocoa-butter?',
    );
  });

  it('say their displacement value', async () => {
    expect(product(await made(suppositories())).facts.map((f) => [f.label, String(f.value.value)])).toEqual([
      ['displacement value', '1.2'],
    ]);
  });
});
