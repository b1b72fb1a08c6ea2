// Glycerol in water: 60 % m/m weighs 1.1535 g/mL and glycerol 1.2611 at 20 C (computed from the density model in
// Experiments in Fluids 59:75, 2018).
import { describe, expect, it } from 'vitest';
import { byMass, made, shown } from './formula.ts';
import { added, figure, herbDose, limits, product } from './product.ts';

const glycerite = (more: string, herb = 'herb: lemon-balm-leaf'): string => `
ingredients: [{${herb}, parts: 1}]
preparation: {kind: glycerite, ${more}, marc: pressed}
directions: {take: 5 mL, times: 3}`;

describe('a glycerite', () => {
  it('of 60 % m/m is weighed out by the density of the mixture', async () => {
    const batch = await made(glycerite('ratio: 1:5 w/v, glycerol: 60 % m/m'), byMass('100 g'));
    // 500 mL x 1.1535 = 576.75 g: x 0.6 = 346.05 g of glycerol, 230.7 g of water
    const [glycerol, water] = product(batch).added;
    expect(figure(glycerol?.amount)).toBeCloseTo(346.05, 1);
    expect(figure(water?.amount)).toBeCloseTo(230.7, 1);
    expect(shown(herbDose(batch).amounts?.single)).toBe('1 g');
  });

  it('of 65 % v/v holds 65 mL of glycerol in 100 mL, which weigh what they weigh', async () => {
    const { added: of } = product(
      await made(glycerite('ratio: 1:5 w/v, glycerol: 65 % v/v'), byMass('100 g')),
    );
    // 500 mL x 0.65 x 1.26106 g/mL = 409.84 g
    expect(figure(of[0]?.amount)).toBeCloseTo(409.84, 1);
  });

  it('of a ratio by weight is so much by weight', async () => {
    const batch = await made(glycerite('ratio: 1:5 w/w, glycerol: 60 % m/m'), byMass('100 g'));
    expect(added(batch)).toEqual({ glycerol: '300 g', water: '200 g' });
    // 500 g / 1.1535 = 433.46 mL; less 78 mL = 355.46 mL; 5 mL hold 100 x 5 / 433.46 = 1.1535 g.
    expect(figure(product(batch).yields)).toBeCloseTo(355.46, 1);
    expect(shown(herbDose(batch).amounts?.single)).toBe('1.15 g');
  });
});

// Belgian pharmacy compounding reference, Preservatives: 30 % m/m; Austrian pharmacy newsletter, Problems when making
// herbal tinctures: glycerites of at least 60 %.
describe('whether a glycerite keeps', () => {
  it.each([
    ['60 % m/m', 'by itself'],
    ['59 % m/m', 'by some sources'],
    ['30 % m/m', 'by some sources'],
    ['29 % m/m', 'not by itself'],
  ])('of %s: %s', async (strength, keeps) => {
    const batch = await made(glycerite(`ratio: 1:5 w/v, glycerol: ${strength}`), byMass('100 g'));
    expect(batch.keeping.keeps).toBe(keeps);
    expect(shown(batch.keeping.time?.for)).toBe(keeps === 'by itself' ? 'none' : '24 h');
  });

  it('of fresh leaf counts the water of the wettest leaf, which may take it below what keeps', async () => {
    const fresh = 'herb: lemon-balm-leaf, form: fresh, moisture: 70-80 %';
    const batch = await made(glycerite('ratio: 1:5 w/v, glycerol: 60 % m/m', fresh), byMass('100 g'));
    // 346.05 / (576.75 + 80) = 52.69 %
    expect(figure(product(batch).contents.byMass.get('glycerol'))).toBeCloseTo(52.69, 2);
    expect(limits(batch)).toEqual([
      expect.stringMatching(/^glycerol 52\.\d+ % m\/m, at least 30 % m\/m: met$/),
      expect.stringMatching(/^glycerol 52\.\d+ % m\/m, at least 60 % m\/m: not met$/),
    ]);
    expect(batch.keeping.keeps).toBe('by some sources');
  });
});

describe('what a glycerite of fresh leaf yields', () => {
  it('is counted by its dry matter, for the marc keeps what dry herb would', async () => {
    const fresh = 'herb: lemon-balm-leaf, form: fresh, moisture: 80 %';
    const of = glycerite('ratio: 1:2 w/v, glycerol: 60 % m/m', fresh);
    const batch = await made(of, byMass('100 g'));
    // 200 mL poured; 20 g of dry matter keep 0.78 mL each, 15.6 mL, and the leaf brings 80 g of water: above 184 mL.
    expect(figure(product(batch).yields)).toBeGreaterThan(184);
    expect(figure(product(batch).yields)).toBeLessThan(280);
  });
});
