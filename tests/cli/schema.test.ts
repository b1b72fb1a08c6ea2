import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { ValidateFunction } from 'ajv';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { jsonSchema, SCHEMAS, schemaText } from '../../src/folder/json-schema.ts';
import { emptyFolder, envelopes, FORMULAS, json, ON, patient, removeFolders, run } from './scruple.ts';

afterAll(removeFolders);

describe('scruple schema', () => {
  test.each(Object.keys(SCHEMAS))(
    '%s: prints the schema and nothing else, wherever one stands',
    async (name) => {
      const ran = run(['schema', name], { cwd: emptyFolder() });
      expect(ran).toEqual({ code: 0, out: schemaText(await jsonSchema(name as never)), err: '' });
      expect(JSON.parse(ran.out).$id).toBe(`urn:scruple:schema:${name}`);
    },
  );

  test('alone lists the names, in a table and as JSON', () => {
    const { code, out } = run(['schema'], { cwd: emptyFolder() });
    expect(code).toBe(0);
    for (const name of Object.keys(SCHEMAS)) expect(out).toMatch(new RegExp(`^${name} +\\S`, 'm'));
    expect(json(['schema']).result.schemas.map((s: { name: string }) => s.name)).toEqual(
      Object.keys(SCHEMAS),
    );
  });

  test('a name that is nearly right gets the right one', () => {
    const { code, out, err } = run(['schema', 'monogaph']);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toBe('command line: there is no schema "monogaph": did you mean monograph?\n');
    expect(run(['schema', 'constructor']).code).toBe(2);
  });

  test('--json wraps it, --output writes it, --markdown sets it apart', () => {
    const plain = run(['schema', 'patient']).out;
    expect(json(['schema', 'patient']).result).toEqual({ name: 'patient', schema: JSON.parse(plain) });
    const file = join(emptyFolder(), 'patient.json');
    expect(run(['schema', 'patient', '--output', file])).toEqual({ code: 0, out: '', err: '' });
    expect(readFileSync(file, 'utf8')).toBe(plain);
    expect(run(['schema', 'uses', '--markdown']).out).toMatch(/^# JSON Schema/);
  });
});

const CALLS: readonly (readonly string[])[] = [
  ...FORMULAS.flatMap((f) => [
    ['weigh', f],
    ['dose', f, '--patient', patient('S-103'), '--on', ON],
    ['check', f, '--patient', patient('S-104'), '--on', ON],
    ['show', f],
  ]),
  ['check', '--all'],
  ['check', 'after-supper', 'still-night', '--on', ON],
  ['convert', '1 imp pint', 'mL'],
  ['convert', '1/3 g', 'mg', '--working'],
  ['spirit', '--to', '60 %', '--make', '500 mL', '--from', '96.3 %'],
  ['spirit', '--to', '96 %', '--make', '500 mL', '--from', '60 %'],
  ['spirit', '--reading', '45 %', '--temperature', '12 C'],
  ['spirit', '--mix', '500 mL of 96 %', '--mix', '300 mL of water'],
  ['gather', 'after-supper'],
  ['gather', 'ginger-rhizome', '--dry', '200 g'],
  ['dry', 'nettle-leaf', '--fresh', '800 g'],
  ['dry', 'nettle-leaf', '--fresh', '800 g', '--dried', '170 g'],
  ['list'],
  ['list', 'herbs', '--readings'],
  ['show', 'ginger-rhizome'],
  ['show', 'willow bark', 'meadowsweet-herb'],
  ['show', '--sources'],
  ['validate'],
  ['validate', '--checked'],
  ['schema'],
  ['schema', 'output'],
  ['weigh', 'no-such-formula'],
  ['convert', '1 pint', 'mL'],
];

describe('the schema of the output', () => {
  let judge: ValidateFunction;
  beforeAll(async () => {
    judge = new Ajv2020({ strict: true, allowUnionTypes: true, discriminator: false }).compile(
      await jsonSchema('output'),
    );
  });

  test.each(CALLS.map((c) => [c]))('is kept by %j', (call) => {
    const printed = envelopes(run([...call, '--json']));
    expect(printed.length).toBeGreaterThan(0);
    for (const envelope of printed) {
      judge(envelope);
      expect(judge.errors ?? []).toEqual([]);
    }
  });

  test('is broken by an envelope that is spoilt', () => {
    const check = json(['check', 'after-supper', '--patient', patient('S-105'), '--on', ON]);
    const weigh = json(['weigh', 'after-supper']);
    const convert = json(['convert', '1 g', 'mg']);
    expect(check.findings.length).toBeGreaterThan(0);
    const [finding] = check.findings;
    const [line] = weigh.result.lines;
    const spoilt = [
      { ...convert, scruple: 2 },
      { ...convert, command: 'mix' },
      { ...convert, more: 1 },
      { ...convert, findings: undefined },
      { ...convert, result: { value: 1000, unit: 'mg' } },
      { ...convert, result: { value: '1,000', unit: 'mg' } },
      { ...convert, result: { value: '1000' } },
      { ...convert, command: 'weigh' },
      { ...convert, problems: [{ code: 'x' }] },
      { ...weigh, result: { ...weigh.result, total: '84 g' } },
      { ...weigh, result: { ...weigh.result, lines: [{ ...line, exact: undefined }] } },
      {
        ...weigh,
        result: { ...weigh.result, lines: [{ ...line, weigh: { value: '1', unit: 'g', of: 1 } }] },
      },
      { ...check, result: { ...check.result, verdict: 'fine' } },
      { ...check, result: { ...check.result, formulas: 'after-supper' } },
      { ...check, findings: [{ ...finding, level: 'red' }] },
      { ...check, findings: [{ ...finding, basis: undefined }] },
      { ...check, findings: [{ ...finding, colour: 'red' }] },
    ].map((e) => JSON.parse(JSON.stringify(e)));
    for (const whole of [check, weigh, convert]) expect(judge(whole)).toBe(true);
    for (const envelope of spoilt)
      expect({ envelope, kept: judge(envelope) }).toEqual({ envelope, kept: false });
  });
});
