import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { whyNot, writeNew } from '../../src/cli/new-files.ts';
import { readText } from '../../src/folder/read.ts';
import { practice } from '../../src/folder/schema/practice.ts';
import { DEFAULT_SETTINGS, settingsOf } from '../../src/folder/settings.ts';
import { practiceText } from '../../src/reports/practice-files.ts';
import { CAUTION, emptyFolder, json, ON, PROGRAM, put, removeFolders, run } from './scruple.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
afterAll(removeFolders);

const everyFile = (dir: string): string[] =>
  readdirSync(dir, { recursive: true, withFileTypes: true })
    .filter((f) => !f.isDirectory())
    .map((f) => join(f.parentPath, f.name).slice(dir.length + 1))
    .sort();

/** The balance that the file names is the one that is reckoned with where none is named. */
const BALANCE = { step: '0.1 g', sensitivity: '0.1 g', permitted_error: '5 %' };

const FLAGS = ['--practice', 'Reed: "House" # 2', '--jurisdiction', 'uk', '--pint', 'imp'];

describe('a new folder', () => {
  let above = '';
  let dir = '';
  let out = '';
  beforeAll(() => {
    above = emptyFolder();
    dir = join(above, 'my practice Ωж');
    const ran = run(['init', 'my practice Ωж', ...FLAGS], { cwd: above });
    expect({ code: ran.code, err: ran.err }).toEqual({ code: 0, err: '' });
    out = ran.out;
  });

  test('is in order as it is', () => {
    expect(run(['validate'], { cwd: dir })).toMatchObject({ code: 0, err: '' });
    expect(run(['validate', 'patients/TEMPLATE.yaml', 'practice.yaml'], { cwd: dir })).toMatchObject({
      code: 0,
    });
    expect(readdirSync(above)).toEqual(['my practice Ωж']);
  });

  test('tells what was made, the caution once, and what is next', () => {
    expect(out.split(CAUTION)).toHaveLength(2);
    expect(out).toContain("cd 'my practice Ωж'\nscruple list\n");
    expect(out).toMatch(/^monograph +\d+$/m);
    expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
  });

  test('holds the settings that were given', () => {
    expect(parse(readFileSync(join(dir, 'practice.yaml'), 'utf8'))).toEqual({
      practice: 'Reed: "House" # 2',
      jurisdiction: 'UK',
      settled: { pint: 'imperial' },
      balance: BALANCE,
    });
    expect(json(['convert', '1 pint', 'mL'], { cwd: dir }).result.value).toBe('568.26125');
  });

  test('every setting that is explained is right once its # is taken away', () => {
    const text = readFileSync(join(dir, 'practice.yaml'), 'utf8').replace(/^# ([a-z_]+: )/gm, '$1');
    const settings = Object.keys(parse(text));
    expect(settings.sort()).toEqual(Object.keys(practice.shape).sort());
    const file = put(emptyFolder(), 'practice.yaml', text);
    expect(run(['validate', file], { cwd: dir })).toMatchObject({ code: 0, err: '' });
  });

  test('every question of the template is right once its # is taken away', () => {
    const template = readFileSync(join(dir, 'patients', 'TEMPLATE.yaml'), 'utf8');
    const text = template.replace(/^# ([a-z_]+: (?!\S+ \S+ \S+ ))/gm, '$1');
    expect(Object.keys(parse(text)).length).toBeGreaterThan(15);
    writeFileSync(join(dir, 'patients', 'P-009.yaml'), text);
    expect(run(['validate', 'patients/P-009.yaml'], { cwd: dir })).toMatchObject({ code: 0, err: '' });
  });

  test('the library in it is the shipped one, byte for byte', () => {
    for (const place of ['monographs', join('monographs', 'reference')]) {
      const names = readdirSync(join(ROOT, place)).filter((f) => f.endsWith('.yaml'));
      expect(readdirSync(join(dir, place)).filter((f) => f.endsWith('.yaml'))).toEqual(names);
      for (const name of names)
        expect(readFileSync(join(dir, place, name)).equals(readFileSync(join(ROOT, place, name)))).toBe(true);
    }
    expect(readdirSync(join(dir, 'formulas'))).toEqual(['after-supper.yaml', 'hushed-hours.yaml']);
    for (const name of readdirSync(join(dir, 'formulas')))
      expect(
        readFileSync(join(dir, 'formulas', name)).equals(readFileSync(join(ROOT, 'formulas', name))),
      ).toBe(true);
  });

  test('a check in it takes the library from the compiled index, without the YAML parser', () => {
    // Settings of one's own have to be parsed; where there are none, nothing has.
    const loaded = (cwd: string, folder: string): string[] => {
      const script = `const { load, loaded } = require(${JSON.stringify(join(ROOT, 'bin', 'load.js'))});
        load(${JSON.stringify(join(ROOT, 'dist', 'main.cjs'))}).main(['check', 'hushed-hours', '--on', '${ON}', '--folder', ${JSON.stringify(folder)}])
          .then(() => console.error([...loaded.keys()].join('\\n')));`;
      return spawnSync(process.execPath, ['-e', script], { cwd, encoding: 'utf8' }).stderr.trim().split('\n');
    };
    const parser = join(ROOT, 'dist', 'schemas.cjs');
    expect(loaded(above, dir)).toContain(parser);
    const bare = join(emptyFolder(), 'bare');
    run(['init', bare]);
    spawnSync('rm', [join(bare, 'practice.yaml')]);
    const seen = loaded(above, bare);
    expect(seen).toContain(join(ROOT, 'dist', 'core.cjs'));
    expect(seen).not.toContain(parser);
  });

  test('the template, filled in, is checked', () => {
    const text = readFileSync(join(dir, 'patients', 'TEMPLATE.yaml'), 'utf8');
    expect(
      run(['check', 'after-supper', '--patient', 'patients/TEMPLATE.yaml', '--on', ON], { cwd: dir }).code,
    ).toBe(4);
    const filled = text
      .replace('patient: TEMPLATE', 'patient: P-001')
      .replace('asked: 2000-01-01', 'asked: 2026-05-01')
      .replace('# born: 1984-02-11', 'born: 1984-02-11')
      .replace('# sex: female', 'sex: male')
      .replace('# conditions: []', 'conditions: []')
      .replace('# medicines: []', 'medicines: [none]')
      .replace('# allergies: []', 'allergies: []');
    writeFileSync(join(dir, 'patients', 'P-001.yaml'), filled);
    const { code, out: said } = run(
      ['check', 'after-supper', '--patient', 'patients/P-001.yaml', '--on', ON, '--json'],
      { cwd: dir },
    );
    expect(code).toBe(0);
    expect(JSON.parse(said).result).toMatchObject({ verdict: 'note', patient: 'P-001' });
  });

  test('git keeps people and records out, and the template in', () => {
    spawnSync('git', ['init', '-q'], { cwd: dir });
    const ignored = (file: string) =>
      spawnSync('git', ['check-ignore', '-q', file], { cwd: dir }).status === 0;
    expect(ignored('patients/P-001.yaml')).toBe(true);
    expect(ignored('records/2026/x.yaml')).toBe(true);
    expect(ignored('patients/TEMPLATE.yaml')).toBe(false);
    expect(ignored('practice.yaml')).toBe(false);
  });

  test('each kind of file is tied to a schema that is there, and ours are in order under theirs', () => {
    const tied = JSON.parse(readFileSync(join(dir, '.vscode', 'settings.json'), 'utf8'))['yaml.schemas'];
    expect(tied['schemas/monograph.json']).toBe('monographs/*.yaml');
    expect(tied['schemas/patient.json']).toBe('patients/*.yaml');
    for (const schema of Object.keys(tied)) expect(existsSync(join(dir, schema))).toBe(true);
    for (const [file, at] of [
      ['practice.yaml', '.'],
      ['patients/TEMPLATE.yaml', 'patients'],
    ] as const) {
      const text = readFileSync(join(dir, file), 'utf8');
      const named = /^# yaml-language-server: \$schema=(\S+)$/m.exec(text)?.[1] ?? '';
      const schema = JSON.parse(readFileSync(join(dir, at, named), 'utf8'));
      const judge = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(schema);
      expect(judge(parse(text)), JSON.stringify(judge.errors)).toBe(true);
    }
  });

  test('is not made a second time, and stays as it was', () => {
    put(dir, 'practice.yaml', 'practice: Mine\n');
    const before = everyFile(dir);
    const again = run(['init', dir]);
    expect({ code: again.code, out: again.out }).toEqual({ code: 2, out: '' });
    expect(again.err).toMatch(
      /already holds practice\.yaml, patients\/TEMPLATE\.yaml, \.gitignore and \d+ more/,
    );
    expect(run(['init', dir, '--force']).code).toBe(2);
    expect(everyFile(dir)).toEqual(before);
    expect(readFileSync(join(dir, 'practice.yaml'), 'utf8')).toBe('practice: Mine\n');
  });
});

test('a new practice reckons as one that has settled nothing', async () => {
  const text = practiceText({ practice: null, jurisdiction: null, pint: null });
  const read = await readText('practice', text, 'practice.yaml', null, 'hash');
  expect(read.ok && settingsOf(read.value.value)).toEqual(DEFAULT_SETTINGS);
});

describe('where a folder can be made', () => {
  test('in a folder that is there and holds something else, and several deep', () => {
    const dir = emptyFolder();
    put(dir, 'README', 'mine');
    expect(run(['init', dir]).code).toBe(0);
    expect(readFileSync(join(dir, 'README'), 'utf8')).toBe('mine');
    expect(run(['init', join(dir, 'a', 'b')]).code).toBe(0);
  });

  test('without options nothing is settled, and the file is in order', () => {
    const dir = join(emptyFolder(), 'new');
    const { result, command } = json(['init', dir]);
    expect(command).toBe('init');
    expect(result).toMatchObject({ folder: dir, counts: { formula: '2', 'shared table': '17' } });
    expect(result.files.toSorted()).toEqual(everyFile(dir));
    expect(parse(readFileSync(join(dir, 'practice.yaml'), 'utf8'))).toEqual({ balance: BALANCE });
    expect(run(['list'], { cwd: dir }).code).toBe(0);
  });

  test.each([
    ['one file of it', (dir: string) => put(dir, '.gitignore', 'x'), /already holds \.gitignore: /],
    [
      'a link for a folder',
      (dir: string) => symlinkSync(emptyFolder(), join(dir, 'monographs')),
      /monographs in .* is a link/,
    ],
    [
      'a link that leads nowhere',
      (dir: string) => symlinkSync('/nowhere/x', join(dir, 'practice.yaml')),
      /already holds practice\.yaml/,
    ],
    ['a file for a folder', (dir: string) => put(dir, 'formulas', 'x'), /formulas in .* is a file/],
  ])('not over %s', (_, spoil, says) => {
    const dir = emptyFolder();
    spoil(dir);
    const before = readdirSync(dir);
    const { code, out, err } = run(['init', dir]);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(says);
    expect(readdirSync(dir)).toEqual(before);
  });

  test('not in a file, below one, or without a name', () => {
    const file = put(emptyFolder(), 'file', 'x');
    expect(run(['init', file]).err).toContain('is a file, not a folder: choose another name');
    expect(run(['init', join(file, 'below')])).toMatchObject({ code: 2, out: '' });
    expect(run(['init', '']).err).toContain('name the folder to be made');
    expect(run(['init', 'x'.repeat(300)]).err).toContain('the name is too long');
    for (const { err } of [run(['init', join(file, 'below')]), run(['init', '/proc/scruple'])])
      expect(err).not.toMatch(/A fault of the program|ENOTDIR|ENOENT|undefined/);
    expect(run(['init'], { cwd: emptyFolder() }).code).toBe(2);
  });

  test.each([
    [['--jurisdiction', 'UKK'], /--jurisdiction: "UKK" is not one of UK, IE/],
    [['--pint', 'small'], /--pint: a pint cannot be "small": write imperial or US/],
    [['--practice', ' '], /--practice: nothing is written/],
    [['--pnit', 'imp'], /Did you mean --pint\?/],
  ])('%j is refused before anything is made', (flags, says) => {
    const cwd = emptyFolder();
    const { code, err } = run(['init', 'new', ...flags], { cwd });
    expect(code).toBe(2);
    expect(err).toMatch(says);
    expect(readdirSync(cwd)).toEqual([]);
  });
});

describe('a write that fails half-way', () => {
  // The second file makes the first, which is a file, a folder: that is found out only when it is written.
  const FAILING = new Map([
    ['deep/down/a.yaml', 'a'],
    ['b', 'b'],
    ['b/c.yaml', 'c'],
  ]);

  test('takes away again what was written, and nothing else', async () => {
    const dir = emptyFolder();
    put(dir, 'mine', 'mine');
    mkdirSync(join(dir, 'deep'));
    expect(await writeNew(dir, FAILING)).toMatchObject({ ok: false });
    expect(everyFile(dir)).toEqual(['mine']);
    expect(readdirSync(dir).sort()).toEqual(['deep', 'mine']);
    const made = join(dir, 'new', 'er');
    expect((await writeNew(made, FAILING)).ok).toBe(false);
    expect(existsSync(join(dir, 'new'))).toBe(false);
  });

  test('did not come of what can be told before', () => {
    expect(whyNot(emptyFolder(), FAILING)).toBeNull();
  });
});

describe('on a terminal', () => {
  const hasScript = spawnSync('script', ['--version']).status === 0;
  test.skipIf(!hasScript)('it asks for what the options leave out, again where the answer is wrong', () => {
    const cwd = emptyFolder();
    const call = `${process.execPath} ${PROGRAM} init new --practice Reed`;
    const { stdout } = spawnSync('script', ['-qec', call, '/dev/null'], {
      cwd,
      input: 'Mars\nie\n\n',
      encoding: 'utf8',
      timeout: 15_000,
    });
    expect(stdout).toContain('Whose law holds here');
    expect(stdout).toContain('"Mars" is not one of UK');
    expect(parse(readFileSync(join(cwd, 'new', 'practice.yaml'), 'utf8'))).toEqual({
      practice: 'Reed',
      jurisdiction: 'IE',
      balance: BALANCE,
    });
  });
});
