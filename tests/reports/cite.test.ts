import { describe, expect, test } from 'vitest';
import { READINGS } from '../../src/measure/figure.ts';
import { cite, citeShort } from '../../src/reports/cite.ts';

const source = {
  key: 'hmpc',
  body: 'EMA/HMPC',
  title: 'Herbal monograph on Filipendula ulmaria',
  ref: 'EMA/HMPC/434892/2010',
  year: '2011',
  reading: 'restated',
} as const;

describe('a source', () => {
  test('is written with its body, title, reference, year and how it was read', () => {
    expect(cite(source)).toBe(
      'EMA/HMPC, Herbal monograph on Filipendula ulmaria, EMA/HMPC/434892/2010, 2011 (restated)',
    );
    expect(citeShort(source)).toBe('EMA/HMPC 2011 (restated)');
  });

  test('leaves out what it lacks', () => {
    expect(cite({ key: 'x', body: 'USP', title: 'General chapter 1221', reading: 'original' })).toBe(
      'USP, General chapter 1221 (original)',
    );
    expect(citeShort({ key: 'x', body: 'USP', title: 'General chapter 1221', reading: 'original' })).toBe(
      'USP (original)',
    );
  });

  test('from memory says that it was not read', () => {
    expect(cite({ ...source, reading: 'memory' })).toMatch(/\(from memory, not read\)$/);
  });

  test('each reading has words of its own', () => {
    expect(new Set(READINGS.map((reading) => citeShort({ ...source, reading }))).size).toBe(READINGS.length);
  });
});
