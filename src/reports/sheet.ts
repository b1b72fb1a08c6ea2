import type { Figure } from '../measure/figure.ts';
import type { Unit } from '../measure/units.ts';
import type { Gauge } from './gauge.ts';

/**
 * What every command's view builds and every renderer prints. A number of ours gets onto a sheet only inside a
 * Figure, so that the working can always lead back to what was given.
 */
export interface Sheet {
  readonly title: string;
  readonly subtitle?: string;
  readonly blocks: readonly Block[];
}

/** Only this file can make what carries this key: an object literal that holds a text is no cell. */
const built: unique symbol = Symbol('built');

/** Words that hold no computed number of ours: labels, names, sentences as a file has them. Built only by `words`. */
export interface Words {
  readonly words: string;
  /** A file of ours beside the page, to which a page that can leads. */
  readonly href?: string;
  readonly [built]: 'words';
}

/** A sentence with figures in it. Built only by `sentence`. */
export interface FigureInWords {
  readonly parts: readonly (string | Figure | Shown)[];
  readonly [built]: 'sentence';
}

/** A figure with a hint how to show it. Built by `exactly` and `numberIn`. */
export interface Shown {
  readonly figure: Figure;
  readonly as: 'readable' | 'exact';
  /** The unit that the column's head names: the figure is converted to it and shown as a bare number. */
  readonly bareIn?: Unit;
  readonly [built]: 'shown';
}

export type Cell = Words | Figure | Shown | FigureInWords | Gauge;

/** One cell, or several joined by spaces. */
export type Line = Cell | readonly Cell[];

/** An item of a list; `mark` replaces its dash, and `under` stands below it, indented. */
export type Item = Line | { readonly line: Line; readonly mark?: string; readonly under?: readonly Line[] };

export interface Column {
  readonly head: string;
  /** Without it, a column whose cells are all figures stands to the right. */
  readonly align?: 'left' | 'right';
}

export interface Table {
  readonly kind: 'table';
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Line[])[];
  readonly total?: readonly Line[];
}

export interface FindingBlock {
  readonly kind: 'finding';
  readonly level: string;
  readonly say: Line;
  readonly because: readonly Line[];
  /** What was decided about it, or where that is signed. */
  readonly decided?: readonly Line[];
  /** A source as `cite` writes it. */
  readonly source?: string;
  readonly id: string;
  /** With the id, what a recorded decision has to name. */
  readonly basis?: string;
  /** Others that are said in the same words, and printed once. */
  readonly also?: readonly { readonly id: string; readonly basis: string }[];
}

export type Block =
  | { readonly kind: 'lines'; readonly lines: readonly Line[] }
  | { readonly kind: 'facts'; readonly facts: readonly { readonly label: string; readonly value: Line }[] }
  | Table
  | { readonly kind: 'list'; readonly items: readonly Item[] }
  | { readonly kind: 'section'; readonly title: string; readonly blocks: readonly Block[] }
  | FindingBlock
  /** Lines to be copied or typed as they stand: no renderer breaks them, and whoever builds them minds the width. */
  | { readonly kind: 'copy'; readonly lines: readonly string[] }
  | { readonly kind: 'caution'; readonly text: string };

/** Words from a text, or as a tag: words`for ${name}`. A number does not fit in its gaps; it belongs in `sentence`. */
export function words(text: string): Words;
export function words(texts: TemplateStringsArray, ...gaps: readonly (string | Words)[]): Words;
export function words(text: string | TemplateStringsArray, ...gaps: readonly (string | Words)[]): Words {
  const said = typeof text === 'string' ? text : interleave(text, gaps.map(plain)).join('');
  return { words: said, [built]: 'words' };
}

/** A file beside the page, whose name is safe in a link: letters, figures, hyphens and a full stop. */
export function link(file: string): Words {
  if (!/^[A-Za-z0-9-]+\.[a-z]+$/.test(file)) throw new RangeError(`${file} is no name for a link`);
  return { words: file, href: file, [built]: 'words' };
}

/** A sentence around figures: sentence`each dose holds ${figure} of ${herb}`. */
export function sentence(
  texts: TemplateStringsArray,
  ...gaps: readonly (string | Words | Figure | Shown)[]
): FigureInWords {
  const parts = interleave<string | Figure | Shown>(texts, gaps.map(plain)).filter((part) => part !== '');
  return { parts, [built]: 'sentence' };
}

