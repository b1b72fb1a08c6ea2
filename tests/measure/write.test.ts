import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { parseRatio } from '../../src/measure/parse.ts';
import { over, quantity } from '../../src/measure/quantity.ts';
import { drop, millilitre, per } from '../../src/measure/units.ts';
import {
  asPercent,
  numberJson,
  quantityJson,
  rangeJson,
  readable,
  write,
  writeNumber,
  writeNumberRange,
  writeRange,
  writeRatio,
} from '../../src/measure/write.ts';

describe('a figure on a sheet', () => {
  it.each([
    ['189.42', '189.4'],
    ['99.996', '100'],
    ['1.335', '1.34'],
    ['1.325', '1.32'],
    ['0.0012345', '0.00123'],
    ['12345.678', '12,345.7'],
    ['0', '0'],
  ])('%s is shown as %s', (value, shown) => {
    expect(writeNumber(readable(exact(value)))).toBe(shown);
  });

  it('is never "Infinity" or "NaN"', () => {
    expect(() => writeNumber(exact('Infinity'))).toThrow(RangeError);
    expect(() => writeNumber(exact('NaN'))).toThrow(RangeError);
    expect(() => numberJson(exact('NaN'))).toThrow(RangeError);
  });

  it('of nothing has no minus sign', () => {
    expect(writeNumber(exact('-0'))).toBe('0');
  });
});

describe('a quantity on a sheet', () => {
  it('has the plural where the trade has one', () => {
    expect(write(quantity(1, '[drp]'))).toBe('1 drop');
    expect(write(quantity(20, '[drp]'))).toBe('20 drops');
    expect(write(quantity(20, per(drop, millilitre)))).toBe('20 drops/mL');
    expect(write(quantity(5, 'mL'))).toBe('5 mL');
    expect(write(quantity(2, '[pt_br]'))).toBe('2 imp pints');
  });

  it('is exact only where that is asked for', () => {
    const q = quantity('1.33333', 'g');
    expect(write(q)).toBe('1.33 g');
    expect(write(q, 'exact')).toBe('1.33333 g');
  });
});

describe('a range on a sheet', () => {
  it('says "to", for a dash is misread as a minus', () => {
    expect(writeRange({ low: quantity('1.5', 'g'), high: quantity(4, 'g') })).toBe('1.5 to 4 g');
    expect(writeRange({ low: null, high: quantity(8, 'g') })).toBe('up to 8 g');
    expect(writeRange({ low: quantity(4, '%{m/m}'), high: null })).toBe('at least 4 % m/m');
    expect(writeRange({ low: quantity(2, 'g'), high: quantity(2, 'g') })).toBe('2 g');
  });

  it('names both units where they differ: 300 mg to 1 g is never "300 to 1 g"', () => {
    expect(writeRange({ low: quantity(300, 'mg'), high: quantity(1, 'g') })).toBe('300 mg to 1 g');
  });

  it('shows one figure where its ends cannot be told apart', () => {
    const r = { low: quantity('1.3331', 'g'), high: quantity('1.3334', 'g') };
    expect(writeRange(r)).toBe('1.33 g');
    expect(writeRange(r, 'exact')).toBe('1.3331 to 1.3334 g');
  });

  it('of bare numbers', () => {
    expect(writeNumberRange({ low: exact(1), high: exact(3) })).toBe('1 to 3');
    expect(writeNumberRange({ low: null, high: exact(3) })).toBe('up to 3');
    expect(writeNumberRange({ low: exact(2), high: null })).toBe('at least 2');
    expect(writeNumberRange({ low: exact(2), high: exact(2) })).toBe('2');
  });
});

describe('a ratio', () => {
  it("stays in the trade's own notation", () => {
    const r = parseRatio('4 to 6 : 1');
    expect(r.ok && writeRatio(r.value)).toBe('4-6:1');
  });
});

describe('a quantity for machines', () => {
  it('is decimal text and a UCUM code', () => {
    expect(quantityJson(quantity('28.40', 'g'))).toEqual({ value: '28.4', unit: 'g' });
    expect(rangeJson({ low: null, high: quantity(1, '[pt_br]') })).toEqual({
      low: null,
      high: { value: '1', unit: '[pt_br]' },
    });
  });

  it('has 12 figures where the decimal does not end, and all of them where it does', () => {
    expect(quantityJson(over(quantity(2, 'g'), 3)).value).toBe('0.666666666667');
    expect(numberJson(exact('0.061611519921875'))).toBe('0.061611519921875');
    expect(numberJson(exact(12345678901234).times(10))).toBe('123456789012340');
  });

  it('a share becomes a percentage', () => {
    expect(write(asPercent(exact('0.125')))).toBe('12.5 %');
  });
});
