import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { ValidateFunction } from 'ajv';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { jsonSchema, SCHEMAS, type SchemaName } from '../../src/folder/json-schema.ts';
import { type FileKind, REFERENCE_KINDS } from '../../src/folder/kinds.ts';
import { FORMULA, MONOGRAPH, PATIENT, problemsOf } from './written.ts';

const root = new URL('../../', import.meta.url).pathname;
const NAMES = Object.keys(SCHEMAS) as SchemaName[];
const judges = new Map<string, ValidateFunction>();

/** A text as an editor reads it, and as the program does. */
const READINGS = { core: (t: string) => parse(t), failsafe: (t: string) => parse(t, { schema: 'failsafe' }) };

function faults(kind: string, value: unknown): string[] {
  const judge = judges.get(kind);
  if (!judge) throw new Error(`no schema ${kind}`);
  return judge(value) ? [] : (judge.errors ?? []).map((e) => `${e.instancePath} ${e.message}`);
}

beforeAll(async () => {
  for (const name of NAMES) {
    const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true });
    judges.set(name, ajv.compile(await jsonSchema(name)));
  }
});

const filesIn = (place: string): string[] =>
  readdirSync(join(root, place))
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => join(place, f));

const SHIPPED: [FileKind, string][] = [
  ...filesIn('monographs').map((f): [FileKind, string] => ['monograph', f]),
  ...filesIn('formulas').map((f): [FileKind, string] => ['formula', f]),
  ...filesIn('monographs/reference').map((f): [FileKind, string] => [basename(f, '.yaml') as FileKind, f]),
  ...filesIn('tests/practice/patients').map((f): [FileKind, string] => ['patient', f]),
  ['practice', 'tests/practice/practice.yaml'],
];

describe('the JSON Schemas', () => {
  it('stand for every kind of file, each under its own name', async () => {
    expect(NAMES).toEqual(expect.arrayContaining(['monograph', 'formula', 'patient', 'practice', 'output']));
    expect(NAMES).toEqual(expect.arrayContaining([...REFERENCE_KINDS]));
    for (const name of NAMES)
      expect(await jsonSchema(name)).toMatchObject({
        $schema: 'https://json-schema.org/draft/2020-12/schema',
        $id: `urn:scruple:schema:${name}`,
        title: expect.stringMatching(/\S/),
      });
  });

  it.each(SHIPPED)('%s: %s is in order, read as an editor reads it and as the program does', (kind, file) => {
    const text = readFileSync(join(root, file), 'utf8');
    for (const [how, reader] of Object.entries(READINGS))
      expect({ how, faults: faults(kind, reader(text)) }).toEqual({ how, faults: [] });
  });
});

const PRACTICE = 'practice: Reed House\njurisdiction: UK\nbalance: {step: 0.1 g}\nbottles: [100 mL]\n';

