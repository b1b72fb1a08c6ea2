import * as z from 'zod';
import { READINGS } from '../../measure/figure.ts';

/**
 * What every command prints with --json: the envelope, and of each command's result the keys that scripts rely on.
 * A result may hold more than they say; the envelope and a finding may not.
 */

const text = z.string();
const number = z.string().regex(/^-?\d+(?:\.\d+)?$/);
const quantity = z
  .strictObject({
    value: number.describe('a decimal number, as text so that no digit is lost'),
    unit: text.describe('a UCUM code'),
  })
  .meta({ id: 'quantity' });
const range = z.strictObject({ low: quantity.nullable(), high: quantity.nullable() }).meta({ id: 'range' });
const amount = z.union([quantity, range]);
const calendarDay = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const working = { working: z.array(z.unknown()).optional() };

const result = <S extends z.core.$ZodLooseShape>(shape: S) => z.looseObject({ ...shape, ...working });

const levels = ['withhold', 'ask', 'decide', 'note'] as const;

export const finding = z
  .strictObject({
    id: text.min(1),
    basis: text.min(1),
    level: z.enum(levels),
    counts_as: z.enum(levels),
    rule: text.min(1),
    herb: text.nullable(),
    say: text.min(1),
    source: text.nullable(),
    reading: z.enum(READINGS).nullable(),
    figures: z.array(z.union([amount, number])),
    sums: z.array(text),
    decision: z
      .strictObject({ because: text, by: text, on: calendarDay, until: calendarDay.nullable() })
      .nullable(),
    not_counted: text.optional(),
  })
  .meta({ id: 'finding' });

const problem = z
  .strictObject({
    code: text,
    file: text,
    line: z.int().min(1).optional(),
    column: z.int().min(1).optional(),
    message: text,
    excerpt: text.optional(),
  })
  .meta({ id: 'problem' });

const spirit = z.union([
  result({ reachable: z.literal(false), nearest: z.unknown(), says: text }),
  result({ strength: quantity, strength_by_mass: quantity, reading: quantity }),
  result({
    reachable: z.literal(true),
    stock: quantity.nullable(),
    water: quantity.nullable(),
    mixture: quantity,
    strength: quantity,
    contraction: quantity,
    masses: z.looseObject({ stock: quantity.nullable(), water: quantity.nullable(), mixture: quantity }),
  }),
]);

const compared = z.looseObject({
  source: text,
  body: text,
  reading: z.enum(READINGS),
  outcome: text,
  against: z.array(z.looseObject({ measure: text, outcome: text })),
});

const recordNumber = z.string().regex(/^\d{6,}$/);
const link = z.looseObject({
  record: recordNumber,
  kind: text,
  amount: quantity.nullable(),
  further: z.array(z.unknown()),
});

/** The result of each command. A command is a line here. */
const RESULTS = {
  weigh: result({
    formula: text,
    lines: z.array(z.looseObject({ herb: text, exact: quantity, weigh: quantity })),
    total: quantity,
    water: quantity.optional(),
    spirit: z.unknown().optional(),
    doses: amount.optional(),
  }),
  convert: result({ value: number, unit: text }),
  spirit,
  dose: result({
    formula: text,
    patient: text.nullable(),
    lines: z.array(
      z.looseObject({
        herb: text,
        single: amount.nullable(),
        daily: amount.nullable(),
        compared: z.array(compared),
      }),
    ),
    ethanol: z.unknown().optional(),
    supply: z.unknown().optional(),
  }),
  check: result({
    verdict: z.enum([...levels, 'clear']),
    formulas: z.array(text).min(1),
    patient: text.nullable(),
    counts: z.strictObject({ withhold: number, ask: number, decide: number, note: number }),
    summary: z.looseObject({}),
  }),
  gather: result({
    lines: z.array(
      z.looseObject({
        herb: text,
        dry: quantity,
        fresh: amount.nullable(),
        months: z.array(number).nullable(),
      }),
    ),
  }),
  dry: result({ herb: text, moisture: amount }),
  list: result({}),
  show: result({}),
  validate: z.union([
    result({ valid: z.literal(true), files: z.record(text, number) }),
    result({ signed_off: z.array(z.looseObject({ herb: text })), not_yet: z.array(text) }),
  ]),
  caseload: z.union([
    result({
      row: number,
      verdict: z.enum([...levels, 'clear']),
      formulas: z.array(text).min(1),
      patient: text,
    }),
    result({ row: number, verdict: z.null() }),
  ]),
  lots: z.union([
    result({
      lots: z.array(
        z.looseObject({
          number: recordNumber,
          kind: z.enum(['lot', 'batch']),
          of: text,
          left: quantity,
          expires: calendarDay.nullable(),
          state: text,
        }),
      ),
    }),
    result({ record: recordNumber, kind: text, on: calendarDay, by: text }),
  ]),
  label: result({
    title: text,
    contents: z.array(text),
    directions: z.array(text),
    says: z.array(text),
    made: calendarDay,
    discard_after: calendarDay,
    number: text,
    lines: z.array(text),
  }),
  dispense: z.union([
    result({
      record: recordNumber,
      patient: text,
      formula: text,
      amount: quantity,
      batch: recordNumber.nullable(),
    }),
    result({ record: z.null(), verdict: z.enum([...levels, 'clear']), patient: text }),
    result({ record: recordNumber, of: recordNumber }),
  ]),
  trace: z.union([
    result({
      record: recordNumber,
      kind: text,
      patients: z.array(text),
      back: z.array(link),
      on: z.array(link),
    }),
    result({
      of: number,
      changed: z.array(z.looseObject({ record: recordNumber, patient: text, what: z.array(text) })),
    }),
  ]),
  schema: z.union([
    result({ name: text, schema: z.looseObject({}) }),
    result({ schemas: z.array(z.looseObject({ name: text })) }),
  ]),
  init: result({ folder: text, files: z.array(text) }),
};

const envelope = (command: string, of: z.ZodType) =>
  z.strictObject({
    scruple: z.literal(1),
    command: z.literal(command),
    result: of.nullable().describe('null where there are problems'),
    findings: z.array(finding),
    problems: z.array(problem),
  });

const [first, ...others] = Object.entries(RESULTS).map(([command, of]) => envelope(command, of));
if (first === undefined) throw new Error('no command has a result');

export const output = z.discriminatedUnion('command', [first, ...others]);
