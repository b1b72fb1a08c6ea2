import { describe, expect, it } from 'vitest';
import { byDays, byMass, byVolume, made, method, refused, shown } from './formula.ts';
import { figure, herbDose, limits, product } from './product.ts';

const syrup = (more = 'strained: 400 mL', sugar = '65 % m/m', by = 'infusion'): string => `
ingredients: [{herb: thyme-herb, parts: 1}]
preparation: {kind: syrup, by: ${by}, herb: 50 g, water: 500 mL, ${more}, sugar: ${sugar}}
directions: {take: 10 mL, times: 3, for: 7 days}`;

describe('a syrup', () => {
  it('takes sugar for the liquid as strained', async () => {
    const batch = await made(syrup());
    const [water, sugar] = product(batch).added;
    // 400 mL x 0.9982 = 399.28 g are 35 %: x 65 / 35 = 741.52 g of sugar
    expect([shown(water?.amount), shown(sugar?.amount)]).toEqual(['500 mL', '741.5 g']);
    expect(figure(sugar?.amount)).toBeCloseTo(741.52, 2);
  });

  it('fills what both weigh at its density', async () => {
    const batch = await made(syrup());
    // 1140.80 g / 1.3166 g/mL (65 % m/m at 20 C, computed from the sucrose polynomial) = 866.47 mL
    expect(figure(product(batch).makes)).toBeCloseTo(866.5, 1);
    // 10 mL hold 50 x 10 / 866.47 = 0.5771 g of herb.
    expect(shown(herbDose(batch).amounts?.single)).toBe('0.577 g');
    // 30 mL a day: 28 full days of 866.47 mL, 26.5 mL over.
    expect([shown(batch.supply?.days), shown(batch.supply?.course?.bottle)]).toEqual(['28 days', '250 mL']);
  });

  it('grows with the herb, and by the volume asked for', async () => {
    const twice = await made(syrup(), byMass('100 g'));
    expect(figure(product(twice).added[1]?.amount)).toBeCloseTo(2 * 741.52, 1);
    // 250 / 866.47 x 50 g = 14.43 g of herb, to the next 0.1 g
    expect(shown((await made(syrup(), byVolume('250 mL'))).total)).toBe('14.5 g');
    expect(shown((await made(syrup(), byDays('28 days'))).supply?.days)).toBe('28 days');
  });

  // United States Pharmacopeia, Syrup: 850 g of sucrose in 1000 mL, about 450 mL of water.
  it('of 850 g of sucrose with 450 g of water comes to about a litre', async () => {
    // 450 mL x 0.9982 = 449.19 g; 850 / 1299.19 = 65.425 % m/m
    const batch = await made(syrup('make_up_to: 450 mL', '65.425 % m/m'));
    expect(figure(product(batch).added[1]?.amount)).toBeCloseTo(850, 0);
    expect(figure(product(batch).makes)).toBeGreaterThan(980);
    expect(figure(product(batch).makes)).toBeLessThan(1000);
  });

  it('says what to do, by infusion and by decoction', async () => {
    expect(method(await made(syrup('strained: 400 mL, infuse: 20 min')))).toEqual([
      'Pour 500 mL of boiling water on 50 g of the herbs, cover, let stand 20 min and strain.',
      'There should be 400 mL of it.',
      'Dissolve 741.5 g of sugar in it warm, without boiling it long; bottle it hot in clean bottles.',
    ]);
    expect(
      method(await made(syrup('make_up_to: 400 mL, boil: 15 min', '65 % m/m', 'decoction'))).slice(0, 2),
    ).toEqual([
      'Put 50 g of the herbs into 500 mL of cold water, bring to the boil, simmer 15 min and strain.',
      'Make up with water to 400 mL in all.',
    ]);
  });

  it('of nothing but sugar is refused, and so is more strained off than was put in', async () => {
    expect(await refused(syrup(undefined, '100 % m/m'))).toMatch(/^a syrup of nothing but sugar is no syrup/);
    expect(await refused(syrup('strained: 600 mL'))).toMatch(/more than the 500 mL of water put in/);
  });
});

// University of North Carolina, Preserving syrups: 65 % by weight; Belgian compounding reference, Preservatives: 62 %.
describe('whether a syrup keeps', () => {
  it.each([
    ['65 % m/m', 'by itself', 'none'],
    ['64 % m/m', 'by some sources', '24 h'],
    ['62 % m/m', 'by some sources', '24 h'],
    ['61 % m/m', 'not by itself', '24 h'],
  ])('of %s: %s', async (sugar, keeps, time) => {
    const batch = await made(syrup(undefined, sugar));
    expect([batch.keeping.keeps, shown(batch.keeping.time?.for)]).toEqual([keeps, time]);
    expect(limits(batch)).toHaveLength(2);
  });
});
