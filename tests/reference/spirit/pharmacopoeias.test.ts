// What pharmacopoeias and wine law print of ethanol and water, each beside its source.
import { describe, expect, it } from 'vitest';
import { exact } from '../../../src/measure/exact.ts';
import { dilute, mixture, useUp } from '../../../src/measure/spirit/mixing.ts';
import { AT_60F } from '../../../src/measure/spirit/reference.ts';
import {
  densityOfSpirit,
  relativeDensity,
  toMassStrength,
  toVolumeStrength,
} from '../../../src/measure/spirit/strength.ts';
import { must } from '../../must.ts';
import { mass, off, q, vol } from './figures.ts';

describe('OIV-MA-AS312-02 (R2009), table I, the line of 20 C (restated)', () => {
  it.each([
    ['5', '991.06'],
    ['11', '983.52'],
  ])('%s % v/v is %s kg/m3', (percent, printed) => {
    expect(off(must(densityOfSpirit(vol(percent), exact(20))).density, printed)).toBeLessThanOrEqual(0.01);
  });
});

describe('Ethanol (96 per cent), European Pharmacopoeia 3rd edition as in the British Pharmacopoeia (1999)', () => {
  it.each([
    ['95.1', '92.6', '0.8124'],
    ['96.9', '95.2', '0.8051'],
  ])('%s % v/v is %s % m/m, relative density %s', (percent, byMass, relative) => {
    expect(off(must(toMassStrength(vol(percent))), byMass)).toBeLessThanOrEqual(0.06);
    expect(off(must(relativeDensity(vol(percent), exact(20))), relative)).toBeLessThanOrEqual(0.0002);
  });

  it('relative density is 1.00180 times the density in g/mL at 20 C (general method 2.2.5, restated)', () => {
    const density = must(densityOfSpirit(vol('70'), exact(20))).density.value.div(1000);
    expect(off(must(relativeDensity(vol('70'), exact(20))), density.times('1.00180').toFixed())).toBeLessThan(
      2e-6,
    );
  });
});

describe('Alcoholometric Table, USP 29-NF 24 (2006), at 60 F', () => {
  it('30 % m/m is 36.18 % v/v', () => {
    expect(off(must(toVolumeStrength(mass('30'), AT_60F)), '36.18')).toBeLessThanOrEqual(0.006);
  });

  it.each([
    ['10', '8.05'],
    ['20', '16.27'],
  ])('%s % v/v is %s % m/m', (percent, printed) => {
    expect(off(must(toMassStrength(vol(percent), AT_60F)), printed)).toBeLessThanOrEqual(0.006);
  });
});

describe('dilute ethanols of the British Pharmacopoeia: mL of ethanol (96 per cent) in 1,000 mL', () => {
  // They imply a strong spirit of 96.3 % v/v, the middle of the 96.0 to 96.6 that went with them.
  const stock = (target: string, from: string) =>
    must(dilute({ to: vol(target), make: q('1000 mL'), from: vol(from) })).stock.volume;

  it('20 per cent: 207 mL (British Pharmacopoeia 1988, restated; limits 19.5 to 20.5)', () => {
    expect(off(stock('20', '96.3'), '207')).toBeLessThanOrEqual(1.4);
    const made = must(useUp({ from: vol('96.3'), amount: q('207 mL'), to: vol('20') })).made.volume;
    expect(off(made, '1000')).toBeLessThan(5);
  });

  it.each([
    ['25', '259'],
    ['45', '468'],
    ['50', '519'],
    ['60', '623'],
    ['70', '727'],
    ['80', '831'],
    ['90', '934'],
  ])('%s per cent: %s mL (from memory)', (target, printed) => {
    expect(off(stock(target, '96.3'), printed)).toBeLessThan(0.9);
  });

  it('with a spirit of 96.0 they come out 0.1 to 0.3 % v/v weak, so the real strength of the stock is asked for', () => {
    for (const [target, printed] of [
      ['25', '259'],
      ['50', '519'],
      ['70', '727'],
      ['90', '934'],
    ] as const) {
      const weak = exact(target).minus(exact(printed).times(96).div(1000)).toNumber();
      expect(weak).toBeGreaterThan(0.1);
      expect(weak).toBeLessThan(0.35);
      expect(stock(target, '96').value.minus(stock(target, '96.3').value).toNumber()).toBeGreaterThan(0.8);
    }
  });
});

describe('British Pharmacopoeia 1898 (from memory): volumes of water to 100 of rectified spirit, 90 %, at 60 F', () => {
  it.each([
    ['70', '31.05'],
    ['60', '53.65'],
    ['45', '105.34'],
    ['20', '355.80'],
  ])('to %s % v/v: %s', (target, printed) => {
    const { water } = must(useUp({ from: vol('90'), amount: q('100 mL'), to: vol(target) }, AT_60F));
    expect(off(water.volume, printed)).toBeLessThan(0.025);
  });
});

describe('British proof spirit (a cyclopaedia of practical receipts, 6th edition, vol I, p 134): 60 F', () => {
  it('57.06 % v/v, 49.24 % m/m, specific gravity 0.91984', () => {
    expect(off(must(toMassStrength(vol('57.06'), AT_60F)), '49.24')).toBeLessThan(0.03);
    expect(off(must(relativeDensity(vol('57.06'), AT_60F.celsius, AT_60F)), '0.91984')).toBeLessThan(0.0002);
  });

  it('57.06 mL of ethanol and 46.68 mL of water make 100 mL', () => {
    const made = must(
      mixture(
        [
          { amount: q('57.06 mL'), strength: vol('100') },
          { amount: q('46.68 mL'), strength: vol('0') },
        ],
        AT_60F,
      ),
    );
    expect(off(made.volume, '100')).toBeLessThan(0.05);
  });
});

describe('a preserving strength keeps its unit', () => {
  // 15 % v/v at least (University of North Carolina, nonaqueous solutions); above 15 % m/m (Belgian pharmacy compounding notes, preservatives).
  it('15 % m/m is 18.5 % v/v, and 15 % v/v is only 12.1 % m/m', () => {
    expect(
      must(toVolumeStrength(mass('15')))
        .value.toDecimalPlaces(1)
        .toFixed(),
    ).toBe('18.5');
    expect(
      must(toMassStrength(vol('15')))
        .value.toDecimalPlaces(1)
        .toFixed(),
    ).toBe('12.1');
  });
});
