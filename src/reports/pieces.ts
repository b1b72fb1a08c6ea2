import type { Exact } from '../measure/exact.ts';
import { type Figure, isExact, isRange, show, type Value } from '../measure/figure.ts';
import { inUnit, rangeIn } from '../measure/quantity.ts';
import type { Unit } from '../measure/units.ts';
import { readable, writeNumber, writeNumberRange } from '../measure/write.ts';
import { type Gauge, gaugeText } from './gauge.ts';
import { cellsOf, type Line, type Shown } from './sheet.ts';

/** What a line says, cut where renderers treat text differently: a figure never breaks, a gauge is drawn to fit. */
export type Piece = { readonly words: string; readonly href?: string } | { readonly figure: string } | Gauge;

export function piecesOf(line: Line): Piece[] {
  return cellsOf(line).flatMap((cell, i): Piece[] => {
    const space: Piece[] = i === 0 ? [] : [{ words: ' ' }];
    if ('words' in cell || 'gauge' in cell) return [...space, cell];
    const parts = 'parts' in cell ? cell.parts : [cell];
    return [
      ...space,
      ...parts.map((part) => (typeof part === 'string' ? { words: part } : { figure: figureText(part) })),
    ];
  });
}

/** A line as plain text, for machines and for places without a layout. */
export function textOf(line: Line): string {
  return piecesOf(line)
    .map((piece) => ('words' in piece ? piece.words : 'figure' in piece ? piece.figure : gaugeText(piece)))
    .join('');
}

function figureText(shown: Figure | Shown): string {
  if (!('figure' in shown)) return show(shown);
  return shown.bareIn === undefined
    ? show(shown.figure, shown.as)
    : bareText(shown.figure.value, shown.bareIn, shown.as);
}

function bareText(value: Value, unit: Unit, as: 'readable' | 'exact'): string {
  const cut = (n: Exact): Exact => (as === 'exact' ? n : readable(n));
  if (!isRange(value)) return writeNumber(cut(isExact(value) ? value : inUnit(value, unit).value));
  const { low, high } = rangeIn(value, unit);
  return writeNumberRange({ low: low && cut(low.value), high: high && cut(high.value) });
}
