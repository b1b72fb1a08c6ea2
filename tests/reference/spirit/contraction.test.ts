// Spirit and water shrink when they meet: published examples, and what the sums that forget it come to.
import { describe, expect, it } from 'vitest';
import { exact } from '../../../src/measure/exact.ts';
import { alligation, blendTo } from '../../../src/measure/spirit/blend.ts';
import { dilute, mixture } from '../../../src/measure/spirit/mixing.ts';
import { densityOfSpirit, toMassStrength } from '../../../src/measure/spirit/strength.ts';
import { must } from '../../must.ts';
import { mass, off, q, vol } from './figures.ts';

const mixed = (...parts: readonly (readonly [string, string])[]) =>
  must(mixture(parts.map(([amount, strength]) => ({ amount: q(amount), strength: q(strength) }))));

describe('a worked example on the International Alcoholometric Tables (restated)', () => {
  it('1 L of 80 % v/v and 1 L of water make 1,960 mL of 40.8 % v/v', () => {
    const made = mixed(['1000 mL', '80 % v/v'], ['1000 mL', '0 % v/v']);
    expect(off(made.volume, '1960')).toBeLessThanOrEqual(5);
    expect(off(made.volumeStrength, '40.8')).toBeLessThanOrEqual(0.05);
  });

  it('40 mL of ethanol and 60 mL of water make about 97 mL', () => {
    expect(off(mixed(['40 mL', '100 % v/v'], ['60 mL', '0 % v/v']).volume, '97')).toBeLessThan(0.5);
  });
});

describe('mL lost for each 100 mL of mixture from absolute ethanol and water at 20 C (computed from OIML R 22)', () => {
  const lost = (target: string) =>
    must(dilute({ to: vol(target), make: q('100 mL'), from: vol('100') })).made.contraction;

  it.each([
    ['10', '0.74'],
    ['20', '1.72'],
    ['30', '2.67'],
    ['40', '3.35'],
    ['50', '3.65'],
    ['60', '3.64'],
    ['70', '3.37'],
    ['80', '2.83'],
    ['90', '1.91'],
    ['96', '0.98'],
  ])('%s % v/v: %s mL', (target, expected) => {
    expect(off(lost(target), expected)).toBeLessThan(0.0051);
  });

  it('most at 54.4 % v/v, 46.6 % m/m: 3.68 mL (the "about 46 %" of popular accounts is by mass)', () => {
    expect(off(lost('54.4'), '3.68')).toBeLessThan(0.0051);
    expect(lost('54.4').value.gt(lost('54').value) && lost('54.4').value.gt(lost('54.8').value)).toBe(true);
    expect(off(must(toMassStrength(vol('54.4'))), '46.6')).toBeLessThan(0.06);
  });
});

describe('96 to 45 % v/v is not 531 mL of water to the litre', () => {
  const litre = must(dilute({ to: vol('45'), make: q('1 L'), from: vol('96') }));

  it('the spirit is 468.75 mL to the last figure, the water 562 mL', () => {
    expect(litre.stock.volume.value.toSignificantDigits(40).toFixed()).toBe('468.75');
    expect(off(litre.water.volume, '562')).toBeLessThan(0.5);
  });

  it('the difference of the volumes, 531 mL, makes 970 mL of 46.4 % v/v (computed)', () => {
    const short = mixed(['468.75 mL', '96 % v/v'], ['531.25 mL', '0 % v/v']);
    expect(off(short.volume, '970')).toBeLessThan(0.5);
    expect(off(short.volumeStrength, '46.4')).toBeLessThan(0.05);
  });
});

describe('weak spirit swells a little when thinned (computed from OIML R 22)', () => {
  it('100 mL of 20 % v/v and 100 mL of water fill 200.2 mL, while two strong ones shrink', () => {
    const weak = mixed(['100 mL', '20 % v/v'], ['100 mL', '0 % v/v']);
    expect(weak.volume.value.toDecimalPlaces(1).toFixed()).toBe('200.2');
    expect(weak.contraction.value.lt(0)).toBe(true);
    expect(mixed(['100 mL', '96 % v/v'], ['100 mL', '40 % v/v']).contraction.value.gt(1)).toBe(true);
  });
});

describe('herbal practice: 12 parts of 95 % spirit and 8 of water taken for 60 % (outlines of fresh and dry plant tinctures)', () => {
  it('is 58.7 % v/v (computed)', () => {
    expect(off(mixed(['12 mL', '95 % v/v'], ['8 mL', '0 % v/v']).volumeStrength, '58.7')).toBeLessThan(0.05);
  });
});

describe('1:5 by volume is not 1:5 by weight (computed from OIML R 22)', () => {
  it.each([
    ['60', '454.6'],
    ['70', '442.8'],
  ])('500 mL of %s % v/v weigh %s g', (percent, grams) => {
    const density = must(densityOfSpirit(vol(percent), exact(20))).density.value.div(1000);
    expect(off(density.times(500), grams)).toBeLessThan(0.06);
  });
});

describe('alligation medial, University of Kerbala, Pharmaceutical calculations, laboratory 10', () => {
  it('3,000 of 40 %, 1,000 of 60 % and 1,000 of 70 % are 5,000 of 50 %: true by mass', () => {
    const made = mixed(['3000 g', '40 % m/m'], ['1000 g', '60 % m/m'], ['1000 g', '70 % m/m']);
    expect(off(made.mass, '5000')).toBeLessThanOrEqual(1e-9);
    expect(off(made.massStrength, '50')).toBeLessThanOrEqual(1e-9);
  });

  it('printed of mL and % v/v it leaves contraction out, as it says: 4,988 mL of 50.1 % v/v (computed)', () => {
    const textbook = exact(3000).times(40).plus(exact(1000).times(60)).plus(exact(1000).times(70)).div(5000);
    expect(off(textbook, '50')).toBeLessThanOrEqual(1e-9);
    const made = mixed(['3000 mL', '40 % v/v'], ['1000 mL', '60 % v/v'], ['1000 mL', '70 % v/v']);
    expect(made.volume.value.toFixed(0)).toBe('4988');
    expect(made.volumeStrength.value.toDecimalPlaces(1).toFixed()).toBe('50.1');
  });

  it('alternate, backwards: 40, 60 and 70 % m/m to 50 %, each weaker with each stronger', () => {
    const r = must(alligation([mass('40'), mass('60'), mass('70')], mass('50')));
    if (!r.reachable) throw new Error(r.says);
    expect(r.parts.map((p) => p.byMass.toFixed())).toEqual(['30', '10', '10']);
    expect(r.pairs.map((p) => [p.weaker, p.stronger].map((s) => s.value.toFixed()))).toEqual([
      ['40', '60'],
      ['40', '70'],
    ]);
    const blend = must(
      blendTo({ of: [mass('40'), mass('60'), mass('70')], target: mass('50'), make: q('5 kg') }),
    );
    if (!blend.reachable) throw new Error(blend.says);
    expect(blend.parts.map((p) => p.mass.value.toFixed())).toEqual(['3000', '1000', '1000']);
  });
});
