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
  readonly patients?: string;
  readonly outputDir?: string;
  readonly codesInNames?: boolean;
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

/** What is written down is written by somebody. */
export interface RecordOptions extends CommonOptions {
  readonly initials?: string;
  readonly note?: string;
}

export interface LotOptions extends RecordOptions {
  readonly amount?: string;
  readonly bought?: string;
  readonly supplierLot?: string;
  readonly gathered?: string;
  readonly leave?: string;
  readonly identifiedBy?: string;
  readonly fresh?: string;
  readonly made?: string;
  readonly form?: string;
  readonly ratio?: string;
  readonly spirit?: string;
  readonly glycerol?: string;
  readonly moisture?: string;
  readonly ofFresh?: boolean;
  readonly density?: string;
  readonly price?: string;
  readonly expires?: string;
  readonly reason?: string;
  readonly less?: string;
  readonly left?: string;
  readonly why?: string;
}

/** What making a batch of the shelf takes, besides its size. */
export interface ShelfOptions extends RecordOptions {
  readonly withoutLots?: boolean;
  readonly discardAfter?: string;
}

export interface DispenseOptions extends PersonOptions, BatchOptions, ShelfOptions, DecisionOptions {
  readonly batch?: string;
  readonly like?: string;
  readonly change?: string;
  readonly review?: string;
  readonly corrects?: string;
  readonly cancel?: string;
  readonly why?: string;
  readonly reaction?: string;
  readonly says?: string;
  readonly serious?: string;
}

export interface CaseloadOptions extends CommonOptions {
  readonly patients?: string;
  readonly together?: boolean;
}

export const collect = (value: string, before: readonly string[] = []): readonly string[] => [
  ...before,
  value,
];

/** What every command takes stands below what it takes itself. */
export function withCommon(command: Command): Command {
  const option = (flags: string, says: string, group: string): Option =>
    new Option(flags, says).helpGroup(group);
  const [output, where] = ['Output:', 'Where and when:'];
  return command
    .addOption(option('--json', 'one JSON envelope a line, for scripts', output).conflicts('markdown'))
    .addOption(option('--markdown', 'a Markdown report', output))
    .addOption(option('--working', 'show how every figure came about', output))
    .addOption(option('--output <file>', 'write to a file instead of the terminal', output))
    .addOption(option('--force', 'let --output replace a file that is there', output))
    .addOption(option('--no-color', 'no bold or dim print', output))
    .addOption(option('--folder <dir>', 'the folder that holds monographs/ and formulas/', where))
    .addOption(option('--on <date>', 'the day to reckon from, such as 2026-05-02 (default: today)', where));
}

export function withRecord(command: Command): Command {
  return command
    .option('--initials <letters>', 'who does it, for the record')
    .option('--note <words>', 'a word for the record');
}

export function withShelf(command: Command): Command {
  return withRecord(command)
    .option('--without-lots', 'of herbs that were not booked in; the record says so')
    .option('--discard-after <date>', 'the day on the label, where it is not known otherwise or is earlier');
}

export function withDispense(command: Command): Command {
  return withShelf(withBatch(withDecisions(command)))
    .option('--patient <file>', 'to whom: a patient file, or - for standard input', collect)
    .option('--batch <number>', 'fill it from this batch; --make says how much, else it is the course')
    .option('--like <record>', 'the same as was handed over before, checked anew')
    .option('--change <changes>', 'with --like: such as "valerian-root -10 mL, hops-flower +10 mL"')
    .option(
      '--review <date>',
      'when they are seen again: a day, or "14 days" (default: the end of the course)',
    )
    .option('--corrects <record>', 'in place of a record that was wrong; with --why')
    .option('--cancel <record>', 'it was never handed over; with --why')
    .option('--why <reason>', 'why a record is corrected or cancelled')
    .option('--reaction <record>', 'a suspected reaction to what was handed over; with --says')
    .option('--says <words>', 'what happened')
    .option('--serious <answer>', 'yes or no');
}

export function withLots(command: Command): Command {
  return withRecord(command)
    .option('--amount <amount>', 'book-in: how much, such as "500 g"')
    .option('--bought <supplier>', 'book-in: of whom')
    .option('--supplier-lot <lot>', 'book-in: their own lot number')
    .option('--gathered <place>', 'book-in: where')
    .option('--leave <owner>', 'book-in: whose leave there was to gather')
    .option('--identified-by <who>', 'book-in: who made sure what plant it is')
    .option('--fresh <weight>', 'book-in: what it weighed fresh; --amount is the dry weight')
    .option('--made <batch>', 'book-in: the batch that it is, such as a tincture')
    .option('--form <form>', 'book-in: dried (default), fresh, powder, tincture ...')
    .option('--ratio <ratio>', 'book-in: of what was drawn out, such as "1:5 w/v"')
    .option('--spirit <strength>', 'book-in: such as "60 % v/v"')
    .option('--glycerol <strength>', 'book-in: of a glycerite')
    .option('--moisture <share>', 'book-in: of fresh herb, such as "78 %"')
    .option('--of-fresh', 'book-in: drawn of fresh herb')
    .option('--density <density>', 'book-in: such as "0.91 g/mL"')
    .option('--price <price>', 'book-in: of the whole lot, such as "12.50 GBP"')
    .option('--expires <date>', 'book-in: the last day on which it is used')
    .option('--reason <reason>', 'adjust: spilled, moths, counted, quarantine, released ...')
    .option('--less <amount>', 'adjust: how much went')
    .option('--left <amount>', 'adjust: how much is there, as counted')
    .option('--why <reason>', 'cancel: why the record does not count');
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
    .option('--patients <folder>', 'every patient file of this folder')
    .addOption(
      new Option('--output-dir <dir>', 'write one sheet a person into this folder, and an index').conflicts(
        'output',
      ),
    )
    .option('--codes-in-names', 'with --output-dir: name the files by the codes of the people')
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
