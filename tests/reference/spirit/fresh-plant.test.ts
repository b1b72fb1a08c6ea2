// No published example gives the finished strength of a fresh tincture: the figures are computed from OIML R 22, and
// the ratios are those of published rules.
import { describe, expect, it } from 'vitest';
import { parseRange } from '../../../src/measure/parse.ts';
import { finalStrength } from '../../../src/measure/spirit/fresh.ts';
import { pourByRatio, spiritNeeded } from '../../../src/measure/spirit/spirit-needed.ts';
import { must } from '../../must.ts';
import { off, q, ratio, vol } from './figures.ts';

describe('the water of the plant thins the spirit', () => {
  it('300 g at 75 % in 700 mL of 96 % v/v: 74.4 % v/v in 904 mL (adding volumes would say 72.6 % in 925 mL)', () => {
    const fresh = must(
      finalStrength({ plant: q('300 g'), moisture: q('75 %'), spirit: q('700 mL'), strength: vol('96') }),
    );
    expect(off(fresh.wettest.volumeStrength, '74.4')).toBeLessThan(0.05);
    expect(off(fresh.wettest.volume, '904')).toBeLessThan(0.5);
    expect(fresh.wettest.plantWater.value.toFixed()).toBe('225');
    expect(fresh.volumeStrength.low?.value.eq(fresh.wettest.volumeStrength.value)).toBe(true);
  });

  it('1 part of fresh herb by weight in 2 by volume of 95 % (outlines of fresh and dry plant tinctures), at 70 to 80 %', () => {
    const plant = q('500 g');
    const spirit = must(pourByRatio(plant, ratio('1:2'), 'w/v'));
    expect(spirit.value.toFixed()).toBe('1000');
    const fresh = must(
      finalStrength({ plant, moisture: must(parseRange('70-80 %')), spirit, strength: vol('95') }),
    );
    // 0.35 and 0.40 kg of water to 0.81138 kg (table IVa) of 92.41 % m/m (table IVb): 64.56 and 61.90 % m/m.
    expect(off(fresh.driest.massStrength, '64.56')).toBeLessThan(0.01);
    expect(off(fresh.wettest.massStrength, '61.90')).toBeLessThan(0.01);
    expect(fresh.volumeStrength.low?.value.eq(fresh.wettest.volumeStrength.value)).toBe(true);
    expect(fresh.volumeStrength.high?.value.eq(fresh.driest.volumeStrength.value)).toBe(true);
    expect(fresh.volume.low?.value.lt(fresh.volume.high?.value ?? 0)).toBe(true);
  });
});

describe('the spirit that ends at the target', () => {
  it('400 g at 85 % in 500 mL: even absolute ethanol ends at 61.6 % v/v, so 65 % is not reachable', () => {
    const { wettest } = must(
      spiritNeeded({ plant: q('400 g'), moisture: q('85 %'), pour: q('500 mL'), target: vol('65') }),
    );
    if (wettest.reachable) throw new Error('must be out of reach');
    expect(off(wettest.best.volumeStrength, '61.6')).toBeLessThan(0.05);
    expect(wettest.wouldDo).toBeNull();
    expect(wettest.says).toBe(
      'not reachable: 500 mL of absolute ethanol ends at 61.63 % v/v; 574.6 mL of it would be enough',
    );
    // What is said to be enough is.
    const enough = must(
      finalStrength({
        plant: q('400 g'),
        moisture: q('85 %'),
        spirit: wettest.enough?.volume ?? q('0 mL'),
        strength: vol('100'),
      }),
    );
    expect(off(enough.wettest.volumeStrength, '65')).toBeLessThan(1e-30);
  });

  it('from 96.3 % v/v in hand: so much of it and so much water, and it ends there', () => {
    const plant = q('300 g');
    const pour = must(pourByRatio(plant, ratio('3:7'), 'w/v'));
    const { wettest } = must(
      spiritNeeded({ plant, moisture: q('75 %'), pour, target: vol('60'), from: vol('96.3') }),
    );
    if (!wettest.reachable || wettest.madeFrom === null) throw new Error('must be within reach');
    const { stock, water, made } = wettest.madeFrom;
    expect(off(made.volume, '700')).toBeLessThan(1e-30);
    // The spirit and the water on the scale, with the plant's 225 g, by hand: 60 % v/v is 52.09 % m/m (computed).
    const ethanol = stock.mass.value.times('0.9427');
    expect(off(ethanol.div(stock.mass.value.plus(water.mass.value).plus(225)), '0.5209')).toBeLessThan(
      0.0001,
    );
    expect(off(wettest.ends.volumeStrength, '60')).toBeLessThan(1e-30);
  });

  it('from 90 % v/v in hand too weak: says what a stronger one must be, and how much of this one would do', () => {
    const asked = { plant: q('300 g'), moisture: q('80 %'), pour: q('600 mL'), target: vol('68') };
    const { wettest } = must(spiritNeeded({ ...asked, from: vol('90') }));
    if (wettest.reachable) throw new Error('must be out of reach');
    const free = must(spiritNeeded(asked)).wettest;
    if (!free.reachable) throw new Error('must be within reach of absolute ethanol');
    expect(wettest.wouldDo?.value.eq(free.volumeStrength.value)).toBe(true);
    expect(free.volumeStrength.value.gt(90)).toBe(true);
    expect(wettest.best.volumeStrength.value.lt(68)).toBe(true);
    expect(wettest.enough?.volume.value.gt(600)).toBe(true);
  });
});
