import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import {
  densityOf,
  dropsPerMlOf,
  dropsToVolume,
  LIQUIDS,
  liquidNamed,
  massToVolume,
  volumeToDrops,
  volumeToMass,
} from '../../src/measure/liquid.ts';
import { parseQuantity } from '../../src/measure/parse.ts';
import { inUnit, type Quantity, ratioOf, times } from '../../src/measure/quantity.ts';
import type { Result } from '../../src/measure/result.ts';
import { roundTo } from '../../src/measure/round.ts';
import { milligram, millilitre, mustUnit } from '../../src/measure/units.ts';
import { write } from '../../src/measure/write.ts';

function q(text: string): Quantity {
  const r = parseQuantity(text);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

/** The answer in full, or the reason why there is none. */
const said = (r: Result<Quantity>): string => (r.ok ? write(r.value, 'exact') : r.why);
const tenFigures = (r: Result<Quantity>): string =>
  r.ok ? r.value.value.toSignificantDigits(10).toFixed() : r.why;

describe('weighing and measuring a liquid: published examples', () => {
  it('750 g at a relative density of 1.25 measure 600 mL (university course notes, density and specific gravity, module 2)', () => {
    expect(said(massToVolume(q('750 g'), q('1.25 g/mL')))).toBe('600 mL');
  });

  it('239 g in 183 mL are 1.31 g/mL (University of Houston, PHAR 4330, expressions of concentration)', () => {
    const density = densityOf(q('239 g'), q('183 mL'));
    expect(tenFigures(density)).toBe('1.306010929');
    expect(density.ok && write(density.value)).toBe('1.31 g/mL');
  });

  it('423 mL at 0.88 weigh 372.24 g (University of Houston, PHAR 4330, expressions of concentration)', () => {
    expect(said(volumeToMass(q('423 mL'), q('0.88 g/mL')))).toBe('372.24 g');
  });

  it('25 g at 0.80 measure 31.25 mL (University of Houston, PHAR 4330, expressions of concentration)', () => {
    expect(said(massToVolume(q('25 g'), q('0.80 g/mL')))).toBe('31.25 mL');
  });

  it('26.2 g of oil in 27.8 mL are 0.942 (answered study set on specific gravity and the pycnometer)', () => {
    const density = densityOf(q('26.2 g'), q('27.8 mL'));
    expect(tenFigures(density)).toBe('0.9424460432');
    expect(density.ok && density.value.value.toDecimalPlaces(3).toFixed()).toBe('0.942');
  });

  it('3620 mL of alcohol at 0.82 weigh 2968.4 g (the same study set)', () => {
    expect(said(volumeToMass(q('3620 mL'), q('0.82 g/mL')))).toBe('2,968.4 g');
  });

  it('50 lb at 1.25: 38.34 US pints by the legal units, where 454 g and 473 mL make the printed 38.39 (the same study set)', () => {
    const volume = massToVolume(q('50 lb'), q('1.25 g/mL'));
    if (!volume.ok) throw new Error(volume.why);
    expect(inUnit(volume.value, mustUnit('[pt_us]')).value.toDecimalPlaces(4).toFixed()).toBe('38.3445');
    expect(inUnit(volume.value, mustUnit('[pt_br]')).value.toDecimalPlaces(4).toFixed()).toBe('31.9284');
    const roundedPound = massToVolume(times(q('454 g'), 50), q('1.25 g/mL'));
    if (!roundedPound.ok) throw new Error(roundedPound.why);
    expect(ratioOf(roundedPound.value, q('473 mL')).toDecimalPlaces(2).toFixed()).toBe('38.39');
  });

  it('a density bottle of 120 g, 171 g with water, 160 g with the liquid: 0.784 (the same study set)', () => {
    expect(ratioOf(q('40 g'), q('51 g')).toDecimalPlaces(3).toFixed()).toBe('0.784');
    const water = massToVolume(q('51 g'), q('1 g/mL'));
    expect(water.ok && tenFigures(densityOf(q('40 g'), water.value))).toBe('0.7843137255');
  });
});

describe('drops: published examples', () => {
  it('35 drops fill 2 mL: 17.5 drops/mL, kept unrounded (University of Houston, PHAR 4330, calibrating a dropper)', () => {
    expect(said(dropsPerMlOf(q('35 drops'), q('2 mL')))).toBe('17.5 drops/mL');
  });

  it('10 drops of 660 mg in 120 mL at 25 drops/mL hold 2.2 mg (University of Kerbala, calculation of doses, lab 7)', () => {
    const volume = dropsToVolume(q('10 drops'), q('25 drops/mL'));
    expect(said(volume)).toBe('0.4 mL');
    const strength = inUnit(q('660 mg/120 mL'), mustUnit('mg/mL'));
    expect(volume.ok && strength.value.times(volume.value.value).toFixed()).toBe('2.2');
  });

  it('2.5 mL at 20 drops/mL are 50 drops, 12 whole days at 4 a day (a teaching page on eye drops; the days by division)', () => {
    const drops = volumeToDrops(q('2.5 mL'), q('20 drops/mL'));
    expect(said(drops)).toBe('50 drops');
    expect(drops.ok && roundTo(ratioOf(drops.value, q('4 drops')), exact(1), 'down').toFixed()).toBe('12');
  });
});

describe('a volume from a weight', () => {
  it('is the same in whatever units the density is given', () => {
    for (const density of ['0.92 g/mL', '0.92 kg/L', '92 g/100 mL', '920 mg/mL']) {
      expect(said(massToVolume(q('46 g'), q(density)))).toBe('50 mL');
    }
  });

  it('there and back is the same weight', () => {
    const volume = massToVolume(q('100 g'), q('1.4 g/mL'));
    const back = volume.ok ? volumeToMass(volume.value, q('1.4 g/mL')) : volume;
    expect(tenFigures(back)).toBe('100');
  });

  it('of nothing is nothing', () => {
    expect(said(massToVolume(q('0 g'), q('0.92 g/mL')))).toBe('0 mL');
  });

  it.each([
    ['100 mL', '0.92 g/mL', 'mL measures volume: a weight is written such as 100 g'],
    ['100 g', '0.92 mL/g', 'mL/g measures volume per mass: a density is written such as 0.92 g/mL'],
    ['100 g', '0 g/mL', 'a density must be above 0: write such as 0.92 g/mL'],
    [
      '100 g',
      '30 mg/5 mL',
      '30 mg/5 mL is not the density of a liquid: write the weight of 1 mL, such as 0.92 g/mL',
    ],
    [
      '100 g',
      '920 g/mL',
      '920 g/mL is not the density of a liquid: write the weight of 1 mL, such as 0.92 g/mL',
    ],
    ['100 g', '4 % w/v', '% w/v measures share w/v: a density is written such as 0.92 g/mL'],
  ])('%s with %s is refused', (mass, density, why) => {
    expect(said(massToVolume(q(mass), q(density)))).toBe(why);
  });

  it('a volume of nothing has no density and calibrates no dropper', () => {
    expect(said(densityOf(q('10 g'), q('0 mL')))).toBe(
      'a density needs a volume above 0: write such as 100 mL',
    );
    expect(said(dropsPerMlOf(q('10 drops'), q('0 mL')))).toBe(
      'the drops must fill a volume above 0: count until 1 mL or more is full',
    );
  });

  it('nothing weighs less than nothing', () => {
    const less: Quantity = { value: exact(-1), unit: milligram };
    expect(massToVolume(less, q('0.92 g/mL')).ok).toBe(false);
  });
});

describe('a dose in drops', () => {
  it('needs drops per mL: per gram is another figure', () => {
    expect(said(dropsToVolume(q('20 drops'), q('25 drops/g')))).toBe(
      'drop/g measures drops per mass: what a dropper gives is written such as 35 drops/mL',
    );
    expect(said(dropsToVolume(q('20 drops'), q('0 drops/mL')))).toBe(
      'what a dropper gives must be above 0: write such as 35 drops/mL',
    );
    expect(dropsToVolume(q('1 mL'), q('20 drops/mL')).ok).toBe(false);
    expect(volumeToDrops(q('1 g'), q('20 drops/mL')).ok).toBe(false);
  });

  it('is more than twice as large from one liquid as from another', () => {
    // Dental medicine, measuring liquids by drops: 60 US minims are 60 drops of water, 146 of alcohol.
    const water = dropsPerMlOf(q('60 drops'), q('60 US minims'));
    const alcohol = dropsPerMlOf(q('146 drops'), q('60 US minims'));
    if (!water.ok || !alcohol.ok) throw new Error('the counts must be read');
    expect(water.value.value.toSignificantDigits(3).toFixed()).toBe('16.2');
    expect(alcohol.value.value.toSignificantDigits(3).toFixed()).toBe('39.5');
    const [large, small] = [
      dropsToVolume(q('20 drops'), water.value),
      dropsToVolume(q('20 drops'), alcohol.value),
    ];
    expect(large.ok && small.ok && ratioOf(large.value, small.value).gt(2)).toBe(true);
  });
});

describe('liquids of known density', () => {
  it.each([
    // OIML R 22 (1975): water and ethanol at 20 C.
    ['water', '0.9982', 20],
    ['ethanol', '0.78924', 20],
    // Experiments in Fluids 59:75 (2018), worked out at 20 C.
    ['glycerol', '1.2611', 20],
    ['glycerol 85 % m/m', '1.2217', 20],
    // The polynomial for sucrose solutions, worked out at 20 C.
    ['sucrose syrup 65 % m/m', '1.3166', 20],
    ['sucrose syrup 66.7 % m/m', '1.327', 20],
    // British Pharmaceutical Codex 1911: "about 1.4"; British Pharmacopoeia 1898: 1.320.
    ['Honey', '1.4', null],
    ['oxymel', '1.32', null],
  ])('%s: %s g/mL', (name, density, celsius) => {
    const liquid = liquidNamed(name);
    expect(liquid?.density.value.toFixed()).toBe(density);
    expect(liquid?.density.unit.code).toBe('g/mL');
    expect(liquid?.celsius).toBe(celsius);
  });

  it('all say where the figure is from, and every one can be weighed out', () => {
    for (const liquid of LIQUIDS) {
      expect(liquid.source.title).not.toBe('');
      expect(volumeToMass({ value: exact(100), unit: millilitre }, liquid.density).ok).toBe(true);
    }
  });

  it('are few: a tincture has the density of its own strength', () => {
    expect(liquidNamed('tincture')).toBeUndefined();
  });
});
