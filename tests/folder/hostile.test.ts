import { describe, expect, it } from 'vitest';
import type { FileKind } from '../../src/folder/kinds.ts';
import type { Problem } from '../../src/folder/problem.ts';
import { MONOGRAPH, PATIENT, problemsOf } from './written.ts';

/** The problems of a file that is meant to do harm, and the time it took. */
async function timed(
  text: string,
  kind: FileKind = 'patient',
): Promise<{ why: readonly Problem[]; ms: number }> {
  const started = performance.now();
  const why = await problemsOf(kind, text);
  return { why, ms: performance.now() - started };
}

/** A tenth of what a file may have, lest the tests take long; whatever grew faster than the file would still show. */
const SIZE = 100_000;
const many = (text: string): string => text.repeat(Math.floor(SIZE / text.length));

describe('very deep nesting', () => {
  it.each([
    ['open brackets', '['.repeat(10_000), 51],
    ['brackets', '['.repeat(10_000) + ']'.repeat(10_000), 51],
    ['maps on one line', '{a: '.repeat(10_000) + '}'.repeat(10_000), 201],
    ['dashes', `${'- '.repeat(10_000)}a`, 101],
    ['question marks', `${'? '.repeat(10_000)}a`, 101],
  ])('of %s is one clear problem', async (_, text, column) => {
    const { why } = await timed(text);
    expect(why).toMatchObject([
      {
        code: 'too-deep',
        line: 1,
        column,
        message: 'lists and maps go more than 50 levels deep here: write them flatter',
      },
    ]);
  });

  it('by indentation too', async () => {
    const text = Array.from({ length: 1000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n');
    expect((await timed(text)).why).toMatchObject([{ code: 'too-deep', line: 51 }]);
  });

  it('of 50 levels is read, and judged', async () => {
    const { why } = await timed(`${PATIENT}deep: ${'['.repeat(49)}${']'.repeat(49)}\n`);
    expect(why).toMatchObject([{ code: 'unknown-key' }]);
  });

  it('is refused wherever it stands', async () => {
    const { why } = await timed(`${PATIENT}medicines: [{name: ${'['.repeat(10_000)}${']'.repeat(10_000)}}]`);
    expect(why).toMatchObject([{ code: 'too-deep', line: 6 }]);
  });
});

describe('piled-up aliases', () => {
  const levels = 'abcdefghij';
  const lists = [...levels]
    .slice(1)
    .map((c, i) => `${c}: &${c} [${Array(9).fill(`*${levels[i]}`).join(', ')}]`);
  const maps = [...levels]
    .slice(1)
    .map((c, i) => `${c}: &${c} {${[...levels.slice(0, 9)].map((k) => `${k}: *${levels[i]}`).join(', ')}}`);

  it.each([
    ['lists', `a: &a [x, x, x, x, x, x, x, x, x]\n${lists.join('\n')}\n`],
    ['maps', `a: &a {a: x, b: x, c: x}\n${maps.join('\n')}\n`],
  ])('of %s are refused at the alias that goes too far, quickly', async (_, text) => {
    const { why, ms } = await timed(text);
    expect(why.filter((p) => p.code === 'too-many-aliases')).toHaveLength(1);
    expect(why.find((p) => p.code === 'too-many-aliases')?.message).toMatch(
      /^with \*[a-i] the aliases repeat too much: write the values out$/,
    );
    expect(ms).toBeLessThan(500);
  });

  it('where values of the right shape are multiplied', async () => {
    const text = `${PATIENT}conditions: [&a {name: a, since: 2020}, ${Array(20_000).fill('*a').join(', ')}]\n`;
    const { why, ms } = await timed(text);
    expect(why).toMatchObject([{ code: 'too-many-aliases', line: 6 }]);
    expect(ms).toBeLessThan(4000);
  });
});

describe('a large file of one thing', () => {
  it.each([
    ['unknown keys', Array.from({ length: 12_000 }, (_, i) => `key${i}: value`).join('\n')],
    ['one key', many('a: b\n')],
    ['unclosed text', `patient: "${many('x')}`],
    ['items', `notes: [${many('a,')}]`],
    ['wrong items', `medicines: [${many('[a],')}]`],
    ['blanks', `patient: "${many(' ')}"`],
    ['comments', many('# comment\n')],
    ['brackets that close nothing', many(']')],
    ['aliases without anchors', `notes: [${many('*a, ')}]`],
    ['control characters', many('\0\n')],
    ['tags', `notes: [${many('!a b, ')}]`],
    ['documents', many('---\n')],
  ])('%s ends soon, with problems', async (_, text) => {
    const { why, ms } = await timed(text);
    expect(why.length).toBeGreaterThan(0);
    for (const p of why.slice(0, 1000)) expect(p.line).toBeGreaterThan(0);
    expect(ms).toBeLessThan(8000);
  });

  it('blanks before a percent sign end at once', async () => {
    const text = `formula: a\ntitle: a\ningredients: [{herb: a, percent: "5${' '.repeat(200_000)}x"}]\npreparation: {kind: powder}\n`;
    const { why, ms } = await timed(text, 'formula');
    expect(why.map((p) => p.message)).toEqual([expect.stringContaining('is too long')]);
    expect(ms).toBeLessThan(1000);
  });
});

describe('keys that every object has', () => {
  const KEYS = [
    '__proto__',
    'constructor',
    'toString',
    'valueOf',
    'hasOwnProperty',
    'prototype',
    '__defineGetter__',
  ];
  const clean = (): void => {
    expect(Object.keys(Object.prototype)).toEqual([]);
    expect(({} as Record<string, unknown>).body).toBeUndefined();
  };

  it.each(KEYS)('%s neither pollutes nor crashes, in any map', async (key) => {
    const source = '{body: a, title: b, reading: practice}';
    await timed(MONOGRAPH.replace('sources:\n', `sources:\n  ${key}: ${source}\n`), 'monograph');
    await timed(MONOGRAPH.replace('{allergy:', `{${key}: {body: a}, allergy:`), 'monograph');
    await timed(
      `${key}: {body: a}\nmeasures: {${key}: 5 g}\nsettled: {${key}: imperial}\nanswers: {${key}: 5 days}\nbalance: {${key}: 5 g}\n`,
      'practice',
    );
    await timed(
      `formula: a\ntitle: a\nmeasures: {${key}: 5 g}\ningredients: [{herb: a, parts: 1, ${key}: 1}]\npreparation: {kind: powder, ${key}: {a: b}}\n`,
      'formula',
    );
    await timed(`${PATIENT}taking: [{${key}: {body: a}}]\n${key}: [a]\n`);
    clean();
  });

  it('__proto__ is never passed over in silence', async () => {
    for (const [kind, text] of [
      [
        'monograph',
        MONOGRAPH.replace('sources:\n', 'sources:\n  __proto__: {body: a, title: b, reading: practice}\n'),
      ],
      ['practice', 'measures: {__proto__: 5 g}\n'],
      ['practice', 'answers: {__proto__: 5 days}\n'],
    ] as const)
      expect((await timed(text, kind)).why).toMatchObject([
        { code: 'unknown-key', message: '"__proto__" cannot be a key: choose another name' },
      ]);
  });

  it('a source or a measure of such a name is one like any other', async () => {
    for (const key of KEYS.slice(1)) {
      const text = MONOGRAPH.replace('  board:', `  ${key}:`).replaceAll('source: board', `source: ${key}`);
      expect((await timed(text, 'monograph')).why, key).toEqual([]);
      expect((await timed(`measures: {${key}: 5 g}\n`, 'practice')).why, key).toEqual([]);
    }
  });
});
