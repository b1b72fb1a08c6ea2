import { cleanLine, markdownText } from './escape.ts';
import { gaugeText } from './gauge.ts';
import { piecesOf } from './pieces.ts';
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

/** A sheet as GitHub-flavoured Markdown. */
export function renderMarkdown(sheet: Sheet): string {
  const subtitle = sheet.subtitle === undefined ? [] : [markdownText(sheet.subtitle)];
  return `${[heading(1, sheet.title), ...subtitle, ...blocks(sheet.blocks, 2)].join('\n\n')}\n`;
}

/** Blocks that stand apart by an empty line; headings go no deeper than six. */
function blocks(list: readonly Block[], depth: number): string[] {
  return list.flatMap((block) => drawBlock(block, depth)).filter((text) => text !== '');
}

function heading(depth: number, title: string): string {
  return `${'#'.repeat(Math.min(6, depth))} ${markdownText(title)}`;
}

function drawBlock(block: Block, depth: number): string[] {
  switch (block.kind) {
    case 'lines':
      return block.lines.map(inline);
    case 'facts':
      // Another bullet than a list's, so that the two stay apart where one follows the other.
      return [
        block.facts.map((fact) => `* **${markdownText(fact.label)}**: ${inline(fact.value)}`).join('\n'),
      ];
    case 'table':
      return [drawTable(block)];
    case 'list':
      return [block.items.map(drawItem).join('\n')];
    case 'section':
      return [heading(depth, block.title), ...blocks(block.blocks, depth + 1)];
    case 'finding':
      return drawFinding(block);
    case 'copy':
      return [drawCopy(block.lines)];
    case 'caution':
      return [`> ${markdownText(block.text)}`];
  }
}

/** One line of Markdown. A gauge is set as code, where its marks keep their places; it holds no backtick and no bar. */
function inline(line: Line): string {
  const parts: string[] = [];
  let text = '';
  for (const piece of piecesOf(line)) {
    if ('gauge' in piece) {
      parts.push(markdownText(text), `\`${gaugeText(piece)}\``);
      text = '';
    } else if ('href' in piece) {
      parts.push(markdownText(text), `[${markdownText(piece.words)}](${piece.href})`);
      text = '';
    } else text += 'words' in piece ? piece.words : piece.figure;
  }
  return [...parts, markdownText(text)].filter((part) => part !== '').join(' ');
}

function drawTable(table: Table): string {
  const count = table.columns.length;
  const row = (lines: readonly Line[]): string => {
    if (lines.length > count)
      throw new RangeError(`a row has more cells than the ${count} columns of its table`);
    return `| ${table.columns.map((_, i) => inline(lines[i] ?? [])).join(' | ')} |`;
  };
  const rules = alignments(table).map((align) => (align === 'right' ? '---:' : '---'));
  const heads = table.columns.map((column) => words(column.head));
  return [
    row(heads),
    `| ${rules.join(' | ')} |`,
    ...table.rows.map(row),
    ...(table.total === undefined ? [] : [row(table.total)]),
  ].join('\n');
}

/** What stands under an item is a new line of the same item. */
function drawItem(item: Item): string {
  const { line, mark, under = [] } = itemOf(item);
  const first = mark === undefined ? inline(line) : `${markdownText(mark)} ${inline(line)}`;
  return `- ${[first, ...under.map(inline)].join('\\\n  ')}`;
}

/** As code, which shows every mark as it is, behind a fence longer than any that is in it. */
function drawCopy(lines: readonly string[]): string {
  const clean = lines.map(cleanLine);
  const longest = Math.max(2, ...clean.flatMap((line) => line.match(/`+/g) ?? []).map((run) => run.length));
  const fence = '`'.repeat(longest + 1);
  return [fence, ...clean, fence].join('\n');
}

function drawFinding(finding: FindingBlock): string[] {
  const below = [
    ...finding.because.map(inline),
    ...(finding.source === undefined ? [] : [markdownText(`Source: ${finding.source}`)]),
    ...[finding, ...(finding.also ?? [])].flatMap(({ id, basis }) => [
      markdownText(id),
      ...(basis === undefined ? [] : [markdownText(`basis ${basis}`)]),
    ]),
    ...(finding.decided ?? []).map(inline),
  ];
  const say = `**${markdownText(finding.level.toUpperCase())}** ${inline(finding.say)}`;
  return [say, below.map((text) => `- ${text}`).join('\n')];
}
