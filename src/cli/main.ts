import { Command, CommanderError } from 'commander';
import { emit } from './emit.ts';
import { type CommonOptions, withBatch, withCommon, withPerson } from './options.ts';
import type { Outcome } from './outcome.ts';

/** The program's own version, set by the build. */
declare const VERSION: string;

const FAULT = 1;
const MISUSE = 2;

type Run = (args: readonly string[], options: never) => Promise<Outcome>;

export async function main(argv: readonly string[]): Promise<void> {
  const program = new Command('scruple')
    .description('Formulary and dose calculator for practising herbalists.')
    .version(typeof VERSION === 'string' ? VERSION : 'source')
    .showSuggestionAfterError()
    .configureOutput({ outputError: (text, write) => write(text.replace(/^error: /, 'command line: ')) })
    .exitOverride();

  const add = (
    line: string,
    says: string,
    load: () => Promise<Run>,
    shape: (c: Command) => Command = (c) => c,
  ): void => {
    const command = shape(withCommon(program.command(line).description(says)));
    command.exitOverride().action(async (...args: unknown[]) => {
      const positional = args
        .slice(0, -2)
        .flat()
        .filter((a): a is string => typeof a === 'string');
      const options = args[args.length - 2] as CommonOptions;
      const run = await load();
      process.exitCode = await emit(command.name(), await run(positional, options as never), options);
    });
  };

  add(
    'weigh <formula>',
    'what to weigh, and how much water to use',
    async () => (await import('./commands/weigh.ts')).weigh,
    withBatch,
  );
  add(
    'convert <quantity> <unit>',
    'one measure as another',
    async () => (await import('./commands/convert.ts')).convert,
    (c) =>
      c
        .option('--density <density>', 'of the liquid, such as "0.92 g/mL", between mass and volume')
        .option('--liquid <name>', 'a liquid whose density is known, such as water')
        .option(
          '--dropper <drops>',
          'drops that your dropper gives of this very liquid, such as "35 drops/mL"',
        ),
  );
  add(
    'dose <formula>',
    'what a person takes of each herb, beside the published ranges',
    async () => (await import('./commands/dose.ts')).dose,
    (c) => withPerson(withBatch(c)),
  );
  add(
    'check <formula...>',
    'whether it suits this person: yes, no or not yet',
    async () => (await import('./commands/check.ts')).check,
    withPerson,
  );
  add(
    'list [what]',
    'the formulas and herbs of the folder (formulas, herbs)',
    async () => (await import('./commands/list.ts')).list,
  );
  add(
    'show <name>',
    'one formula, or one herb by any of its names',
    async () => (await import('./commands/show.ts')).show,
  );
  add(
    'validate [files...]',
    'every fault of every file, with its place',
    async () => (await import('./commands/validate.ts')).validate,
  );

  try {
    if (argv.length === 0) program.outputHelp();
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
