import { type Problem, writeProblem } from '../folder/problem.ts';
import { cleanLine } from '../reports/escape.ts';
import type { CommonOptions } from './options.ts';
import type { Answer, Outcome } from './outcome.ts';
import { output } from './output.ts';

/** Prints what a command came to, in the format asked for, and gives the exit status. */
export async function emit(
  command: string,
  outcome: Outcome,
  options: CommonOptions & { readonly outputDir?: string },
): Promise<number> {
  if (!outcome.ok) return report(command, outcome.problems, options);
  if (options.outputDir !== undefined) {
    const { writeSheets } = await import('./sheets-to-folder.ts');
    const failed = await writeSheets(
      outcome.answers,
      options.outputDir,
      options.force ?? false,
      (a) => render(command, a, options),
      extension(options),
    );
    return failed === null ? outcome.exit : report(command, [failed], options);
  }
  const texts: string[] = [];
  for (const answer of outcome.answers) texts.push(await render(command, answer, options));
  const written = await output(texts.join(options.json ? '' : '\n'), {
    file: options.output,
    force: options.force,
  });
  if (!written.ok)
    return report(command, [{ code: 'unreadable', file: 'output', message: written.why }], options);
  return outcome.exit;
}

function extension(options: CommonOptions): string {
  if (options.json) return 'json';
  return options.markdown ? 'md' : 'txt';
}

async function render(command: string, answer: Answer, options: CommonOptions): Promise<string> {
  const { figuresOn } = await import('../reports/sheet.ts');
  if (options.json) {
    const { envelope } = await import('../reports/json.ts');
    const { workingOf } = await import('../measure/figure.ts');
    const working = options.working ? { working: workingOf(figuresOn(answer.sheet)) } : {};
    return envelope(command, { ...(answer.result as object), ...working }, answer.findings ?? []);
  }
  if (answer.document !== undefined && !options.markdown) return answer.document;
  const { workingBlocks } = await import('../reports/working.ts');
  const { sheet } = answer;
  const foot = sheet.blocks.findIndex((b) => b.kind === 'caution');
  const above = foot < 0 ? sheet.blocks.length : foot;
  // The caution and what to do next stay at the foot, below however many lines of working.
  const whole = options.working
    ? { ...sheet, blocks: sheet.blocks.toSpliced(above, 0, ...workingBlocks(figuresOn(sheet))) }
    : sheet;
  if (options.markdown) {
    const { renderMarkdown } = await import('../reports/markdown.ts');
    return renderMarkdown(whole);
  }
  const { renderTerminal } = await import('../reports/terminal.ts');
  return renderTerminal(whole, { width: terminalWidth(options), colour: mayStyle(options) });
}

const LAYOUT_WIDTH = 80;

/** As wide as the terminal up to 80 columns; a file or a pipe gets 80. */
function terminalWidth(options: CommonOptions): number {
  const columns = options.output === undefined && process.stdout.isTTY ? process.stdout.columns : undefined;
  return columns === undefined || columns <= 0 ? LAYOUT_WIDTH : Math.min(LAYOUT_WIDTH, columns);
}

function mayStyle(options: CommonOptions): boolean {
  const refused =
    options.color === false || (process.env.NO_COLOR ?? '') !== '' || process.env.TERM === 'dumb';
  return !refused && options.output === undefined && process.stdout.isTTY === true;
}

/** Problems go to standard error, each with the line it stands on; scripts also get them as an envelope. */
async function report(
  command: string,
  problems: readonly Problem[],
  options: CommonOptions,
): Promise<number> {
  const lines = problems.flatMap((p) => [
    cleanLine(writeProblem(p)),
    ...(p.excerpt ? [`    ${p.excerpt}`] : []),
  ]);
  process.stderr.write(`${lines.join('\n')}\n`);
  if (options.json) {
    const { envelope } = await import('../reports/json.ts');
    process.stdout.write(envelope(command, null, [], problems));
  }
  return 2;
}
