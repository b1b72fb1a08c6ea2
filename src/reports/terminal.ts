import { Chalk } from 'chalk';
import CliTable from 'cli-table3';
import { shareWidths } from './columns.ts';
import { cleanLine } from './escape.ts';
import { flow, measured, wrapped } from './flow.ts';
import { textOf } from './pieces.ts';
import {
  alignments,
  type Block,
  type FindingBlock,
  type Item,
  itemOf,
  type Line,
  type Sheet,
  type Table,
  words,
} from './sheet.ts';
import { widthOf, wrap } from './wrap.ts';

/** A sheet for a terminal or a plain text file: plain marks, at most `width` columns, no meaning in any style. */

const NARROWEST = 40;
const BETWEEN = '  ';

interface Page {
  readonly width: number;
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
}

export function renderTerminal(
  sheet: Sheet,
  { width = 80, colour }: { readonly width?: number; readonly colour: boolean },
): string {
  const chalk = new Chalk({ level: colour ? 1 : 0 });
  const page: Page = {
    width: Math.max(NARROWEST, Math.floor(width)),
    bold: (text) => chalk.bold(text),
    dim: (text) => chalk.dim(text),
  };
  const title = wrap(cleanLine(sheet.title), page.width);
  const underline = '='.repeat(Math.max(...title.map(widthOf)));
  const subtitle =
    sheet.subtitle === undefined ? [] : wrap(flow(words(sheet.subtitle), page.width), page.width);
  const parts = [
    [...title.map(page.bold), underline, ...subtitle],
    ...sheet.blocks.map((block) => drawBlock(block, page)),
  ];
  return `${apart(parts).join('\n')}\n`;
}

/** Blocks with an empty line between them; an empty block takes no room. */
function apart(parts: readonly (readonly string[])[]): string[] {
  return parts.filter((part) => part.length > 0).flatMap((part, i) => (i === 0 ? part : ['', ...part]));
}

function drawBlock(block: Block, page: Page): string[] {
  switch (block.kind) {
    case 'lines':
      return block.lines.flatMap((line) => wrap(flow(line, page.width), page.width));
    case 'facts':
      return drawFacts(
        block.facts.map((fact) => [words(fact.label), fact.value]),
        page,
      );
    case 'table':
      return drawTable(block, page);
    case 'list':
      return block.items.flatMap((item) => drawItem(item, page));
    case 'section': {
      const inner = apart(block.blocks.map((b) => drawBlock(b, { ...page, width: page.width - 2 })));
      return [
        ...wrap(cleanLine(block.title), page.width).map(page.bold),
        ...inner.map((line) => (line === '' ? '' : `  ${line}`)),
      ];
    }
    case 'finding':
      return drawFinding(block, page);
    case 'copy':
      return block.lines.map(cleanLine);
    case 'caution':
      return wrap(flow(words(`Caution: ${block.text}`), page.width), page.width);
  }
}

interface Styles {
  readonly mark?: (text: string) => string;
  readonly text?: (text: string) => string;
}

const asIs = (text: string): string => text;

/** A mark, and a text that hangs beside it. */
function hang(mark: string, indent: number, line: Line, page: Page, styles: Styles = {}): string[] {
  const { mark: markStyle = asIs, text: textStyle = asIs } = styles;
  const room = page.width - indent;
  return wrap(flow(line, room), room).map((text, i) => {
    const before = i === 0 ? markStyle(mark) + ' '.repeat(indent - widthOf(mark)) : ' '.repeat(indent);
    return `${before}${textStyle(text)}`.trimEnd();
  });
}

function drawItem(item: Item, page: Page): string[] {
  const { line, mark = '-', under = [] } = itemOf(item);
  const indent = widthOf(mark) + 1;
  return [...hang(mark, indent, line, page), ...under.flatMap((below) => hang('', indent, below, page))];
}

/** The longest level word has eight letters: findings below each other line up. */
const LEVEL = 8;

