import type { Command } from 'commander';
import {
  collect,
  withBatch,
  withDecisions,
  withDispense,
  withLots,
  withPerson,
  withShelf,
} from './options.ts';
import type { Outcome } from './outcome.ts';

/** A command's own bundle: what it does, and how what it came to is printed. */
export interface Entry {
  readonly run: (args: readonly string[], options: never) => Promise<Outcome>;
  readonly emit: typeof import('./emit.ts').emit;
}

/** When in the working day a command is wanted. */
export const GROUPS = [
  'Look up',
  'Gather and dry',
  'Weigh and make',
  'Dose and check',
  'Hand over',
  'Keep the folder',
] as const;
export type Group = (typeof GROUPS)[number];

/** A command as the command line knows it; its bundle is loaded when it is called. */
export interface CommandLine {
  readonly line: string;
  readonly says: string;
  readonly group: Group;
  /** What is typed, the commonest first. */
  readonly examples: readonly string[];
  readonly load: () => Promise<Entry>;
  /** Its options besides those that every command takes. */
  readonly shape?: (c: Command) => Command;
}

const core = async (name: keyof typeof import('./bundles/core.ts').commands): Promise<Entry> =>
  (await import('./bundles/core.ts')).commands[name]();
/** What they come to is printed by the bundle that prints everything else. */
const schemas = async (name: keyof typeof import('./bundles/schemas.ts').commands): Promise<Entry> => {
  const { emit } = await import('./bundles/core.ts');
  return { ...(await (await import('./bundles/schemas.ts')).commands[name]()), emit };
};