/** A sentence from parts that bring their own spaces. */
export function sentenceFrom(parts: readonly (string | Figure)[]): FigureInWords {
  return { parts, [built]: 'sentence' };
}

/** A sentence from words and figures in turn: a space between them, but none before a stop or a comma or after a bracket. */
export function sentenceOf(given: readonly (string | Figure)[]): FigureInWords {
  const parts = given.flatMap((part, i): (string | Figure)[] => {
    const before = given[i - 1];
    const opened = typeof before === 'string' && before.endsWith('(');
    const close = i === 0 || opened || (typeof part === 'string' && /^[.,;:)]/.test(part));
    return close ? [part] : [' ', part];
  });
  return { parts, [built]: 'sentence' };
}

function interleave<T>(texts: TemplateStringsArray, gaps: readonly T[]): (string | T)[] {
  return texts.flatMap((text, i) => (i < gaps.length ? [text, gaps[i] as T] : [text]));
}

function plain<T>(gap: T | Words): T | string {
  return typeof gap === 'object' && gap !== null && 'words' in gap ? gap.words : gap;
}

/** The figure to its last digit: for what has been rounded already, at the balance or the measure. */
export function exactly(figure: Figure): Shown {
  return { figure, as: 'exact', [built]: 'shown' };
}

/** The figure as a bare number for a column whose head names the unit; whatever unit it has, it is converted. */
export function numberIn(unit: Unit, figure: Figure, as: 'readable' | 'exact' = 'readable'): Shown {
  return { figure, as, bareIn: unit, [built]: 'shown' };
}

export function isText(value: object): value is Words | FigureInWords {
  return built in value && value[built] !== 'shown';
}

export function isShown(value: object): value is Shown {
  return built in value && value[built] === 'shown';
}

export function cellsOf(line: Line): readonly Cell[] {
  return isSeveral(line) ? line : [line];
}

function isSeveral(line: Line): line is readonly Cell[] {
  return Array.isArray(line);
}

export function itemOf(item: Item): {
  readonly line: Line;
  readonly mark?: string;
  readonly under?: readonly Line[];
} {
  return 'line' in item ? item : { line: item };
}

/** True for a cell that is one figure and no words, which belongs in a column of numbers. */
export function isNumber(cell: Cell): boolean {
  return 'step' in cell || 'figure' in cell;
}

/** Where each column stands: as it says, else to the right if all that is in it is figures. */
export function alignments(table: Table): ('left' | 'right')[] {
  return table.columns.map((column, at) => {
    if (column.align !== undefined) return column.align;
    const cells = table.rows
      .flatMap((row) => cellsOf(row[at] ?? []))
      .filter((cell) => !('words' in cell && cell.words === ''));
    return cells.length > 0 && cells.every(isNumber) ? 'right' : 'left';
  });
}

/** Every figure on the sheet, each once, in reading order, for the working. */
export function figuresOn(sheet: Sheet): Figure[] {
  return [...new Set(sheet.blocks.flatMap(figuresIn))];
}

function figuresIn(block: Block): Figure[] {
  switch (block.kind) {
    case 'lines':
      return block.lines.flatMap(figuresOf);
    case 'facts':
      return block.facts.flatMap((fact) => figuresOf(fact.value));
    case 'table':
      return [...block.rows, block.total ?? []].flat().flatMap(figuresOf);
    case 'list':
      return block.items.map(itemOf).flatMap((item) => [item.line, ...(item.under ?? [])].flatMap(figuresOf));
    case 'section':
      return block.blocks.flatMap(figuresIn);
    case 'finding':
      return [block.say, ...block.because, ...(block.decided ?? [])].flatMap(figuresOf);
    case 'copy':
    case 'caution':
      return [];
  }
}

function figuresOf(line: Line): Figure[] {
  return cellsOf(line).flatMap((cell): Figure[] => {
    if ('words' in cell) return [];
    if ('gauge' in cell) return cell.gauge.dose ? [cell.gauge.dose, cell.gauge.range] : [cell.gauge.range];
    const parts = 'parts' in cell ? cell.parts.filter((part) => typeof part !== 'string') : [cell];
    return parts.map((part) => ('figure' in part ? part.figure : part));
  });
}
