import { describe, expect, it } from 'vitest';
import { BENCH_PAGE } from '../../src/reports/bench-sheet.ts';
import { widthOf } from '../../src/reports/wrap.ts';
import { CAUTION, FORMULAS, json, run } from '../cli/scruple.ts';

describe('bench sheet', () => {
  it.each(FORMULAS)(
    '%s fits A5, line by line and page by page, with every line of the formula',
    (formula) => {
      const { out, code } = run(['weigh', formula, '--bench']);
      expect(code).toBe(0);
      const pages = out.trimEnd().split('\f');
      for (const page of pages) {
        const lines = page.trimEnd().split('\n');
        expect(lines.length).toBeLessThanOrEqual(BENCH_PAGE.lines);
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(BENCH_PAGE.columns);
      }
      const { lines, total, bench } = json(['weigh', formula, '--bench']).result;
      expect(out.match(/\[ \]/g)).toHaveLength(lines.length);
      expect(out.split(CAUTION)).toHaveLength(2);
      // The running total ends at the batch exactly.
      expect(bench.at(-1).running).toEqual(total);
      expect(bench.map((b: { amount: unknown }) => b.amount)).toEqual(
        lines.map((l: { weigh: unknown }) => l.weigh),
      );
    },
  );

  it('of A5 is 50 columns by 44 lines: 128 mm at 10 to the inch, 190 mm at 6 to the inch', () => {
    expect(BENCH_PAGE.columns).toBe(Math.floor(((148 - 20) / 25.4) * 10));
    expect(BENCH_PAGE.lines).toBe(Math.floor(((210 - 20) / 25.4) * 6));
  });
});
