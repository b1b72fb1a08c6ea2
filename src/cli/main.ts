import { Command, CommanderError } from 'commander';
import { emit } from './emit.ts';
import { type CommonOptions, withBatch, withCommon, withPerson } from './options.ts';
import { misused, type Outcome } from './outcome.ts';

/** The program's own version, set by the build. */
declare const VERSION: string;

const FAULT = 1;
const MISUSE = 2;

const START = `
Start with scruple list, then scruple show NAME.

Exit status: 0 all is well, 1 a fault of the program, 2 the command line or a
file is wrong; of check alone 3 decide, 4 ask first, 5 withhold.`;

type Run = (args: readonly string[], options: never) => Promise<Outcome>;

export async function main(argv: readonly string[]): Promise<void> {
  const program = new Command('scruple')
    .description('Formulary and dose calculator for practising herbalists.')
    .version(typeof VERSION === 'string' ? VERSION : 'source')
    .showSuggestionAfterError()
    .configureOutput({ outputError: (text, write) => write(inOurWords(text)) })
    .addHelpText('after', START)
    .exitOverride();

  const add = (
    line: string,
    says: string,
    example: string,
    load: () => Promise<Run>,
    shape: (c: Command) => Command = (c) => c,
  ): void => {
    const command = shape(withCommon(program.command(line).description(says)));
    command.addHelpText('after', `\nFor example:\n  scruple ${example}\n`);
    command.exitOverride().action(async (...args: unknown[]) => {
      const positional = args
        .slice(0, -2)
        .flat()
        .filter((a): a is string => typeof a === 'string');
      const options = args[args.length - 2] as CommonOptions;
      const run = await load();
      const day = await dayFault(options);
      const outcome = day === null ? await run(positional, options as never) : misused(day);
      process.exitCode = await emit(command.name(), outcome, options);
    });
  };

  add(
    'weigh <formula>',
    'what to weigh, and how much water to use',
    'weigh after-supper --days 7',
    async () => (await import('./commands/weigh.ts')).weigh,
    withBatch,
  );
  add(
    'convert <quantity> <unit>',
    'one measure as another',
    'convert "1 imp pint" mL',
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
    'dose after-supper --age 34y',
    async () => (await import('./commands/dose.ts')).dose,
    (c) => withPerson(withBatch(c)),
  );
  add(
    'check <formula...>',
    'whether it suits this person: yes, no or not yet',
    'check after-supper --patient patients/P-017.yaml',
    async () => (await import('./commands/check.ts')).check,
    withPerson,
  );
  add(
    'list [what]',
    'the formulas and herbs of the folder (formulas, herbs)',
    'list herbs',
    async () => (await import('./commands/list.ts')).list,
  );
  add(
    'show <name>',
    'one formula, or one herb by any of its names',
    'show "willow bark"',
    async () => (await import('./commands/show.ts')).show,
  );
  add(
    'validate [files...]',
    'every fault of every file, with its place',
    'validate formulas/after-supper.yaml',
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

/** The library that reads the command line says what is wrong in words of its own. */
function inOurWords(text: string): string {
  const negative = /^error: unknown option '(-[\d.][^']*)'/.exec(text);
  if (negative) return `command line: "${negative[1]}" is below nothing: write the figure without its sign\n`;
  return text.replace(/^error: /, 'command line: ');
}

/** Why --on is no day, whichever command it stands with; null where it is one or is not there. */
async function dayFault(options: CommonOptions): Promise<string | null> {
  if (options.on === undefined) return null;
  const { dayOf } = await import('./load.ts');
  const on = dayOf(options);
  return on.ok ? null : on.why;
}
