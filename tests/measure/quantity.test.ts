import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import {
  comparable,
  compareQuantities,
  convert,
  inUnit,
  isSingleFigure,
  minus,
  over,
  plus,
  quantity,
  type Range,
  rangeIn,
  rangeUnit,
  ratioOf,
  times,
  timesRange,
} from '../../src/measure/quantity.ts';
import { drop, gram, milligram, millilitre, mustUnit } from '../../src/measure/units.ts';

const scruple = mustUnit('[sc_ap]');
const ounce = mustUnit('[oz_av]');

describe('a weight', () => {
  it('is the same weight in another unit', () => {
    expect(inUnit(quantity(1, scruple), milligram).value.toFixed()).toBe('1295.9782');
    expect(inUnit(quantity(250, 'ug'), milligram).value.toFixed()).toBe('0.25');
  });

  it('is no volume: the error names what is wanting', () => {
    expect(convert(quantity(5, gram), millilitre)).toEqual({
      ok: false,
      why: 'g measures mass, mL measures volume: the density of the liquid is needed',
    });
    const drops = convert(quantity(20, drop), millilitre);
    expect(drops.ok ? '' : drops.why).toBe(
      'drop measures drops, mL measures volume: the drops that this very dropper gives of this very liquid are needed, counted per mL',
    );
    expect(convert(quantity(20, drop), gram).ok).toBe(false);
    expect(convert(quantity(4, '%{m/m}'), mustUnit('%{v/v}')).ok).toBe(false);
    expect(() => inUnit(quantity(5, gram), millilitre)).toThrow();
  });

  it('is added to and taken from another, in the unit of the first', () => {
    expect(plus(quantity(1, gram), quantity(250, milligram)).value.toFixed()).toBe('1.25');
    expect(minus(quantity(1, gram), quantity(250, milligram)).value.toFixed()).toBe('0.75');
    expect(() => plus(quantity(1, gram), quantity(1, millilitre))).toThrow();
  });

  it('is multiplied and divided, but never by nothing and never by a binary fraction', () => {
    expect(times(quantity(3, gram), exact('0.1')).value.toFixed()).toBe('0.3');
    expect(over(quantity(3, gram), 4).value.toFixed()).toBe('0.75');
    expect(() => over(quantity(3, gram), 0)).toThrow(RangeError);
    expect(() => times(quantity(3, gram), 0.1)).toThrow(TypeError);
  });
});

describe('two quantities side by side', () => {
  it('compare in whatever units they stand', () => {
    expect(compareQuantities(quantity(1, gram), quantity(999, milligram))).toBeGreaterThan(0);
    expect(compareQuantities(quantity(1, ounce), quantity('437.5', '[gr]'))).toBe(0);
    expect(compareQuantities(quantity(0, gram), quantity(0, milligram))).toBe(0);
    expect(compareQuantities(quantity('1.0000001', gram), quantity(1, gram))).toBeGreaterThan(0);
  });

  it('a dose that was divided and multiplied again does not stand above its own limit', () => {
    const third = over(quantity(1, gram), 3);
    const sevenths = times(over(quantity(10, gram), 7), 7);
    expect(compareQuantities(times(third, 3), quantity(1, gram))).toBe(0);
    expect(compareQuantities(sevenths, quantity(10, gram))).toBe(0);
    const thereAndBack = inUnit(
      inUnit(inUnit(quantity(7, gram), ounce), mustUnit('[gr]')),
      mustUnit('[lb_ap]'),
    );
    expect(compareQuantities(thereAndBack, quantity(7, gram))).toBe(0);
  });

  it('of two kinds cannot be compared or divided: grams and millilitres have no ratio', () => {
    expect(comparable(gram, millilitre)).toBe(false);
    expect(() => compareQuantities(quantity(1, gram), quantity(1, millilitre))).toThrow(TypeError);
    expect(() => ratioOf(quantity(1, gram), quantity(1, millilitre))).toThrow(TypeError);
  });

  it('have a ratio unless the second is nothing', () => {
    expect(ratioOf(quantity(1, gram), quantity(250, milligram)).toFixed()).toBe('4');
    expect(() => ratioOf(quantity(1, gram), quantity(0, milligram))).toThrow(RangeError);
  });
});

describe('a range of doses', () => {
  const dose: Range = { low: quantity(300, milligram), high: quantity(1000, milligram) };

  it('keeps an open end open', () => {
    const capped: Range = { low: null, high: quantity(8, gram) };
    expect(rangeIn(capped, milligram)).toEqual({ low: null, high: { value: exact(8000), unit: milligram } });
    expect(timesRange(capped, 3).low).toBeNull();
    expect(rangeUnit(capped)).toBe(gram);
    expect(() => rangeUnit({ low: null, high: null })).toThrow();
  });

  it('three times a day is a range again', () => {
    const daily = timesRange(dose, 3);
    expect(daily.low?.value.toFixed()).toBe('900');
    expect(daily.high?.value.toFixed()).toBe('3000');
  });

  it('of which both ends are one figure is a single figure, whatever the unit', () => {
    expect(isSingleFigure({ low: quantity(1, gram), high: quantity(1000, milligram) })).toBe(true);
    expect(isSingleFigure(dose)).toBe(false);
    expect(isSingleFigure({ low: null, high: quantity(1, gram) })).toBe(false);
  });
});
