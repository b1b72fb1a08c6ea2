import { mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileIndex } from '../../src/folder/compile-index.ts';
import { type FileKind, type Holds, REFERENCE_KINDS } from '../../src/folder/kinds.ts';
import { writeProblem } from '../../src/folder/problem.ts';
import { readDocument } from '../../src/folder/read.ts';
import { settingsOf } from '../../src/folder/settings.ts';
import { type Measures, NO_MEASURES } from '../../src/measure/parse.ts';

const root = new URL('../../', import.meta.url).pathname;
const out = mkdtempSync(join(tmpdir(), 'scruple-shipped-'));
const index = pathToFileURL(`${out}/`);
afterAll(() => rmSync(out, { recursive: true }));

const yamlIn = (place: string): string[] =>
  readdirSync(join(root, place))
    .filter((f) => f.endsWith('.yaml'))
    .map((f) => join(place, f));

const kindOfTable = (file: string): FileKind => {
  const kind = REFERENCE_KINDS.find((k) => k === basename(file, '.yaml'));
  if (!kind) throw new Error(`${file} is no shared table`);
  return kind;
};

const FILES: [FileKind, string][] = [
  ...yamlIn('monographs').map((f): [FileKind, string] => ['monograph', f]),
  ...yamlIn('formulas').map((f): [FileKind, string] => ['formula', f]),
  ...yamlIn('monographs/reference').map((f): [FileKind, string] => [kindOfTable(f), f]),
];

async function valueIn<K extends FileKind>(
  kind: K,
  file: string,
  at: URL | null,
  measures: Measures = NO_MEASURES,
): Promise<Holds[K]> {
  const read = await readDocument(kind, join(root, file), file, measures, at);
  if (!read.ok) throw new Error(read.why.map(writeProblem).join('\n'));
  return read.value.value;
}

let problems: string[];
beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  problems = await compileIndex(root, out);
});

describe('every shipped file', () => {
  it('is in order', () => {
    expect(problems).toEqual([]);
  });

  it('has its place in the index', () => {
    expect(readdirSync(out)).toHaveLength(FILES.length);
  });

  it.each(FILES)('the %s %s is the same from the index as from its text', async (kind, file) => {
    expect(await valueIn(kind, file, index)).toEqual(await valueIn(kind, file, null));
  });

  it('every kind of shared table is there', () => {
    expect(
      yamlIn('monographs/reference')
        .map((f) => basename(f, '.yaml'))
        .sort(),
    ).toEqual([...REFERENCE_KINDS].sort());
  });
});

describe('the invented practice', () => {
  it('is in order', async () => {
    expect(
      await readDocument('practice', join(root, 'tests/practice/practice.yaml'), 'practice.yaml'),
    ).toMatchObject({ ok: true });
  });

  it.each(yamlIn('tests/practice/patients'))('%s is in order, and bears its own code', async (file) => {
    expect(await valueIn('patient', file, null)).toMatchObject({ patient: basename(file, '.yaml') });
  });

  it('reads every shipped formula with its own measures as anybody does', async () => {
    const { measures } = settingsOf(await valueIn('practice', 'tests/practice/practice.yaml', null));
    expect(measures.own.size).toBeGreaterThan(0);
    for (const f of yamlIn('formulas'))
      expect(await valueIn('formula', f, null, measures)).toEqual(await valueIn('formula', f, index));
  });
});