/** A small file, a passage of it, and what a slip of the hand makes of that. */
const SLIPS: [FileKind, string, string, string][] = [
  ['monograph', MONOGRAPH, 'family: ', 'famly: '],
  ['monograph', MONOGRAPH, 'family: Stellaceae\n', ''],
  ['monograph', MONOGRAPH, 'part: herb', 'part: [herb]'],
  ['monograph', MONOGRAPH, 'part: herb', 'part: {herb: 1}'],
  ['monograph', MONOGRAPH, 'checked: null\n', ''],
  ['monograph', MONOGRAPH, 'checked: null', 'checked: yes'],
  ['monograph', MONOGRAPH, 'checked: null', 'checked: {by: AB}'],
  ['monograph', MONOGRAPH, 'common: [marsh star]', 'common: []'],
  ['monograph', MONOGRAPH, 'common: [marsh star]', 'common: {marsh: star}'],
  ['monograph', MONOGRAPH, 'reading: practice', 'reading: guessed'],
  ['monograph', MONOGRAPH, ', reading: practice', ''],
  ['monograph', MONOGRAPH, 'kind: infusion', 'kind: infuson'],
  ['monograph', MONOGRAPH, 'route: oral', 'route: by mouth'],
  ['monograph', MONOGRAPH, 'single: 1.5-4 g', 'single: [1.5, 4]'],
  ['monograph', MONOGRAPH, 'single: 1.5-4 g', 'singel: 1.5-4 g'],
  ['monograph', MONOGRAPH, 'says: contraindicated', 'says: forbidden'],
  ['monograph', MONOGRAPH, 'why: invented, ', ''],
  ['monograph', MONOGRAPH, 'interactions: not-read', 'interactions: unread'],
  ['monograph', MONOGRAPH, 'interactions: not-read\n', ''],
  ['monograph', MONOGRAPH, 'id: marsh-star-herb', 'id: Marsh Star'],
  ['monograph', MONOGRAPH, 'id: marsh-star-herb', 'id: con'],
  [
    'monograph',
    MONOGRAPH,
    'interactions: not-read',
    'interactions: not-read\ngather: {months: may, source: board}',
  ],
  ['formula', FORMULA, 'title: Marsh tea\n', ''],
  ['formula', FORMULA, 'title: Marsh tea', 'titel: Marsh tea'],
  ['formula', FORMULA, 'parts: 2', 'parts: [2]'],
  ['formula', FORMULA, 'parts: 2', 'parts: true'],
  ['formula', FORMULA, 'parts: 2', 'part: 2'],
  ['formula', FORMULA, 'kind: decoction', 'kind: decocted'],
  ['formula', FORMULA, 'kind: decoction, ', ''],
  ['formula', FORMULA, 'herb: 12 g', 'herb: 12'],
  ['formula', FORMULA, 'water: 400 mL, ', ''],
  ['formula', FORMULA, 'boil: 10 min', 'macerate: 10 min'],
  ['formula', FORMULA, 'boil: 10 min', 'boil: 10 min, covered: 1'],
  ['formula', FORMULA, 'take: 150 mL', 'take: {amount: 150 mL}'],
  ['formula', FORMULA, 'directions: ', 'route: sideways\ndirections: '],
  ['patient', PATIENT, 'asked: 2026-05-02\n', ''],
  ['patient', PATIENT, 'asked: 2026-05-02', 'asked: 20260502'],
  ['patient', PATIENT, 'medicines: [salbutamol]', 'medicines: salbutamol'],
  ['patient', PATIENT, 'medicines: [salbutamol]', 'medicine: [salbutamol]'],
  ['patient', PATIENT, 'medicines: [salbutamol]', 'medicines: [{nmae: salbutamol}]'],
  ['patient', PATIENT, 'born: 1984-02-11', 'sex: woman'],
  ['patient', PATIENT, 'surgery: null', 'surgery: [2026-06-01]'],
  ['patient', PATIENT, 'surgery: null', 'drives: 3'],
  ['patient', PATIENT, 'surgery: null', 'weight: 68'],
  ['practice', PRACTICE, 'jurisdiction: UK', 'jurisdiction: Mars'],
  ['practice', PRACTICE, 'bottles: [100 mL]', 'bottles: []'],
  ['practice', PRACTICE, 'bottles: [100 mL]', 'bottles: [100]'],
  ['practice', PRACTICE, 'step: 0.1 g', 'steps: 0.1 g'],
];

describe('a slip that a JSON Schema can see', () => {
  it.each([
    ['monograph', MONOGRAPH],
    ['formula', FORMULA],
    ['patient', PATIENT],
    ['practice', PRACTICE],
  ] as [FileKind, string][])('is not in the %s before it', async (kind, text) => {
    expect(faults(kind, READINGS.core(text))).toEqual([]);
    expect(await problemsOf(kind, text)).toEqual([]);
  });

  it.each(SLIPS)('%s: is refused by the schema and by the program (%#)', async (kind, text, from, to) => {
    expect(text).toContain(from);
    const spoilt = text.replace(from, to);
    expect(await problemsOf(kind, spoilt)).not.toEqual([]);
    expect(faults(kind, READINGS.core(spoilt))).not.toEqual([]);
  });
});

/** Ways to write what the program takes, which an editor reads as a number, a truth value or nothing. */
const WELL: [FileKind, string, string, string][] = [
  ['formula', FORMULA, 'parts: 2', 'parts: 1/3'],
  ['formula', FORMULA, 'parts: 2', 'parts: "2"'],
  ['formula', FORMULA, 'title: Marsh tea', 'title: 1984'],
  ['formula', FORMULA, 'title: Marsh tea', 'title: true'],
  ['formula', FORMULA, 'title: Marsh tea', 'title: Marsh tea\nversion: 3'],
  ['formula', FORMULA, 'boil: 10 min', 'boil: 10 min, covered: yes'],
  ['formula', FORMULA, 'boil: 10 min', 'boil: 10 min, covered: false'],
  ['patient', PATIENT, 'patient: P-1', 'patient: 17'],
  ['patient', PATIENT, 'born: 1984-02-11', 'born: 1984'],
  ['patient', PATIENT, 'surgery: null', 'surgery: ~'],
  ['patient', PATIENT, 'surgery: null', 'surgery: 2026-06-01'],
  ['patient', PATIENT, 'surgery: null', 'pregnant: true'],
  ['patient', PATIENT, 'surgery: null', 'pregnant: 30 weeks'],
  ['monograph', MONOGRAPH, 'common: [marsh star]', 'common: marsh star'],
  ['monograph', MONOGRAPH, 'times: 3', 'times: 2-3'],
  [
    'monograph',
    MONOGRAPH,
    'interactions: not-read',
    'interactions: not-read\ngather: {months: [5, 6], source: board}',
  ],
];

it.each(WELL)('%s: what the program takes, an editor takes (%#)', async (kind, text, from, to) => {
  expect(text).toContain(from);
  const changed = text.replace(from, to);
  expect(await problemsOf(kind, changed)).toEqual([]);
  for (const reader of Object.values(READINGS)) expect(faults(kind, reader(changed))).toEqual([]);
});
