import * as z from 'zod';
import { parseMoney } from '../../measure/money.ts';
import { parseQuantity } from '../../measure/parse.ts';
import type { Dimension } from '../../measure/units.ts';
import { parseRecordNumber } from '../../recording/number.ts';
import { REASONS } from '../../recording/reasons.ts';
import { FORMS } from '../forms.ts';
import {
  date,
  id,
  moisture,
  quantity,
  read,
  solventRatio,
  strength,
  strict,
  word,
  words,
  yesNo,
} from './fields.ts';
import { above0 } from './preparations.ts';
import { withRules } from './rules.ts';

/**
 * The records of a practice: what was booked in, made, handed over. The program writes them, numbered in one row, and
 * nobody edits them: what was wrong is put right by a further record.
 */

const AMOUNT: readonly Dimension[] = ['mass', 'volume', 'count'];

const number = read(parseRecordNumber);
const amount = read((t) => above0(parseQuantity(t, undefined, AMOUNT)));
const weighable = read((t) => above0(parseQuantity(t, undefined, ['mass', 'volume'])));
const money = read(parseMoney);
/** Hexadecimal, of what a file means and not of its bytes: a comment changes no hash. */
const hash = words.regex(/^[0-9a-f]{12,64}$/, 'this is not a hash');

/** What every record begins with; the file is named by its number. */
const every = { record: number, on: date, by: words, note: words.optional() };

/** A herb, a vehicle, or, with neither, spirit for making; as it stands on the shelf. */
const lot = withRules(
  strict({
    kind: z.literal('lot'),
    ...every,
    herb: id.optional(),
    vehicle: id.optional(),
    form: word(FORMS).optional(),
    ratio: solventRatio.optional(),
    spirit: strength(['share v/v', 'share m/m']).optional(),
    glycerol: strength(['share v/v', 'share m/m']).optional(),
    moisture: moisture.optional(),
    of_fresh: yesNo.optional(),
    density: quantity(['mass per volume']).optional(),
    amount: weighable,
    expires: date.optional(),
    price: money.optional(),
    bought: strict({ from: words, lot: words.optional() }).optional(),
    gathered: strict({
      place: words,
      leave: words,
      identified_by: words,
      fresh: quantity(['mass']).optional(),
      dry: quantity(['mass']).optional(),
    }).optional(),
    made: strict({ batch: number }).optional(),
  }),
  (l, { has, wrong }) => {
    if (has('herb') && has('vehicle')) wrong(['vehicle'], 'a lot is of a herb or of a vehicle: keep one');
    if (!has('herb') && !has('vehicle') && !has('spirit'))
      wrong(
        ['kind'],
        'what is this lot of? write herb: or vehicle:, or spirit: alone for spirit to make with',
      );
    const origins = (['bought', 'gathered', 'made'] as const).filter((k) => has(k));
    if (origins.length !== 1) wrong(origins.slice(1, 2), 'say where it is from: bought:, gathered: or made:');
    if (l.herb === undefined && has('form')) wrong(['form'], 'only a herb has a form');
  },
);

const adjustment = withRules(
  strict({
    kind: z.literal('adjustment'),
    ...every,
    of: number,
    reason: word(REASONS),
    less: amount.optional(),
    left: quantity(AMOUNT).optional(),
  }),
  ({ reason }, { has, wrong }) => {
    const amounts = (['less', 'left'] as const).filter((k) => has(k));
    const moves = reason === 'quarantine' || reason === 'released';
    if (moves && amounts.length > 0)
      wrong([amounts[0] ?? 'less'], `${reason} changes no amount: leave it out`);
    if (reason !== undefined && !moves && amounts.length !== 1)
      wrong(amounts.slice(1), 'how much? write less: for what went, or left: for what there is');
  },
);

const draw = strict({ lot: number, amount: weighable });
/** One line of what was made, and the lots that it was taken of; none where none was booked in. */
const line = strict({ of: id, amount: weighable, draws: z.array(draw) });
export type RecordedLine = z.output<typeof line>;

/** What was judged and reckoned with, so that a later change can be told. */
const restsOn = strict({
  formula: hash,
  herbs: z.array(strict({ herb: id, monograph: hash.optional(), limits: hash })),
  answers: hash.optional(),
});
export type RestsOn = z.output<typeof restsOn>;

/** What stands on the label, as it was worked out on the day. */
const label = strict({
  title: words,
  contents: z.array(words),
  strength: words.optional(),
  directions: z.array(words),
  made: date,
  discard_after: date,
  says: z.array(words),
});
export type LabelFacts = z.output<typeof label>;

/** The formula as it was made: its file's text, with the strengths of the lots and with what was changed. */
const remedy = { formula: id, title: words, text: words };

const batch = strict({
  kind: z.literal('batch'),
  ...every,
  ...remedy,
  lines: z.array(line),
  makes: amount,
  cost: z.array(money).optional(),
  rests_on: restsOn,
  label,
});

const judged = strict({
  id: words,
  basis: words,
  level: words,
  counts_as: words,
  say: words,
});
const decided = strict({
  finding: words,
  basis: words,
  because: words,
  by: words,
  on: date,
  until: date.optional(),
});

const dispensing = withRules(
  strict({
    kind: z.literal('dispensing'),
    ...every,
    patient: words,
    asked: date,
    ...remedy,
    amount,
    /** Filled from a batch; else weighed and poured for this person, line by line. */
    batch: number.optional(),
    lines: z.array(line).optional(),
    cost: z.array(money).optional(),
    verdict: word(['clear', 'note', 'decide', 'withhold', 'ask']),
    findings: z.array(judged),
    decisions: z.array(decided),
    rests_on: restsOn,
    label,
    review: date.optional(),
    like: number.optional(),
    changes: z.array(words).optional(),
    corrects: number.optional(),
    because: words.optional(),
  }),
  (_, { has, wrong }) => {
    if (has('batch') === has('lines'))
      wrong(['lines'], 'filled from a batch: or made of lines:, one of the two');
    if (has('corrects') !== has('because')) wrong(['because'], 'a correction says what it corrects, and why');
  },
);

const correction = strict({ kind: z.literal('correction'), ...every, of: number, because: words });

const reaction = strict({
  kind: z.literal('reaction'),
  ...every,
  of: number,
  says: words,
  serious: yesNo.optional(),
});

export const RECORDS = { lot, adjustment, batch, dispensing, correction, reaction } as const;

export const record = z.discriminatedUnion('kind', [
  lot,
  adjustment,
  batch,
  dispensing,
  correction,
  reaction,
]);

export type Kept = z.output<typeof record>;
export type KeptAs<K extends Kept['kind']> = Extract<Kept, { kind: K }>;
