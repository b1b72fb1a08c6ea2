import { describe, expect, test } from 'vitest';
import { keepNumbers, leastWidth, unbroken, wrap } from '../../src/reports/wrap.ts';

const lines = (text: string, width: number): string[] => wrap(keepNumbers(text), width);

describe('a text in lines', () => {
  test('breaks between words', () => {
    expect(lines('pour the water over the herbs', 14)).toEqual(['pour the water', 'over the herbs']);
    expect(lines('', 14)).toEqual(['']);
  });

  test('keeps a number with its unit and both ends of a range together', () => {
    expect(lines('take 150 mL', 8)).toEqual(['take', '150 mL']);
    expect(lines('with 45 % v/v', 10)).toEqual(['with', '45 % v/v']);
    expect(lines('about 1.5 to 4 g', 12)).toEqual(['about', '1.5 to 4 g']);
    expect(wrap(`about ${unbroken('3 imp fl oz')}`, 11)).toEqual(['about', '3 imp fl oz']);
  });

  test('parts them only where a line cannot hold both', () => {
    expect(lines('1234567 micrograms', 12)).toEqual(['1234567', 'micrograms']);
  });

  test('breaks a long name behind a stroke or a hyphen, and a long word anywhere', () => {
    expect(lines('allergy/meadowsweet-herb/salicylates', 24)).toEqual([
      'allergy/meadowsweet-',
      'herb/salicylates',
    ]);
    expect(lines('abcdefghij', 4)).toEqual(['abcd', 'efgh', 'ij']);
  });
});

test('the least width of a text is its longest number with its unit, or a word of at most ten letters', () => {
  expect(leastWidth(keepNumbers('take 123,456.8 micrograms of it'))).toBe('123,456.8 micrograms'.length);
  expect(leastWidth('a pharmacopoeial name')).toBe(10);
  expect(leastWidth('')).toBe(1);
});
