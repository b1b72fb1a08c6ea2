import { Command, CommanderError } from 'commander';
import { cleanLine } from '../reports/escape.ts';
import { COMMANDS, type CommandLine, type Entry, GROUPS, nameOf } from './command-lines.ts';
import { dayOf } from './day.ts';
import { type CommonOptions, withCommon } from './options.ts';
import { misused } from './outcome.ts';
import { version } from './version.ts';

const FAULT = 1;
const MISUSE = 2;

const FOOT = `
Exit status: 0 all is well, 1 a fault of the program, 2 the command line or a
file is wrong; of check, dispense and caseload 3 decide, 4 ask first, 5
withhold.`;

/** What somebody sees who does not know yet what to ask. */
const START = `scruple ${version()}: a formulary and dose calculator for practising herbalists

  scruple init DIR                         a folder to work in
  scruple list                             the formulas and herbs of a folder
  scruple show NAME                        one of them, by any of its names
  scruple check FORMULA --patient FILE     whether it suits this person

scruple --help lists every command, scruple COMMAND --help how it is used.
`;

export async function main(argv: readonly string[]): Promise<void> {
  const named = COMMANDS.find((c) => nameOf(c) === argv[0]);
  // Its bundle is fetched while the command line is being read.
  const loading = named?.load();
  const program = new Command('scruple')
    .description('Formulary and dose calculator for practising herbalists.')
    .version(version())
    .showSuggestionAfterError()
    .configureOutput({ outputError: (text, write) => write(inOurWords(text)) })
    .addHelpText('after', FOOT)
    .exitOverride();
  // The others need to be known only for the list of commands and for a suggestion.
  for (const c of named ? [named] : byGroup())
    add(program, c, argv.includes(nameOf(c)), () => loading ?? c.load());

  try {
    if (argv.length === 0) process.stdout.write(START);
    else await program.parseAsync(argv, { from: 'user' });
  } catch (error) {
    if (error instanceof CommanderError) {
      process.exitCode = error.exitCode === 0 ? 0 : MISUSE;
      return;
    }
    process.stderr.write(
      `A fault of the program, not of your files: ${error instanceof Error ? error.message : String(error)}\n`,
    );
    if (process.env.SCRUPLE_TRACE) console.error(error);
    process.exitCode = FAULT;
  }
}

/** In the order of the working day. */
const byGroup = (): CommandLine[] => GROUPS.flatMap((g) => COMMANDS.filter((c) => c.group === g));

function add(
  program: Command,
  { line, says, group, examples, shape }: CommandLine,
  whole: boolean,
  load: () => Promise<Entry>,
): void {
  const command = program.command(line).description(says).helpGroup(`${group}:`);
  if (!whole) return;
  shape?.(command);
  withCommon(command);
  command.addHelpText('before', `For example:\n${examples.map((e) => `  scruple ${e}`).join('\n')}\n`);
  command.exitOverride().action(async (...args: unknown[]) => {
    const positional = args
      .slice(0, -2)
      .flat()
      .filter((a): a is string => typeof a === 'string');
    const options = args[args.length - 2] as CommonOptions;
    const { run, emit } = await load();
    const day = dayFault(options);
    const outcome = day === null ? await run(positional, options as never) : misused(day);
    process.exitCode = await emit(command.name(), outcome, options);
  });
}

/** The library that reads the command line says what is wrong in words of its own. */
function inOurWords(text: string): string {
  const negative = /^error: unknown option '(-[\d.][^']*)'/.exec(text);
  const said = negative
    ? `"${negative[1]}" is below nothing: write the figure without its sign`
    : text.replace(/^error: /, '').trimEnd();
  return `command line: ${said}`.split('\n').map(cleanLine).join('\n').concat('\n');
}

/** Why --on is no day, whichever command it stands with; null where it is one or is not there. */
function dayFault(options: CommonOptions): string | null {
  if (options.on === undefined) return null;
  const on = dayOf(options);
  return on.ok ? null : on.why;
}