/** Every command, in the order of the working day. Adding one is a line here, its entry and its file. */
export const COMMANDS: readonly CommandLine[] = [
  {
    line: 'weigh <formula>',
    says: 'what to weigh, and how much water to use',
    group: 'Weigh and make',
    examples: [
      'weigh after-supper --days 7',
      'weigh hushed-hours --make "140 mL" --bench',
      'weigh hushed-hours --batch --initials KR',
    ],
    load: () => core('weigh'),
    shape: (c) =>
      withShelf(withBatch(c))
        .option('--batch', 'weigh it out of the lots on the shelf, and keep a record')
        .option('--made <amount>', 'with --batch: what came of it, as measured')
        .option('--bench', 'a sheet of A5 for the bench: lots, fill lines, ticks, initials'),
  },
  {
    line: 'convert <quantity> <unit>',
    says: 'one measure as another',
    group: 'Weigh and make',
    examples: [
      'convert "1 imp pint" mL',
      'convert "20 drops" mL --dropper "35 drops/mL"',
      'convert "100 mL" g --liquid water',
    ],
    load: () => import('./entries/convert.ts'),
    shape: (c) =>
      c
        .option('--density <density>', 'of the liquid, such as "0.92 g/mL", between mass and volume')
        .option('--liquid <name>', 'a liquid whose density is known, such as water')
        .option(
          '--dropper <drops>',
          'drops that your dropper gives of this very liquid, such as "35 drops/mL"',
        ),
  },
  {
    line: 'spirit',
    says: 'dilute, mix and correct spirit, by mass',
    group: 'Weigh and make',
    examples: [
      'spirit --to "60 %" --make "500 mL" --from "96.3 %"',
      'spirit --reading "45 %" --temperature "12 C"',
    ],
    load: () => core('spirit'),
    shape: (c) =>
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
  },
  {
    line: 'dose <formula>',
    says: 'what a person takes of each herb, beside the published ranges',
    group: 'Dose and check',
    examples: ['dose after-supper --age 34y', 'dose after-supper --patients patients --output-dir sheets'],
    load: () => core('dose'),
    shape: (c) =>
      withPerson(withBatch(c)).option(
        '--age-rule <name>',
        'also the adult dose scaled by this rule of age, or all; repeat for several',
        collect,
      ),
  },
  {
    line: 'check [formula...]',
    says: 'whether it suits this person: yes, no or not yet',
    group: 'Dose and check',
    examples: [
      'check after-supper --patient patients/P-017.yaml',
      'check after-supper --age 34y --sex female --medicine warfarin',
      'check --all',
    ],
    load: () => core('check'),
    shape: (c) =>
      withDecisions(withPerson(c)).option('--all', 'every formula of the folder, without a person'),
  },
  {
    line: 'gather <name>',
    says: 'how much fresh, when, and what it is mistaken for',
    group: 'Gather and dry',
    examples: ['gather after-supper --make "500 g" --month june', 'gather nettle-leaf --dry "200 g"'],
    load: () => core('gather'),
    shape: (c) =>
      withBatch(c)
        .option('--dry <weight>', 'of a herb: how much is wanted dry, such as "200 g"')
        .option('--month <month>', 'what can be gathered in this month, such as june'),
  },
  {
    line: 'dry <herb>',
    says: 'when a drying lot is done, and how long it keeps',
    group: 'Gather and dry',
    examples: ['dry nettle-leaf --fresh "800 g"', 'dry nettle-leaf --fresh "800 g" --moisture "78 %"'],
    load: () => core('dry'),
    shape: (c) =>
      c
        .option('--fresh <weight>', 'what the lot weighs fresh, such as "800 g"')
        .option('--dried <weight>', 'what it weighed when it was dry: tells the moisture that it had')
        .option('--moisture <share>', 'of the fresh herb, where you know it: "78 %" or "75-80 %"')
        .option('--to <share>', 'water left when it is done (default: as the monograph says, or 12 %)'),
  },
  {
    line: 'list [what]',
    says: 'the formulas and herbs of the folder (formulas, herbs)',
    group: 'Look up',
    examples: ['list herbs --month june --action astringent', 'list formulas'],
    load: () => core('list'),
    shape: (c) =>
      c
        .option('--action <word>', 'herbs with this action, such as astringent')
        .option('--use <use>', 'herbs with a published dose for this use')
        .option('--month <month>', 'herbs gathered in this month')
        .option('--family <family>', 'herbs of this family, such as Lamiaceae')
        .option('--part <part>', 'herbs of this part, such as leaf')
        .option('--effect <effect>', 'herbs with an effect that adds up, such as sedation')
        .option('--constituent <name>', 'herbs whose content of this was read')
        .option('--medicine <name>', 'herbs whose cautions speak of this medicine')
        .option('--signed-off', 'herbs that the practitioner has signed off')
        .option('--not-signed-off', 'herbs that nobody has signed off')
        .option('--readings', 'how many figures were read in which way'),
  },
  {
    line: 'show [name...]',
    says: 'a formula, a herb by any of its names, several herbs side by side',
    group: 'Look up',
    examples: ['show "willow bark" meadowsweet-herb', 'show stiff-joints', 'show chamomile-flower --sources'],
    load: () => core('show'),
    shape: (c) => c.option('--sources', 'only the sources: of these herbs, or of the whole library'),
  },
  {
    line: 'dispense [formula]',
    says: 'check it, hand it over and keep the record',
    group: 'Hand over',
    examples: [
      'dispense hushed-hours --patient patients/P-017.yaml --initials KR',
      'dispense hushed-hours --batch 12 --patient patients/P-017.yaml \\\n    --initials KR',
      'dispense --like 13 --change "valerian-root -10 mL" \\\n    --patient patients/P-017.yaml --initials KR',
    ],
    load: () => core('dispense'),
    shape: withDispense,
  },
  {
    line: 'label <what>',
    says: 'the label of what was handed over, of a batch, or of a formula',
    group: 'Hand over',
    examples: ['label 000013 --width 40', 'label hushed-hours --discard-after 2027-01-01'],
    load: () => core('label'),
    shape: (c) =>
      withShelf(withBatch(c))
        .option('--width <columns>', 'columns of print on the label (default: 40)')
        .option('--lines <number>', 'lines of print on it; what does not fit is refused'),
  },
  {
    line: 'trace [number]',
    says: 'where a lot went, what a bottle holds, whom a change touches',
    group: 'Hand over',
    examples: ['trace 000004', 'trace --changed'],
    load: () => core('trace'),
    shape: (c) => c.option('--changed', 'dispensings whose formula, monograph or limits have changed since'),
  },
  {
    line: 'caseload [formula...]',
    says: 'many people against many formulas, one JSON line each',
    group: 'Dose and check',
    examples: [
      'caseload after-supper --patients patients',
      'caseload after-supper hushed-hours < people.ndjson',
    ],
    load: () => core('caseload'),
    shape: (c) =>
      c
        .option('--patients <folder>', 'a folder of patient files (default: JSON lines on standard input)')
        .option('--together', 'the formulas judged together, as one person takes them'),
  },
  {
    line: 'lots [what] [name]',
    says: 'what is on the shelf: list, book-in, adjust, cancel',
    group: 'Hand over',
    examples: [
      'lots book-in valerian-root --amount "500 g" --bought "Fen Herbs" \\\n    --initials KR',
      'lots',
      'lots adjust 12 --reason spilled --less "20 mL" --initials KR',
    ],
    load: () => core('lots'),
    shape: withLots,
  },
  {
    line: 'validate [files...]',
    says: 'every fault of every file, with its place',
    group: 'Keep the folder',
    examples: ['validate formulas/after-supper.yaml', 'validate'],
    load: () => core('validate'),
    shape: (c) => c.option('--checked', 'what the practitioner has signed off, and what not yet'),
  },
  {
    line: 'schema [name]',
    says: 'the JSON Schema of a kind of file, for editors and scripts',
    group: 'Keep the folder',
    examples: ['schema monograph', 'schema'],
    load: () => schemas('schema'),
  },
  {
    line: 'init <dir>',
    says: 'a working folder for a practice, with the library in it',
    group: 'Keep the folder',
    examples: [
      'init my-practice --practice "Saltmarsh House" --pint imperial',
      'init my-practice --practice "Reed House" --jurisdiction UK \\\n    --pint imperial',
    ],
    load: () => schemas('init'),
    shape: (c) =>
      c
        .option('--practice <name>', 'the name of the practice')
        .option('--jurisdiction <place>', 'whose law holds: UK, IE, EU, US, CA, AU, NZ or other')
        .option('--pint <system>', 'what a bare pint means: imperial or US'),
  },
];

export const nameOf = ({ line }: CommandLine): string => line.split(' ')[0] ?? line;
