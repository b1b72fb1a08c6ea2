import { type Command, Option } from 'commander';

/** What every command takes. */
export interface CommonOptions {
  readonly json?: boolean;
  readonly markdown?: boolean;
  readonly output?: string;
  readonly force?: boolean;
  readonly working?: boolean;
  readonly folder?: string;
  readonly on?: string;
  readonly color?: boolean;
}

/** What the commands about a person take besides. */
export interface PersonOptions extends CommonOptions {
  readonly patient?: readonly string[];
  readonly outputDir?: string;
  readonly age?: string;
  readonly born?: string;
  readonly weight?: string;
  readonly height?: string;
  readonly sex?: string;
  readonly pregnant?: string;
  readonly breastfeeding?: string;
  readonly tryingToConceive?: string;
  readonly condition?: readonly string[];
  readonly medicine?: readonly string[];
  readonly allergy?: readonly string[];
  readonly taking?: readonly string[];
  readonly drives?: string;
  readonly avoidsAlcohol?: string;
  readonly fluidRestricted?: string;
  readonly surgery?: string;
}

/** What is decided about findings: the n-th of each belongs to the n-th --decide. */
export interface DecisionOptions {
  readonly decide?: readonly string[];
  readonly because?: readonly string[];
  readonly by?: readonly string[];
  readonly until?: readonly string[];
}

export interface BatchOptions {
  readonly make?: string;
  readonly days?: string;
  readonly doses?: string;
  readonly have?: readonly string[];
}

export const collect = (value: string, before: readonly string[] = []): readonly string[] => [
  ...before,
  value,
];

export function withCommon(command: Command): Command {
  return command
    .addOption(new Option('--json', 'one JSON envelope a line, for scripts').conflicts('markdown'))
    .option('--markdown', 'a Markdown report')
    .option('--working', 'show how every figure came about')
    .option('--output <file>', 'write to a file instead of the terminal')
    .option('--force', 'let --output replace a file that is there')
    .option('--folder <dir>', 'the folder that holds monographs/ and formulas/')
    .option('--on <date>', 'the day to reckon from, such as 2026-05-02 (default: today)')
    .option('--no-color', 'no bold or dim print');
}

export function withBatch(command: Command): Command {
  return command
    .option('--make <amount>', 'how much to make: "100 g" of the blend, or "2 L" of the finished liquid')
    .option('--days <number>', 'enough for this many days of the directions')
    .option('--doses <number>', 'enough for this many doses')
    .option('--have <herb=amount>', 'as much as this is enough for; repeat for each herb in hand', collect);
}

export function withPerson(command: Command): Command {
  return command
    .option('--patient <file>', 'a patient file, or - for standard input; repeat for several', collect)
    .addOption(
      new Option('--output-dir <dir>', 'write one sheet a person into this folder').conflicts('output'),
    )
    .option('--age <age>', 'such as 34y or "18 months"')
    .option('--born <date>', 'such as 1991-06-14, or 1991-06')
    .option('--weight <weight>', 'such as 68kg')
    .option('--height <height>', 'such as "122 cm", for a rule of age by body surface')
    .option('--sex <sex>', 'female or male')
    .option('--pregnant <answer>', 'no, yes, or the weeks: "30 weeks"')
    .option('--breastfeeding <answer>', 'yes or no')
    .option('--trying-to-conceive <answer>', 'yes or no')
    .option('--condition <name>', 'an illness or condition, or none; repeat for each', collect)
    .option('--medicine <name>', 'a medicine, or none; repeat for each', collect)
    .option('--allergy <name>', 'an allergy, or none; repeat for each', collect)
    .option('--taking <herb>', 'a herb taken already, or none; repeat for each', collect)
    .option('--drives <answer>', 'yes or no')
    .option('--avoids-alcohol <answer>', 'yes or no')
    .option('--fluid-restricted <answer>', 'yes or no')
    .option('--surgery <date>', 'the day of a planned operation, or none');
}

export function withDecisions(command: Command): Command {
  return command
    .option('--decide <id>', 'accept this finding; repeat, each with --because and --by', collect)
    .option('--because <reason>', 'why the n-th --decide is accepted', collect)
    .option('--by <initials>', 'who decides it', collect)
    .option('--until <date>', 'how long it holds, or none (default: no end)', collect);
}
