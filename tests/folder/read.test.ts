import { execFileSync, spawn } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { compileIndex } from '../../src/folder/compile-index.ts';
import { type Problem, writeProblem } from '../../src/folder/problem.ts';
import { opened, type ReadResult, readDocument, readText } from '../../src/folder/read.ts';
import { NO_MEASURES } from '../../src/measure/parse.ts';
import { changed, FORMULA, MONOGRAPH, PATIENT } from './written.ts';

const scratch = mkdtempSync(join(tmpdir(), 'scruple-read-'));
afterAll(() => rmSync(scratch, { recursive: true }));

function file(name: string, bytes: string | Uint8Array): string {
  const path = join(scratch, name);
  writeFileSync(path, bytes);
  return path;
}

const patient = async (path: string): Promise<ReadResult<unknown>> =>
  readDocument('patient', path, 'shown.yaml');

async function why(path: string): Promise<readonly Problem[]> {
  const read = await patient(path);
  return read.ok ? [] : read.why;
}

describe('a file that cannot be read says why', () => {
  it('missing', async () => {
    expect(await why(join(scratch, 'nobody.yaml'))).toEqual([
      { code: 'not-found', file: 'shown.yaml', message: 'there is no such file' },
    ]);
    expect(await why(join(file('plain.yaml', PATIENT), 'below.yaml'))).toMatchObject([{ code: 'not-found' }]);
    expect(await why(join(scratch, `${'n'.repeat(5000)}.yaml`))).toMatchObject([{ code: 'not-found' }]);
  });

  it('a folder', async () => {
    expect(await why(scratch)).toEqual([
      { code: 'unreadable', file: 'shown.yaml', message: 'this is a folder: name a file in it' },
    ]);
  });

  it('a link that leads round in a circle', async () => {
    symlinkSync('loop.yaml', join(scratch, 'loop.yaml'));
    expect(await why(join(scratch, 'loop.yaml'))).toEqual([
      { code: 'unreadable', file: 'shown.yaml', message: 'this cannot be read (ELOOP)' },
    ]);
  });

  it.skipIf(process.getuid?.() === 0)('one that may not be read', async () => {
    const path = file('secret.yaml', PATIENT);
    chmodSync(path, 0);
    expect(await why(path)).toEqual([
      {
        code: 'unreadable',
        file: 'shown.yaml',
        message: 'you are not allowed to read this file: change its permissions',
      },
    ]);
  });

  it('larger than 1 MiB, and it is not parsed', async () => {
    const large = [
      {
        code: 'too-large',
        file: 'shown.yaml',
        message:
          'this is larger than 1 MiB, the most that a file may have: divide it, or check that it is the right file',
      },
    ];
    const started = performance.now();
    // Were it parsed, the nesting would be complained of.
    expect(await why(file('two.yaml', '['.repeat(2 * 1024 * 1024)))).toEqual(large);
    expect(performance.now() - started).toBeLessThan(1000);
    expect(await why(file('over.yaml', `${PATIENT}#${'x'.repeat(1024 * 1024 - PATIENT.length)}`))).toEqual(
      large,
    );
    expect(await readText('patient', 'x'.repeat(1024 * 1024 + 1), 'shown.yaml', null, '')).toEqual({
      ok: false,
      why: large,
    });
  });

  it('just under 1 MiB is read', async () => {
    expect(
      await why(file('full.yaml', `${PATIENT}#${'x'.repeat(1024 * 1024 - PATIENT.length - 1)}`)),
    ).toEqual([]);
  });

  it.skipIf(process.platform === 'win32')('one without an end', async () => {
    expect(await why('/dev/zero')).toMatchObject([{ code: 'too-large' }]);
    expect(await why('/dev/null')).toMatchObject([{ code: 'empty' }]);
  });

  it.skipIf(process.platform === 'win32')('a pipe is read to its end', async () => {
    const pipe = join(scratch, 'pipe');
    execFileSync('mkfifo', [pipe]);
    const writer = spawn('sh', ['-c', 'printf "%s" "$TEXT" > "$PIPE"'], {
      env: { ...process.env, TEXT: PATIENT, PIPE: pipe },
    });
    expect(await why(pipe)).toEqual([]);
    writer.kill();
  });
});

