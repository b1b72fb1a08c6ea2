import { describe, expect, it } from 'vitest';
import { byDoses, byVolume, made, q, shown } from './formula.ts';
import { figure, product, single } from './product.ts';

const drops = (take: string, perMl = '36 drops/mL'): string => `
ingredients:
  - {herb: lemon-balm-leaf, form: tincture, ratio: 1:5 w/v, spirit: 45 % v/v, parts: 3}
  - {herb: ginger-rhizome, form: liquid-extract, ratio: 1:1 w/v, spirit: 90 % v/v, parts: 1}
preparation: {kind: drops, bottle: 30 mL, drops_per_ml: ${perMl}}
directions: {take: ${take}, times: 3, for: 7 days}`;

describe('drops', () => {
  it('are as large as this dropper makes them of this liquid', async () => {
    // 40 / 36 = 1.1111 mL, 40 / 20 = 2 mL
    expect(figure((await made(drops('40 drops'))).taking?.dose)).toBeCloseTo(10 / 9, 12);
    expect(shown((await made(drops('40 drops', '20 drops/mL'))).taking?.dose)).toBe('2 mL');
  });

  it('hold herb by the ratio of each liquid', async () => {
    const batch = await made(drops('36 drops'), byVolume('100 mL'));
    // 1 mL: 0.75 mL / 5 = 0.15 g and 0.25 mL / 1 = 0.25 g
    expect(single(batch)).toEqual({ 'lemon-balm-leaf': '0.15 g', 'ginger-rhizome': '0.25 g' });
  });

  it('may be measured in mL all the same', async () => {
    expect(single(await made(drops('1 mL'), byVolume('100 mL')))).toEqual(
      single(await made(drops('36 drops'), byVolume('100 mL'))),
    );
  });

  it('last as long as the bottle that the formula names', async () => {
    const { supply, total } = await made(drops('40 drops'));
    // 120 drops a day are 3.3333 mL; 30 mL are 9 days and 27 doses, and nothing is over.
    expect([total, supply?.days, supply?.doses, supply?.over].map(shown)).toEqual([
      '30 mL',
      '9 days',
      '27 doses',
      '0 mL',
    ]);
    // 7 x 3.3333 = 23.33 mL
    expect([shown(supply?.course?.needs), shown(supply?.course?.bottle)]).toEqual(['23.33 mL', '30 mL']);
  });

  it('for so many doses are measured up to the next mL', async () => {
    // 20 x 40 / 36 = 22.2 mL
    expect(shown((await made(drops('40 drops'), byDoses('20 doses'))).total)).toBe('23 mL');
  });

  it('are as strong as the blend', async () => {
    // (3 x 45 + 90) / 4 = 56.25 %; poured are 23 and 7 mL of 30: (23 x 45 + 7 x 90) / 30 = 55.5 %.
    const batch = await made(drops('40 drops'), byVolume('100 mL'));
    expect(figure(product(batch).strength)).toBe(56.25);
    expect(product(batch).dropsPerMl?.value).toEqual(q('36 drops/mL'));
  });
});