function drawFinding(finding: FindingBlock, page: Page): string[] {
  const level = cleanLine(finding.level).toUpperCase();
  const indent = Math.max(LEVEL, widthOf(level)) + 2;
  const inner = { ...page, width: page.width - indent };
  const names = [finding, ...(finding.also ?? [])].map(({ id, basis }) =>
    basis === undefined ? id : `${id} basis\u00a0${basis}`,
  );
  const below = [
    ...finding.because.flatMap((line) => drawItem(line, inner)),
    ...(finding.decided ?? []).flatMap((line) => hang('', 0, line, inner)),
    ...(finding.source === undefined ? [] : hang('', 0, words(`Source: ${finding.source}`), inner)),
    ...names.flatMap((name) => hang('', 0, words(name), inner, { text: page.dim })),
  ];
  return [
    ...hang(level, indent, finding.say, page, { mark: page.bold }),
    ...below.map((line) => ' '.repeat(indent) + line),
  ];
}

function drawFacts(facts: readonly (readonly [Line, Line])[], page: Page): string[] {
  const { wanted, least } = measured(facts, 2);
  const room = page.width - BETWEEN.length;
  const label = Math.min(wanted[0] ?? 1, Math.floor(room / 3));
  const widths = shareWidths(wanted, least, room) ?? [label, room - label];
  return drawRows(
    facts.map((fact) => wrapped(fact, widths)),
    widths,
    ['left', 'left'],
  );
}

function drawTable(table: Table, page: Page): string[] {
  const count = table.columns.length;
  const heads = table.columns.map((column) => words(column.head));
  const body = table.total === undefined ? table.rows : [...table.rows, table.total];
  if (body.some((row) => row.length > count))
    throw new RangeError(`a row has more cells than the ${count} columns of its table`);
  const { wanted, least } = measured([heads, ...body], count);
  const widths = shareWidths(wanted, least, page.width - BETWEEN.length * (count - 1));
  // Where numbers would have to be parted from their units, each row becomes a block of its own.
  if (widths === undefined) return apart(body.map((row) => drawFacts(besideHeads(row, heads), page)));
  const head = wrapped(heads, widths).map((lines) => lines.map(page.bold));
  const total: Row[] = table.total === undefined ? [] : [RULE, wrapped(table.total, widths)];
  return drawRows(
    [head, RULE, ...table.rows.map((row) => wrapped(row, widths)), ...total],
    widths,
    alignments(table),
  );
}

/** A row as facts under the heads of its table, without what is empty. */
function besideHeads(row: readonly Line[], heads: readonly Line[]): (readonly [Line, Line])[] {
  return row.flatMap((line, i) => (textOf(line) === '' ? [] : [[heads[i] ?? [], line] as const]));
}

/** The lines of each cell of a row, or a rule across the table. */
type Row = readonly (readonly string[])[] | typeof RULE;
const RULE = 'rule';

const NO_LINES = Object.fromEntries(
  ['top', 'top-mid', 'top-left', 'top-right', 'bottom', 'bottom-mid', 'bottom-left', 'bottom-right']
    .concat(['left', 'left-mid', 'mid', 'mid-mid', 'right', 'right-mid'])
    .map((place) => [place, '']),
);

/** cli-table3 compares every cell with all rows above it: a long table goes to it in lengths. */
const AT_ONCE = 60;

function drawRows(
  rows: readonly Row[],
  widths: readonly number[],
  aligns: readonly ('left' | 'right')[],
): string[] {
  const lines = rows.flatMap((row) => {
    if (row === RULE)
      return [
        widths.map((width) => ({
          content: '-'.repeat(width),
          chars: { middle: '-'.repeat(BETWEEN.length) },
        })),
      ];
    const height = Math.max(...row.map((cell) => cell.length));
    return Array.from({ length: height }, (_, i) => row.map((cell) => ({ content: cell[i] ?? '' })));
  });
  const drawn: string[] = [];
  for (let from = 0; from < lines.length; from += AT_ONCE) {
    const table = new CliTable({
      chars: { ...NO_LINES, middle: BETWEEN },
      style: { 'padding-left': 0, 'padding-right': 0, head: [], border: [], compact: true },
      colWidths: [...widths],
      colAligns: [...aligns],
    });
    table.push(...lines.slice(from, from + AT_ONCE));
    drawn.push(...table.toString().split('\n'));
  }
  return drawn.map((line) => line.trimEnd());
}
