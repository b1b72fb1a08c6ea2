import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { glycerolDensity, glycerolFraction } from '../../src/measure/glycerol.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { sucroseDensity } from '../../src/measure/sucrose.ts';
import { value, why } from '../compounding/formula.ts';

const inHundred = (percent: string) => exact(percent).div(100);

describe('glycerol in water at 20 C', () => {
  // Computed with the model of Experiments in Fluids 59:75 (2018), as three public implementations have it; kg/m3.
  it.each([
    ['30', 1072.6],
    ['50', 1126.2],
    ['60', 1153.5],
    ['85', 1221.7],
    ['100', 1261.1],
  ])('%s %% m/m', (percent, density) => {
    const found = value(glycerolDensity(inHundred(percent)))
      .value.times(1000)
      .toNumber();
    expect(Math.abs(found - density)).toBeLessThan(0.06);
  });

  // The model's own water is 998.05, 0.15 kg/m3 light beside OIML R 22.
  it('of none is its own water', () => {
    expect(
      value(glycerolDensity(exact(0)))
        .value.toDecimalPlaces(5)
        .toFixed(),
    ).toBe('0.99805');
  });

  it('a strength by volume leads back to itself by the density', () => {
    for (const percent of [10, 30, 60, 65, 90]) {
      const w = value(glycerolFraction(quantity(percent, '%{v/v}')));
      const byVolume = w.times(value(glycerolDensity(w)).value).div(value(glycerolDensity(exact(1))).value);
      expect(byVolume.times(100).minus(percent).abs().lt('1e-9')).toBe(true);
    }
    expect(why(glycerolFraction(quantity(50, '%{w/v}')))).toMatch(/not a strength of glycerol/);
    expect(why(glycerolDensity(exact('1.1')))).toMatch(/outside 0 to 1/);
  });
});

describe('sucrose in water at 20 C', () => {
  // Computed with the polynomial as a sugar-crystalliser paper of 2005 quotes it; kg/m3.
  it.each([
    ['30', 1127.0],
    ['50', 1229.7],
    ['65', 1316.6],
    ['66.7', 1327.0],
  ])('%s %% m/m', (percent, density) => {
    const found = value(sucroseDensity(inHundred(percent)))
      .value.times(1000)
      .toNumber();
    expect(Math.abs(found - density)).toBeLessThan(0.06);
  });

  // University of North Carolina, Preserving syrups: 85 % w/v is about 65 % w/w at a gravity of 1.313; measured at 25 C, so
  // that at 20 C the same syrup is a little heavier.
  it('850 g in 1 L is about 65 % by weight', () => {
    const w = exact('0.648');
    const density = value(sucroseDensity(w)).value;
    expect(w.times(density).toNumber()).toBeCloseTo(0.85, 2);
    expect(Math.abs(density.toNumber() - 1.313)).toBeLessThan(0.003);
    expect(why(sucroseDensity(exact(-1)))).toMatch(/outside 0 to 1/);
  });
});