describe('a file that is not UTF-8', () => {
  it('says where its first odd letter stands', async () => {
    const latin1 = Buffer.concat([
      Buffer.from('patient: P-1\nnotes: [\u00e9t\u00e9 '),
      Buffer.from([0xe9]),
      Buffer.from(']\n'),
    ]);
    expect(await why(file('latin1.yaml', latin1))).toEqual([
      {
        code: 'not-text',
        file: 'shown.yaml',
        line: 2,
        column: 13,
        message: 'this is not UTF-8 text: save the file as UTF-8',
      },
    ]);
  });

  it.each([
    ['an older Windows editor', Buffer.from('\ufeffpatient: P-1\n', 'utf16le'), 1],
    ['a letter cut in two at the end', Buffer.from([0x61, 0x3a, 0x20, 0xc3]), 1],
    ['a picture', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0]), 1],
    ['a surrogate', Buffer.from([0x61, 0x0a, 0xed, 0xa0, 0x80]), 2],
  ])('of %s', async (_, bytes, line) => {
    expect(await why(file('odd.yaml', bytes))).toMatchObject([{ code: 'not-text', line }]);
  });

  it('is told of text from elsewhere too', async () => {
    expect(await readText('patient', null, 'standard input', null, '')).toEqual({
      ok: false,
      why: [
        { code: 'not-text', file: 'standard input', message: 'this is not UTF-8 text: save it as UTF-8' },
      ],
    });
  });

  it('never is one with a mark at its start', async () => {
    expect(await why(file('mark.yaml', `\ufeff${PATIENT}`))).toEqual([]);
  });
});

describe('a problem', () => {
  it('is written as editors read it', () => {
    expect(writeProblem({ code: 'syntax', file: 'a.yaml', line: 3, column: 7, message: 'wrong' })).toBe(
      'a.yaml:3:7: wrong',
    );
    expect(writeProblem({ code: 'not-found', file: 'a.yaml', message: 'there is no such file' })).toBe(
      'a.yaml: there is no such file',
    );
  });
});

