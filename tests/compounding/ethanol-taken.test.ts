// Ethanol weighs 0.78924 g/mL at 20 C (OIML R 22). A British unit of alcohol is 10 mL of it.
import { describe, expect, it } from 'vitest';
import { ethanolPerKg } from '../../src/compounding/ethanol-taken.ts';
import { given } from '../../src/measure/figure.ts';
import { byMass, byVolume, made, q, shown } from './formula.ts';
import { figure } from './product.ts';

const blend = (spirit: string, take: string, times: string): string => `
ingredients: [{herb: valerian-root, form: tincture, ratio: 1:5 w/v, spirit: ${spirit}, parts: 1}]
preparation: {kind: liquid-blend}
directions: {take: ${take}, times: ${times}}`;

const taken = async (yaml: string) => {
  const { ethanol } = await made(yaml, byVolume('100 mL'));
  if (ethanol === null) throw new Error('no ethanol');
  return ethanol;
};

describe('ethanol taken with a tincture', () => {
  it('of 45 % v/v, 5 mL three times a day', async () => {
    const { perDose, perDay, ukUnitsADay } = await taken(blend('45 % v/v', '5 mL', '3'));
    // 5 mL x 0.45 = 2.25 mL x 0.78924 = 1.77579 g; three times 5.32737 g; 3 x 2.25 mL / 10 mL = 0.675 units
    expect([shown(perDose), shown(perDay)]).toEqual(['1.78 g', '5.33 g']);
    expect(figure(perDose)).toBeCloseTo(1.77579, 4);
    expect(figure(perDay)).toBeCloseTo(5.32737, 4);
    expect(Number(ukUnitsADay.value)).toBeCloseTo(0.675, 9);
  });

  it('counts the most times that the directions allow', async () => {
    const { perDay } = await taken(blend('45 % v/v', '5 mL', '2-4'));
    // 4 x 1.77579 g
    expect(figure(perDay)).toBeCloseTo(7.10316, 4);
  });

  it('by a strength in mass is the same ethanol', async () => {
    // 62.39 % m/m is 70 % v/v (OIML R 22, table IVb): 5 mL x 0.7 x 0.78924 = 2.762 g
    const { perDose } = await taken(blend('62.39 % m/m', '5 mL', '1'));
    expect(figure(perDose)).toBeCloseTo(2.762, 3);
  });

  // European Medicines Agency, annex on excipients: ethanol is counted in mg per kg of body weight and dose.
  it('by body weight', async () => {
    const ethanol = await taken(blend('45 % v/v', '5 mL', '3'));
    const weight = given(q('70 kg'), 'body weight');
    // 1775.79 mg / 70 kg = 25.3684 mg/kg; 70 kg are 70 / 0.45359237 = 154.3236 lb
    expect(figure(ethanolPerKg(ethanol, weight))).toBeCloseTo(25.3684, 3);
    const pounds = given(q('154.3236 lb'), 'body weight');
    expect(figure(ethanolPerKg(ethanol, pounds))).toBeCloseTo(25.3684, 3);
  });

  it('of fresh herb counts the strongest that it may end at, which is the least that the leaf may hold', async () => {
    const fresh = (moisture: string) => `
ingredients: [{herb: lemon-balm-leaf, form: fresh, moisture: ${moisture}, parts: 1}]
preparation: {kind: fresh-tincture, ratio: 1:2 w/v, spirit: 95 % v/v, marc: pressed}
directions: {take: 5 mL, times: 1}`;
    const [range, driest] = [
      await made(fresh('70-80 %'), byMass('100 g')),
      await made(fresh('70 %'), byMass('100 g')),
    ];
    expect(figure(range.ethanol?.perDose)).toBeCloseTo(figure(driest.ethanol?.perDose), 12);
  });
});

describe('ethanol that is not taken', () => {
  it('there is none in a glycerite, and none is told where nothing says how much is taken', async () => {
    const glycerite = `
ingredients: [{herb: lemon-balm-leaf, parts: 1}]
preparation: {kind: glycerite, ratio: 1:5 w/v, glycerol: 65 % v/v, marc: pressed}
directions: {take: 5 mL, times: 3}`;
    expect((await made(glycerite, byMass('20 g'))).ethanol).toBeNull();
    const silent = blend('45 % v/v', '5 mL', '3').replace(/directions.*/, '');
    expect((await made(silent, byVolume('100 mL'))).ethanol).toBeNull();
  });
});
