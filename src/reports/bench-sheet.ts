import type { Batch } from '../compounding/compound.ts';
import type { RecordedLine } from '../folder/schema/record.ts';
import { gram, millilitre } from '../measure/units.ts';
import { CAUTION } from './caution.ts';
import { type Block, exactly, type Line, numberIn, type Sheet, words } from './sheet.ts';
import { renderTerminal } from './terminal.ts';
import { fillLines, labelOf, methodBlock } from './weigh.ts';

/**
 * A5 is 148 x 210 mm (ISO 216). In print of 10 characters and 6 lines to the inch, with margins of 10 mm, it holds 50
 * columns (128 mm / 2.54 mm) and 44 lines (190 mm / 4.23 mm).
 */
export const BENCH_PAGE = { columns: 50, lines: 44 };

const blank = (width: number): string => '.'.repeat(width);

/** The sheet that lies beside the balance: what of which lot, up to where, ticked and initialled line by line. */
export function benchSheet(batch: Batch, recorded: BenchRecord | null): Sheet {
  const { formula } = batch;
  const unit = batch.lineUnit === millilitre ? millilitre : gram;
  const to = unit === millilitre ? 'pour' : 'weigh';
  const version = formula.version ? `, version ${formula.version.toFixed()}` : '';
  return {
    title: `${formula.title}: bench sheet`,
    subtitle: `${formula.formula}${version}, ${formula.preparation.kind}`,
    blocks: [
      {
        kind: 'table',
        columns: [
          { head: '' },
          { head: unit === millilitre ? 'liquid' : 'herb' },
          { head: 'lot' },
          { head: `${to} (${unit.symbol})` },
          { head: unit === millilitre ? 'fill to (mL)' : 'on the pan (g)' },
          { head: 'by' },
        ],
        rows: fillLines(batch).map(({ line, fill }): Line[] => [
          words('[ ]'),
          words(labelOf(batch, line.key)),
          words(lotsOf(recorded, line.key)),
          numberIn(unit, line.weigh, 'exact'),
          numberIn(unit, fill, 'exact'),
          words(blank(4)),
        ]),
      },
      { kind: 'facts', facts: facts(batch, recorded) },
      methodBlock(batch),
      { kind: 'caution', text: CAUTION },
    ],
  };
}

export interface BenchRecord {
  readonly number: string;
  readonly made: string;
  readonly discardAfter: string;
  readonly lines: readonly RecordedLine[];
}

function lotsOf(recorded: BenchRecord | null, key: string): string {
  const draws = recorded?.lines.find((l) => l.of === key)?.draws ?? [];
  return draws.length > 0 ? draws.map((d) => d.lot).join(' ') : blank(6);
}

function facts(batch: Batch, recorded: BenchRecord | null): Extract<Block, { kind: 'facts' }>['facts'] {
  return [
    { label: 'in all', value: exactly(batch.total) },
    { label: 'batch', value: words(recorded?.number ?? blank(12)) },
    { label: 'made on', value: words(recorded?.made ?? blank(12)) },
    { label: 'discard after', value: words(recorded?.discardAfter ?? blank(12)) },
    { label: 'weighed by', value: words(blank(16)) },
    { label: 'checked by', value: words(blank(16)) },
  ];
}

/** The sheet as pages of A5, with a form feed between them; each begins with the title, and nothing is cut off. */
export function benchPages(sheet: Sheet): string {
  const lines = renderTerminal(sheet, { width: BENCH_PAGE.columns, colour: false }).trimEnd().split('\n');
  if (lines.length <= BENCH_PAGE.lines) return `${lines.join('\n')}\n`;
  const [title = ''] = lines;
  const head = (page: number): string[] => [`${title.slice(0, BENCH_PAGE.columns - 10)}, page ${page}`, ''];
  const pages: string[][] = [[]];
  for (const group of groupsOf(lines)) {
    const page = pages.at(-1) as string[];
    const fits = page.length + group.length <= BENCH_PAGE.lines;
    if (fits) page.push(...group);
    else if (group.length + 2 <= BENCH_PAGE.lines) pages.push([...head(pages.length + 1), ...group]);
    else
      for (const line of group) {
        const last = pages.at(-1) as string[];
        if (last.length < BENCH_PAGE.lines) last.push(line);
        else pages.push([...head(pages.length + 1), line]);
      }
  }
  return `${pages.map((p) => p.join('\n').trimEnd()).join('\n\f')}\n`;
}

/** What stands together, with the empty line behind it. */
function groupsOf(lines: readonly string[]): string[][] {
  const groups: string[][] = [[]];
  for (const line of lines) {
    (groups.at(-1) as string[]).push(line);
    if (line === '') groups.push([]);
  }
  return groups.filter((g) => g.length > 0);
}

/** Keys for scripts: bench[].{of, lot, amount, running}. */
export function benchJson(batch: Batch, recorded: BenchRecord | null): unknown[] {
  return fillLines(batch).map(({ line, fill }) => ({
    of: line.key,
    lots: (recorded?.lines.find((l) => l.of === line.key)?.draws ?? []).map((d) => d.lot),
    amount: line.weigh,
    running: fill,
  }));
}
