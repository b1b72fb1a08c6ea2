// Honey weighs about 1.4 g/mL (British Pharmaceutical Codex 1911, Mel depuratum). Above 20 % of water it ferments (a
// food reference); that ripe honey holds 18 % is from memory, as its table says.
import { describe, expect, it } from 'vitest';
import { byDays, byMass, made, method, shown } from './formula.ts';
import { added, figure, herbDose, product } from './product.ts';

const honey = (more: string, herb = 'herb: ginger-rhizome, form: powder', take = '3 g'): string => `
ingredients: [{${herb}, parts: 1}]
preparation: {kind: honey, ${more}}
directions: {take: ${take}, times: 3, for: 5 days}`;

const THYME = 'herb: thyme-herb, form: fresh, moisture: ';

describe('powder stirred into honey', () => {
  const STIRRED = 'ratio: 1:12 w/w, strained: no';

  it('stays in it, so that a dose holds its share of the whole', async () => {
    const batch = await made(honey(STIRRED), byMass('100 g'));
    expect(added(batch)).toEqual({ honey: '1,200 g' });
    // 3 g x 100 / 1300 = 0.2308 g
    expect([shown(product(batch).makes), shown(herbDose(batch).amounts?.single)]).toEqual([
      '1,300 g',
      '0.231 g',
    ]);
  });

  it('for five days of 9 g is 45 g, with the herb that belongs to them', async () => {
    const batch = await made(honey(STIRRED), byDays('5 days'));
    // 45 / 13 = 3.46 g of herb, to the next 0.1 g
    expect([shown(batch.total), shown(batch.supply?.days)]).toEqual(['3.5 g', '5 days']);
  });

  it('by the spoon is weighed by the density of honey', async () => {
    const spoon = await made(honey(STIRRED, undefined, '5 mL'), byMass('100 g'));
    // 5 mL x 1.4 = 7 g, 7 x 100 / 1300 = 0.5385 g
    expect([shown(spoon.taking?.dose), shown(herbDose(spoon).amounts?.single)]).toEqual(['7 g', '0.538 g']);
  });
});

describe('herb drawn with honey and strained out', () => {
  it('is counted by the ratio of herb to honey', async () => {
    const batch = await made(honey('ratio: 1:4 w/w, strained: yes', 'herb: thyme-herb'), byMass('100 g'));
    // 3 g x 100 / 400 = 0.75 g
    expect([added(batch).honey, shown(herbDose(batch).amounts?.single)]).toEqual(['400 g', '0.75 g']);
    expect(method(batch)[0]).toBe('Cover 100 g of herb with 400 g of honey, stir.');
  });

  it('by volume takes the weight of that volume', async () => {
    const batch = await made(honey('ratio: 1:3 w/v, strained: yes', 'herb: thyme-herb'), byMass('100 g'));
    // 300 mL x 1.4 = 420 g
    expect(added(batch)).toEqual({ honey: '420 g' });
  });
});

describe('water in honey', () => {
  const state = async (more: string, herb?: string) => {
    const batch = await made(honey(more, herb), byMass('100 g'));
    return [figure(product(batch).contents.byMass.get('water')), batch.keeping.keeps] as const;
  };

  it('of the honey alone keeps', async () => {
    expect(await state('ratio: 1:4 w/w, strained: yes', 'herb: thyme-herb')).toEqual([18, 'by itself']);
  });

  it('of fresh herb in it, strained, is above 20 % and ferments', async () => {
    const [water, keeps] = await state('ratio: 1:3 w/w, strained: yes', `${THYME}70-80 %`);
    // (300 x 18 % + 100 x 80 %) / (300 + 80) = 134 / 380 = 35.263 %
    expect(water).toBeCloseTo(35.263, 3);
    expect(keeps).toBe('not by itself');
  });

  it('of fresh herb left in it counts against all that is in the jar', async () => {
    const [water, keeps] = await state('ratio: 1:3 w/w, strained: no', `${THYME}80 %`);
    // 134 / 400 = 33.5 %
    expect([water, keeps]).toEqual([33.5, 'not by itself']);
  });

  it('keeps at just 20 %, and not above', async () => {
    // 100 g with m % of water in 1900 g: (342 + m) / (1900 + m) = 20 % where m = 47.5.
    expect((await state('ratio: 1:19 w/w, strained: yes', `${THYME}47.5 %`))[1]).toBe('by itself');
    expect((await state('ratio: 1:19 w/w, strained: yes', `${THYME}47.6 %`))[1]).toBe('not by itself');
  });
});
