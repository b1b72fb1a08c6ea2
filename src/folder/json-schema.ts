import * as z from 'zod';
import { NO_MEASURES } from '../measure/parse.ts';
import { type FileKind, REFERENCE_KINDS, schemaOf } from './kinds.ts';
import { output } from './schema/output.ts';
import { RECORDS } from './schema/record.ts';
import { type Written, written } from './schema/written.ts';

/** The JSON Schema of each kind of file and of what the program prints, for editors and scripts. */

export type JsonSchema = Readonly<Record<string, unknown>>;

interface Described {
  readonly says: string;
  readonly title: string;
}

const table = (name: string): Described => ({
  says: 'a shared table of the library',
  title: `The shared table of ${name.replaceAll('-', ' ')}`,
});

/** Every name that has a schema. A kind of file is a line here. */
export const SCHEMAS = {
  monograph: { says: 'a herb: doses, cautions, gathering', title: 'A monograph' },
  formula: { says: 'what is made of which herbs, and how it is taken', title: 'A formula' },
  patient: { says: 'the answers of a person', title: 'A patient file' },
  practice: { says: 'what the practice has settled', title: 'The settings of a practice' },
  record: { says: 'a lot, batch, dispensing or whatever puts one right', title: 'A record' },
  lot: { says: 'the record of a lot', title: 'A lot' },
  ...(Object.fromEntries(REFERENCE_KINDS.map((k) => [k, table(k)])) as Record<
    (typeof REFERENCE_KINDS)[number],
    Described
  >),
  output: { says: 'what every command prints with --json', title: 'What a command prints with --json' },
} as const satisfies Readonly<Record<FileKind | 'output' | 'lot', Described>>;

export type SchemaName = keyof typeof SCHEMAS;

export const isSchemaName = (name: string): name is SchemaName => Object.hasOwn(SCHEMAS, name);

export async function jsonSchema(name: SchemaName): Promise<JsonSchema> {
  const schema = await zodOf(name);
  const { $schema, ...body } = z.toJSONSchema(schema, {
    io: 'input',
    target: 'draft-2020-12',
    unrepresentable: 'any',
    // What the program prints is JSON already; only files are read as text.
    override: name === 'output' ? () => {} : ({ zodSchema, jsonSchema: at }) => asWritten(zodSchema, at),
  });
  return { $schema, $id: `urn:scruple:schema:${name}`, title: SCHEMAS[name].title, ...body };
}

function zodOf(name: SchemaName): Promise<z.ZodType> | z.ZodType {
  if (name === 'output') return output;
  return name === 'lot' ? RECORDS.lot : schemaOf(name, NO_MEASURES);
}

type Node = Record<string, unknown>;

/**
 * An editor reads a bare `2`, `true` or `null` as a number, a truth value and nothing, where the program reads the
 * text that stands there: whatever our parser takes as text must be right in the editor too.
 */
function asWritten(zodSchema: z.core.$ZodType, at: Node): void {
  const shown = written.get(zodSchema as z.ZodType);
  if (at.type === 'object' && isText(at.propertyNames)) delete at.propertyNames;
  if (shown?.oneOrMore) oneOrMore(at);
  else if (shown?.nothing) nothing(at);
  else if (Array.isArray(at.enum) || 'const' in at) choices(at);
  else {
    // What has a pattern of its own, such as a code, begins with a letter: it is never a number to an editor.
    if (zodSchema._zod.def.type === 'string' && at.pattern === undefined)
      at.type = ['string', 'number', 'boolean', 'null'];
    else if (shown?.takes) at.type = typesOf(shown.takes);
    describe(at, shown);
  }
}

const isText = (at: unknown): boolean => {
  const { type, ...more } = (at ?? {}) as Node;
  return (type === 'string' || Array.isArray(type)) && more.enum === undefined;
};

/** Bare numbers of every sort that a field may hold: a share, a count, a month, a year, a zero, one below it. */
const NUMBERS = ['0', '1', '0.5', '0.75', '2', '12', '100', '2026', '-1'];

function typesOf(takes: (text: string) => boolean): string | string[] {
  const types = [
    'string',
    ...(NUMBERS.some(takes) ? ['number'] : []),
    ...(takes('true') ? ['boolean'] : []),
    ...(takes('null') ? ['null'] : []),
  ];
  return types.length === 1 ? 'string' : types;
}

function describe(at: Node, shown: Written | undefined): void {
  if (shown?.pattern !== undefined) at.pattern = shown.pattern;
  if (shown?.maxLength !== undefined) at.maxLength = shown.maxLength;
  if (shown?.says !== undefined) at.description = shown.says;
  if (shown?.examples?.length) at.examples = shown.examples;
}

function oneOrMore(at: Node): void {
  const list = { ...at };
  for (const key of Object.keys(at)) delete at[key];
  at.anyOf = [list.items, list];
}

function nothing(at: Node): void {
  const kinds = (at.anyOf ?? []) as unknown[];
  at.anyOf = [...kinds, { type: 'string', pattern: '^(?:[nN][uU][lL][lL]|~)$' }];
}

/** What an editor makes of a word that YAML knows: `true`, `null`, a number. */
const CORE: Readonly<Record<string, unknown>> = { true: true, false: false, null: null, '~': null };

function choices(at: Node): void {
  const words = Array.isArray(at.enum) ? at.enum : [at.const];
  const others = words.flatMap((w) =>
    typeof w !== 'string' ? [] : w in CORE ? [CORE[w]] : /^\d+(?:\.\d+)?$/.test(w) ? [Number(w)] : [],
  );
  if (others.length === 0) return;
  delete at.const;
  delete at.type;
  at.enum = [...words, ...others];
}

/** The schema as a file of its own. */
export const schemaText = (schema: JsonSchema): string => `${JSON.stringify(schema, null, 2)}\n`;
