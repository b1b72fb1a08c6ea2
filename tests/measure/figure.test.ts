import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import {
  type Cited,
  given,
  isExact,
  isRange,
  show,
  showValue,
  valueJson,
  worked,
  workingOf,
} from '../../src/measure/figure.ts';
import { over, quantity, type Range, times } from '../../src/measure/quantity.ts';

const monograph: Cited = { key: 'hmpc', body: 'EMA/HMPC', title: 'a monograph', reading: 'original' };
const single: Range = { low: quantity('1.5', 'g'), high: quantity(6, 'g') };

describe('a figure', () => {
  it('is shown as a person reads it', () => {
    expect(show(given(quantity('1.33333', 'g'), 'herb'))).toBe('1.33 g');
    expect(show(given(quantity('1.33333', 'g'), 'herb'), 'exact')).toBe('1.33333 g');
    expect(show(given(single, 'single dose', monograph))).toBe('1.5 to 6 g');
    expect(show(given(exact('2.5'), 'parts'))).toBe('2.5');
  });

  it('is a quantity, a range or a bare number, and each has its own form for machines', () => {
    expect([isExact(exact(3)), isRange(single), isRange(quantity(1, 'g')), isExact(single)]).toEqual([
      true,
      true,
      false,
      false,
    ]);
    expect(valueJson(exact('2.50'))).toBe('2.5');
    expect(valueJson(quantity(1, 'g'))).toEqual({ value: '1', unit: 'g' });
    expect(valueJson({ low: null, high: quantity(8, 'g') })).toEqual({
      low: null,
      high: { value: '8', unit: 'g' },
    });
    expect(showValue({ low: null, high: quantity(8, 'g') })).toBe('up to 8 g');
  });
});

describe('the working', () => {
  const pot = given(quantity(12, 'g'), 'herb in the pot');
  const strained = given(quantity(450, 'mL'), 'strained volume');
  const take = given(quantity(150, 'mL'), 'taken at a time');
  const dose = worked(quantity(4, 'g'), 'herb in a dose', '{} x {} / {}', [pot, take, strained]);
  const times3 = given(exact(3), 'times a day', monograph);
  const day = worked(times(dose.value, 3), 'herb in a day', '{} x {}', [dose, times3]);

  it('shows every sum with its figures, what is used before what uses it', () => {
    expect(workingOf([day]).map((l) => [l.number, l.says, l.sum, l.result])).toEqual([
      [1, 'herb in the pot', undefined, '12 g'],
      [2, 'taken at a time', undefined, '150 mL'],
      [3, 'strained volume', undefined, '450 mL'],
      [4, 'herb in a dose', '12 g [1] x 150 mL [2] / 450 mL [3]', '4 g'],
      [5, 'times a day', undefined, '3'],
      [6, 'herb in a day', '4 g [4] x 3 [5]', '12 g'],
    ]);
  });

  it('shows each step once, however many figures rest on it', () => {
    expect(workingOf([dose, day, dose]).map((l) => l.says)).toHaveLength(6);
  });

  it('keeps the source beside the figure that came from it, and nowhere else', () => {
    const sourced = workingOf([day]).filter((l) => l.source);
    expect(sourced.map((l) => [l.says, l.source?.key])).toEqual([['times a day', 'hmpc']]);
  });

  it('keeps ten figures, so that the sum can be done again by hand', () => {
    const third = worked(over(quantity(1, 'g'), 3), 'a third', '{} / 3', [given(quantity(1, 'g'), 'batch')]);
    expect(workingOf([third])[1]?.result).toBe('0.3333333333 g');
  });

  it('leaves a place in the sum open rather than showing a wrong figure', () => {
    const short = worked(quantity(1, 'g'), 'short', '{} + {}', [pot]);
    expect(workingOf([short])[1]?.sum).toBe('12 g [1] + {}');
  });
});