describe('the compiled index', () => {
  const home = join(scratch, 'home');
  const out = join(scratch, 'index');
  const index = pathToFileURL(`${out}/`);
  const herb = join(home, 'monographs/marsh-star-herb.yaml');

  /** The index with every file of it answering in a way that no parsing would. */
  function marked(): URL {
    const folder = mkdtempSync(join(scratch, 'marked-'));
    for (const name of readdirSync(out)) {
      const entry = JSON.parse(readFileSync(join(out, name), 'utf8'));
      writeFileSync(join(folder, name), JSON.stringify({ ...entry, value: 'from the index' }));
    }
    return pathToFileURL(`${folder}/`);
  }

  const value = async (
    path: string,
    at: URL | null,
    kind: 'monograph' | 'formula' = 'monograph',
  ): Promise<unknown> => {
    const read = await readDocument(kind, path, 'shown.yaml', NO_MEASURES, at);
    return read.ok ? read.value.value : read.why.map((p) => p.message);
  };

  beforeAll(async () => {
    for (const place of ['monographs/reference', 'formulas'])
      mkdirSync(join(home, place), { recursive: true });
    mkdirSync(out);
    writeFileSync(herb, MONOGRAPH);
    writeFileSync(join(home, 'formulas/marsh-tea.yaml'), FORMULA);
    writeFileSync(
      join(home, 'monographs/reference/uses.yaml'),
      'table: uses\nabout: invented\nuses: [{id: common-cold, term: common cold}]\n',
    );
    expect(await compileIndex(home, out)).toEqual([]);
  });

  it('holds one file for each, named by its bytes', () => {
    expect(readdirSync(out)).toHaveLength(3);
    for (const name of readdirSync(out)) expect(name).toMatch(/^[0-9a-f]{64}\.json$/);
  });

  it('answers as parsing does', async () => {
    expect(await value(herb, index)).toEqual(await value(herb, null));
    expect(await value(herb, index)).toMatchObject({ id: 'marsh-star-herb' });
  });

  it('answers for the same bytes, kind and name', async () => {
    expect(await value(herb, marked())).toBe('from the index');
  });

  it('does not answer for an edited file, not even one letter', async () => {
    const edited = join(scratch, 'marsh-star-herb.yaml');
    writeFileSync(edited, changed(MONOGRAPH, 'family: Stellaceae', 'family: Stellacaee'));
    expect(await value(edited, marked())).toMatchObject({ family: 'Stellacaee' });
    writeFileSync(edited, `${MONOGRAPH}\n`);
    expect(await value(edited, marked())).toMatchObject({ id: 'marsh-star-herb' });
  });

  it('answers for the same bytes elsewhere, and not under another name', async () => {
    const elsewhere = mkdtempSync(join(scratch, 'elsewhere-'));
    copyFileSync(herb, join(elsewhere, 'marsh-star-herb.yaml'));
    copyFileSync(herb, join(elsewhere, 'hill-star-root.yaml'));
    expect(await value(join(elsewhere, 'marsh-star-herb.yaml'), marked())).toBe('from the index');
    expect(await value(join(elsewhere, 'hill-star-root.yaml'), marked())).toEqual([
      'id is "marsh-star-herb" but the file is named hill-star-root.yaml: make them the same',
    ]);
  });

  it('does not answer in another role', async () => {
    expect(await value(herb, marked(), 'formula')).toContain(
      '"ingredients" is missing: write ingredients: and a list',
    );
  });

  it.each([
    ['cut short', (json: string) => json.slice(0, json.length / 2)],
    ['emptied', () => ''],
    ['nothing', () => 'null'],
    ['a list', () => '[]'],
    ['with a number that is none', (json: string) => json.replace('"$n":"1.5"', '"$n":"one"')],
    ['with a unit that is none', (json: string) => json.replace('"$u":"g"', '"$u":"pennyworth"')],
  ])('damaged (%s), gives way to parsing', async (_, damage) => {
    const folder = mkdtempSync(join(scratch, 'damaged-'));
    for (const name of readdirSync(out)) {
      const json = readFileSync(join(out, name), 'utf8');
      if (json.includes('"kind":"monograph"')) expect(damage(json)).not.toBe(json);
      writeFileSync(join(folder, name), damage(json));
    }
    expect(await value(herb, pathToFileURL(`${folder}/`))).toEqual(await value(herb, null));
  });

  it('that is not there gives way to parsing', async () => {
    expect(await value(herb, pathToFileURL(join(scratch, 'nowhere/')))).toEqual(await value(herb, null));
  });

  it('opens the file that was asked for, once', async () => {
    opened.length = 0;
    await value(herb, index);
    expect(opened).toEqual([herb]);
  });

  it('is not compiled from files in disorder, and every one of them is named', async () => {
    const broken = mkdtempSync(join(scratch, 'broken-'));
    for (const place of ['monographs/reference', 'formulas', 'out'])
      mkdirSync(join(broken, place), { recursive: true });
    writeFileSync(join(broken, 'monographs/marsh-star.yaml'), changed(MONOGRAPH, 'cautions:', 'cautoins:'));
    writeFileSync(join(broken, 'formulas/marsh-tea.yaml'), Buffer.from([0x61, 0xff]));
    writeFileSync(join(broken, 'monographs/reference/usages.yaml'), 'table: usages\n');
    expect(await compileIndex(broken, join(broken, 'out'))).toEqual([
      `monographs/marsh-star.yaml:1:1: id is "marsh-star-herb" but the file is named marsh-star.yaml: make them the same`,
      'monographs/marsh-star.yaml:12:1: unknown key "cautoins": did you mean cautions?',
      'formulas/marsh-tea.yaml:1:2: this is not UTF-8 text: save the file as UTF-8',
      'monographs/reference/usages.yaml: no shared table has this name: medicines, medicine-groups, conditions, allergies, uses, levels, questions, water, vehicles, keeping, making, ethanol, gathering, intake-limits, additive-effects, age-rules, legal-limits',
    ]);
    expect(readdirSync(join(broken, 'out'))).toEqual([]);
  });
});
