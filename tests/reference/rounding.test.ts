// Published examples of rounding, each by the rule that its source states.
import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { type RoundingRule, roundTo } from '../../src/measure/round.ts';
import { readable } from '../../src/measure/write.ts';

const rounded = (value: string, step: string, rule: RoundingRule): string =>
  roundTo(exact(value), exact(step), rule).toFixed();

describe('to the place of the uncertainty', () => {
  it('10.05762 ohm, known to 27 milliohm, is 10.058 ohm (NIST IR 6969-2019, GLP 9; GUM 7.2.6)', () => {
    expect(rounded('10.05762', '0.001', 'half-even')).toBe('10.058');
  });
});

describe('nearest, a tie to the even figure', () => {
  // Surgical Materials Testing Laboratory (Wales), Rounding of test results.
  it.each([
    ['3.967', '0.01', '3.97'],
    ['3.943', '0.01', '3.94'],
    ['3.965', '0.01', '3.96'],
    ['3.955', '0.01', '3.96'],
    ['127.5', '1', '128'],
    ['126.5', '1', '126'],
    ['125.5', '1', '126'],
  ])('%s to %s is %s', (from, step, to) => {
    expect(rounded(from, step, 'half-even')).toBe(to);
  });

  // NIST Special Publication 811 (2008), B.7.1, from memory: below 5, above 5, 5 with more behind it, 5 alone.
  it.each([
    ['6.974951', '0.01', '6.97'],
    ['6.974951', '0.001', '6.975'],
    ['6.974951', '0.0001', '6.975'],
    ['6.9749515', '0.000001', '6.974952'],
    ['6.9749505', '0.000001', '6.97495'],
  ])('%s to %s is %s', (from, step, to) => {
    expect(rounded(from, step, 'half-even')).toBe(to);
  });

  it('is also the rule of what is merely shown', () => {
    expect(['3.965', '3.955', '127.25', '127.35'].map((v) => readable(exact(v)).toFixed())).toEqual([
      '3.96',
      '3.96',
      '127.2',
      '127.4',
    ]);
  });
});

describe('nearest, a tie upward', () => {
  // CICC, Asian standardisation survey, data book 2.05, Number rounding (type 1).
  it.each([
    ['123.5', '1', '124'],
    ['123.455', '0.01', '123.46'],
  ])('%s to %s is %s', (from, step, to) => {
    expect(rounded(from, step, 'half-up')).toBe(to);
  });
});

describe('the two rules of ISO 80000-1, Annex B (from memory)', () => {
  it.each([
    ['12.25', '0.1', '12.2', '12.3'],
    ['12.35', '0.1', '12.4', '12.4'],
    ['1225', '10', '1220', '1230'],
    ['1235', '10', '1240', '1240'],
  ])('%s to %s is %s by rule A and %s by rule B', (from, step, a, b) => {
    expect([rounded(from, step, 'half-even'), rounded(from, step, 'half-up')]).toEqual([a, b]);
  });

  it('12.254 is rounded in one step, for in two it would become 12.2', () => {
    expect(rounded('12.254', '0.1', 'half-even')).toBe('12.3');
    expect(rounded(rounded('12.254', '0.01', 'half-even'), '0.1', 'half-even')).toBe('12.2');
  });
});

describe('a tie that a binary computer does not see', () => {
  // Surgical Materials Testing Laboratory (Wales): 2.15 is held as 2.14999999999999991118.
  it('2.15 to one decimal is 2.2, and the binary fraction is not let in', () => {
    expect(rounded('2.15', '0.1', 'half-even')).toBe('2.2');
    expect(rounded('2.15', '0.1', 'half-up')).toBe('2.2');
    expect(rounded('2.14999999999999991118', '0.1', 'half-up')).toBe('2.1');
    expect(() => exact(2.15)).toThrow('pass decimal text');
  });
});
