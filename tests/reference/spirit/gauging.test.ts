// United States figures, which hold at 60 F; the proof number is twice the % v/v (27 CFR 19.1).
import { describe, expect, it } from 'vitest';
import { inUnit } from '../../../src/measure/quantity.ts';
import { useUp } from '../../../src/measure/spirit/mixing.ts';
import { AT_60F } from '../../../src/measure/spirit/reference.ts';
import { volumeFactor } from '../../../src/measure/spirit/strength.ts';
import { mustUnit } from '../../../src/measure/units.ts';
import { must } from '../../must.ts';
import { fahrenheit, off, q, vol } from './figures.ts';

describe('60 F', () => {
  it('is 140/9 C', () => {
    expect(AT_60F.celsius.toSignificantDigits(30).eq(fahrenheit('60').toSignificantDigits(30))).toBe(true);
    expect(AT_60F.celsius.toDecimalPlaces(4).toFixed()).toBe('15.5556');
  });

  it('ethanol over water is 0.7939 there, cut off after four places (27 CFR 19.1, proof gallon)', () => {
    expect(off(AT_60F.ethanol.div(AT_60F.water), '0.7939')).toBeLessThan(0.0001);
  });
});

describe('27 CFR 30.64, reducing by weight', () => {
  it('1,000 lb of 200 proof to 190 proof: 1,082.03 lb in all, 82.03 lb of water', () => {
    const r = must(useUp({ from: vol('100'), amount: q('1000 lb'), to: vol('95') }, AT_60F));
    const pounds = mustUnit('[lb_av]');
    expect(off(inUnit(r.made.mass, pounds), '1082.03')).toBeLessThanOrEqual(0.05);
    expect(off(inUnit(r.water.mass, pounds), '82.03')).toBeLessThanOrEqual(0.05);
  });
});

describe('27 CFR 30.25 and 30.67, table 7: volume correction factors', () => {
  it.each([
    ['95', '76', '0.991', '190 proof'],
    ['57.5', '68', '0.996', '115 proof'],
  ])('%s % v/v at %s F: %s (%s)', (percent, degrees, printed) => {
    const factor = must(volumeFactor(vol(percent), fahrenheit(degrees), AT_60F));
    expect(off(factor, printed)).toBeLessThanOrEqual(0.0007);
  });
});

describe('water to add to 100 volumes, a reduction table that rests on the United States Gauging Manual (restated)', () => {
  const water = (from: string, to: string) =>
    must(useUp({ from: vol(from), amount: q('100 mL'), to: vol(to) }, AT_60F)).water.volume;

  it.each([
    ['95', '70', '39.1'],
    ['95', '60', '63'],
    ['95', '50', '95.9'],
    ['95', '25', '287'],
    ['90', '70', '31'],
    ['90', '45', '105'],
    ['90', '20', '356'],
    ['60', '40', '51.4'],
  ])('%s to %s % v/v: %s', (from, to, printed) => {
    expect(off(water(from, to), printed) / Number(printed)).toBeLessThanOrEqual(0.005);
  });

  it.each([
    ['30', '15', '96.7', '99.7'],
    ['60', '50', '20.5', '20.8'],
    ['85', '60', '44.2', '44.5'],
  ])(
    '%s to %s % v/v is printed %s; by OIML R 22 it is %s, and the cell is a misprint',
    (from, to, printed, ours) => {
      expect(water(from, to).value.toDecimalPlaces(1).toFixed()).toBe(ours);
      expect(off(water(from, to), printed) / Number(printed)).toBeGreaterThan(0.005);
    },
  );

  it('moving the reference from 20 C to 60 F changes such a figure by 0.21 % at most (computed)', () => {
    for (const [from, to] of [
      ['95', '70'],
      ['95', '25'],
      ['90', '45'],
      ['60', '40'],
    ] as const) {
      const at20 = must(useUp({ from: vol(from), amount: q('100 mL'), to: vol(to) })).water.volume.value;
      expect(water(from, to).value.minus(at20).div(at20).abs().toNumber()).toBeLessThan(0.0022);
    }
  });
});
