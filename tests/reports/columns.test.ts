import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { shareWidths } from '../../src/reports/columns.ts';

describe('room shared out among columns', () => {
  test('gives each what it wants where there is enough', () => {
    expect(shareWidths([5, 20, 8], [5, 10, 8], 40)).toEqual([5, 20, 8]);
  });

  test('fills up the narrow ones first, so that only the long ones wrap', () => {
    expect(shareWidths([12, 60], [6, 10], 40)).toEqual([12, 28]);
    expect(shareWidths([60, 60], [6, 10], 40)).toEqual([20, 20]);
  });

  test('says so where not even the least of each fits', () => {
    expect(shareWidths([30, 30], [21, 20], 40)).toBeUndefined();
  });

  test('never takes more than there is, nor leaves unused what is wanted', () => {
    const column = fc.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 0, max: 60 }));
    fc.assert(
      fc.property(
        fc.array(column, { minLength: 1, maxLength: 8 }),
        fc.integer({ min: 0, max: 200 }),
        (columns, room) => {
          const least = columns.map(([width]) => width);
          const wanted = columns.map(([width, more]) => width + more);
          const total = (widths: readonly number[]): number => widths.reduce((sum, width) => sum + width, 0);
          const widths = shareWidths(wanted, least, room);
          if (widths === undefined) expect(total(least)).toBeGreaterThan(room);
          else expect(total(widths)).toBe(Math.min(room, total(wanted)));
        },
      ),
    );
  });
});
