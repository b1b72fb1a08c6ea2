import { Command, CommanderError } from 'commander';
import { cleanLine } from '../reports/escape.ts';
import { dayOf } from './day.ts';
import { type CommonOptions, collect, withBatch, withCommon, withPerson } from './options.ts';
import { misused, type Outcome } from './outcome.ts';

/** The program's own version, set by the build. */
declare const VERSION: string;

const FAULT = 1;
const MISUSE = 2;

const START = `
Start with scruple list, then scruple show NAME.

Exit status: 0 all is well, 1 a fault of the program, 2 the command line or a
file is wrong; of check alone 3 decide, 4 ask first, 5 withhold.`;

/** A command's own bundle: what it does, and how what it came to is printed. */
interface Entry {
  readonly run: (args: readonly string[], options: never) => Promise<Outcome>;
  readonly emit: typeof import('./emit.ts').emit;
}

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
    load: () => Promise<Entry>,
    shape: (c: Command) => Command = (c) => c,
  ): void => {
    const command = program.command(line).description(says);
    // A command that is not named on this line needs its name and its sentence, not its thirty options.
    if (!argv.includes(command.name())) return;
    shape(withCommon(command));
    command.addHelpText('after', `\nFor example:\n  scruple ${example}\n`);
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
  };

  add(
    'weigh <formula>',
    'what to weigh, and how much water to use',
    'weigh after-supper --days 7',
    () => import('./entries/weigh.ts'),
    withBatch,
  );
  add(
    'convert <quantity> <unit>',
    'one measure as another',
    'convert "1 imp pint" mL',
    () => import('./entries/convert.ts'),
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
    'spirit',
    'dilute, mix and correct spirit, by mass',
    'spirit --to "60 %" --make "500 mL" --from "96.3 %"',
    () => import('./entries/spirit.ts'),
    (c) =>
      c
        .option('--to <strength>', 'the strength wanted, such as "60 %" (by volume) or "50 % m/m"')
        .option('--make <amount>', 'how much of it to make, such as "500 mL"')
        .option('--from <strength>', 'a spirit in hand; repeat to mix several', collect)
        .option('--use <amount>', 'use up this much of the spirit in hand')
        .option(
          '--mix <amount of strength>',
          'what comes of mixing "500 mL of 96 %" and "300 mL of water"; repeat',
          collect,
        )
        .option('--reading <strength>', 'what a hydrometer shows in clean spirit')
        .option('--temperature <temperature>', 'at which it was read, such as "12 C"')
        .option('--of <liquid>', 'what was measured: spirit; a tincture is refused')
        .option('--fahrenheit60', 'volumes and strengths at 60 F instead of 20 C'),
  );
  add(
    'dose <formula>',
    'what a person takes of each herb, beside the published ranges',
    'dose after-supper --age 34y',
    () => import('./entries/dose.ts'),
    (c) => withPerson(withBatch(c)),
  );
  add(
    'check <formula...>',
    'whether it suits this person: yes, no or not yet',
    'check after-supper --patient patients/P-017.yaml',
    () => import('./entries/check.ts'),
    withPerson,
  );
  add(
    'list [what]',
    'the formulas and herbs of the folder (formulas, herbs)',
    'list herbs',
    () => import('./entries/list.ts'),
  );
  add(
    'show <name>',
    'one formula, or one herb by any of its names',
    'show "willow bark"',
    () => import('./entries/show.ts'),
  );
  add(
    'validate [files...]',
    'every fault of every file, with its place',
    'validate formulas/after-supper.yaml',
    () => import('./entries/validate.ts'),
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
