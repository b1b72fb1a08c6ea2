import { cleanLine } from './escape.ts';
import { GAUGE_LEAST, GAUGE_WIDTH, gaugeText } from './gauge.ts';
import { piecesOf } from './pieces.ts';
import type { Line } from './sheet.ts';
import { keepNumbers, leastWidth, unbroken, widthOf, wrap } from './wrap.ts';

/** A line as one text in which what must not be broken is joined; gauges shrink with the room they have. */
export function flow(line: Line, width: number): string {
  const gauge = Math.max(GAUGE_LEAST, Math.min(GAUGE_WIDTH, width));
  return piecesOf(line)
    .map((piece) => {
      if ('words' in piece) return keepNumbers(cleanLine(piece.words));
      return 'figure' in piece ? unbroken(cleanLine(piece.figure)) : gaugeText(piece, gauge);
    })
    .join('');
}

/** For each column, the width that its longest line would like, and the least that parts no number from its unit. */
export function measured(
  rows: readonly (readonly Line[])[],
  count: number,
): { wanted: number[]; least: number[] } {
  const wanted: number[] = new Array(count).fill(1);
  const least: number[] = new Array(count).fill(1);
  for (const row of rows) {
    row.forEach((line, i) => {
      const narrow = flow(line, GAUGE_LEAST);
      const hasGauge = piecesOf(line).some((piece) => 'gauge' in piece);
      wanted[i] = Math.max(wanted[i] ?? 1, widthOf(flow(line, GAUGE_WIDTH)));
      least[i] = Math.max(least[i] ?? 1, leastWidth(narrow), hasGauge ? GAUGE_LEAST : 1);
    });
  }
  return { wanted, least };
}

/** The lines of each cell of a row. */
export function wrapped(row: readonly Line[], widths: readonly number[]): string[][] {
  return widths.map((width, i) => wrap(flow(row[i] ?? [], width), width));
}
