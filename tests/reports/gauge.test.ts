import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { given } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { drawGauge, GAUGE_LEAST, gaugesOf, gaugeText } from '../../src/reports/gauge.ts';

// Twenty-one places between the ends, two to each unit of a scale of ten.
const WIDTH = 23;

const at = (dose: string, low: string | null, high: string | null, width = WIDTH, scaleMax = '10'): string =>
  drawGauge({
    dose: exact(dose),
    low: low === null ? null : exact(low),
    high: high === null ? null : exact(high),
    scaleMax: exact(scaleMax),
    width,
  });

describe('a dose beside a range', () => {
  test('stands below, within or above its marks', () => {
    expect(at('2', '4', '8')).toBe(':....o...[=======]....:');
    expect(at('6', '4', '8')).toBe(':........[===o===]....:');
    expect(at('9', '4', '8')).toBe(':........[=======].o..:');
  });

  test('on an edge hides the mark and says so with a capital', () => {
    expect(at('4', '4', '8')).toBe(':........O=======]....:');
    expect(at('8', '4', '8')).toBe(':........[=======O....:');
  });

  test('a range with an open end runs to the end of the scale', () => {
    expect(at('2', null, '8')).toBe(':====o===========]....:');
    expect(at('9', null, '8')).toBe(':================].o..:');
    expect(at('6', '4', null)).toBe(':........[===o========:');
  });

  test('a single printed figure is one mark', () => {
    expect(at('2', '5', '5')).toBe(':....o.....+..........:');
    expect(at('5', '5', '5')).toBe(':..........O..........:');
  });

  test('a dose beyond the scale shows that it goes on', () => {
    expect(at('25', '4', '8')).toBe(':........[=======]...o>');
  });

  test('nothing at all stands at the left end', () => {
    expect(at('0', '4', '8')).toBe(':o.......[=======]....:');
    expect(at('0', null, '8', WIDTH, '0')).toHaveLength(WIDTH);
  });

  test('a dose that is itself a range has two marks', () => {
    const drawn = drawGauge({
      dose: exact(3),
      doseTo: exact(6),
      low: exact(4),
      high: exact(8),
      scaleMax: exact(10),
      width: WIDTH,
    });
    expect(drawn).toBe(':......o.[===o===]....:');
  });

  test('too narrow to read is refused', () => {
    expect(() => at('2', '4', '8', GAUGE_LEAST - 1)).toThrow(RangeError);
  });
});

test('however coarse the scale, the order of the marks is the order of the figures', () => {
  const amount = fc.integer({ min: 0, max: 100_000 });
  fc.assert(
    fc.property(
      amount,
      amount,
      amount,
      fc.integer({ min: 1, max: 100_000 }),
      fc.integer({ min: GAUGE_LEAST, max: 40 }),
      (dose, a, b, scaleMax, width) => {
        const [low, high] = [Math.min(a, b), Math.max(a, b)];
        const drawn = drawGauge({
          dose: exact(dose),
          low: exact(low),
          high: exact(high),
          scaleMax: exact(scaleMax),
          width,
        });
        expect(drawn).toHaveLength(width);
        const stands = drawn.search(/o/i);
        const left = drawn.search(/[[+]/);
        const right = drawn.search(/[\]+]/);
        expect(drawn.includes('O')).toBe(dose === low || dose === high);
        if (dose < low) expect(stands).toBeLessThan(left);
        if (dose > high) expect(stands).toBeGreaterThan(right);
        if (dose > low && dose < high) expect(left < stands && stands < right).toBe(true);
      },
    ),
  );
});

describe('several ranges', () => {
  test('share one scale, whatever their units', () => {
    const dose = given(quantity('3', 'g'), 'dose');
    const grams = given({ low: quantity('2', 'g'), high: quantity('4', 'g') }, 'one source');
    const milligrams = given({ low: quantity('2000', 'mg'), high: quantity('4000', 'mg') }, 'another source');
    const [first, second] = gaugesOf(dose, [grams, milligrams]).map((gauge) => gaugeText(gauge));
    expect(first).toBe(second);
  });

  test('no range, no gauge', () => {
    expect(gaugesOf(given(quantity('3', 'g'), 'dose'), [])).toEqual([]);
  });
});
