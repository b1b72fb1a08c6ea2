import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { envelopes, ON, patient, practiceFolder, put, removeFolders, run, TEA } from './scruple.ts';

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

const ALIASES = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i']
  .map(
    (name, i, all) =>
      `${name}: &${name} [${Array(10)
        .fill(i === 0 ? 'x' : `*${all[i - 1]}`)
        .join(', ')}]`,
  )
  .join('\n');

/** What is wrong, the file, and the start of what is said; without a place the whole file is meant. */
const FAULTS: readonly (readonly [string, string | Buffer, RegExp])[] = [
  ['syntax', 'formula: river-tea\ntitle: [River\n', /^formulas\/river-tea\.yaml:2:8: /],
  ['a tab', 'formula: river-tea\ndirections:\n\ttake: 1 g\n', /^formulas\/river-tea\.yaml:3:1: .*tab/],
  [
    'an unknown key',
    TEA.replace('ingredients', 'ingredeints'),
    /^formulas\/river-tea\.yaml:3:1: unknown key "ingredeints": did you mean ingredients\?$/m,
  ],
  ['a bad unit', TEA.replace('12 g', '12 grms'), /^formulas\/river-tea\.yaml:5:31: "grms".*did you mean/],
  [
    'a duplicate key',
    TEA.replace('title:', 'title: Brook tea\ntitle:'),
    /^formulas\/river-tea\.yaml:3:1: .*"?title"?.*twice/,
  ],
  ['2 MiB', `${TEA}# ${'x'.repeat(2 * 1024 * 1024)}\n`, /^formulas\/river-tea\.yaml:.* 1 MiB/],
  ['piled-up aliases', `${TEA}${ALIASES}\n`, /^formulas\/river-tea\.yaml:\d+:\d+: /],
  [
    'an id that is not the name of the file',
    TEA.replace('river-tea', 'brook-tea'),
    /^formulas\/river-tea\.yaml:1:1: formula is "brook-tea" but the file is named river-tea\.yaml/,
  ],
  ['nothing in it', '', /^formulas\/river-tea\.yaml:1:1: the file is empty/],
  ['bytes that are no text', Buffer.from([0xff, 0xfe, 0x00]), /^formulas\/river-tea\.yaml:.* UTF-8/],
  ['a tag', TEA.replace('River tea', '!!js/regexp /x/'), /^formulas\/river-tea\.yaml:2:8: .*tag/],
  ['two documents', `${TEA}---\n${TEA}`, /^formulas\/river-tea\.yaml:\d+:\d+: .*one document/],
  ['a decimal comma', TEA.replace('12 g', '"12,5 g"'), /^formulas\/river-tea\.yaml:5:31: .*comma/],
];

describe('a formula with', () => {
  test.each(FAULTS)('%s', (_, text, says) => {
    put(folder, 'formulas/river-tea.yaml', text);
    const started = Date.now();
    for (const command of ['weigh', 'dose', 'check', 'show']) {
      const ran = run([command, 'river-tea'], { cwd: folder });
      expect({ code: ran.code, out: ran.out }, ran.err).toEqual({ code: 2, out: '' });
      expect(ran.err).toMatch(says);
      expect(ran.err).not.toMatch(/^\s+at |Error:|node:/m);
      expect(ran.err.length).toBeLessThan(20_000);
    }
    expect(Date.now() - started).toBeLessThan(15_000);
  });

  test('several faults tells all of them, in the order of the file', () => {
    put(
      folder,
      'formulas/river-tea.yaml',
      TEA.replace('title:', 'titel:').replace('12 g', '12 grms').replace('times: 3', 'times: often'),
    );
    const { err } = run(['weigh', 'river-tea'], { cwd: folder });
    const lines = [...err.matchAll(/^formulas\/river-tea\.yaml:(\d+):/gm)].map((m) => Number(m[1]));
    expect(lines.length).toBeGreaterThanOrEqual(3);
    expect(lines).toEqual([...lines].sort((a, b) => a - b));
  });

  test('a fault is a problem with its place in JSON', () => {
    put(folder, 'formulas/river-tea.yaml', TEA.replace('12 g', '12 grms'));
    const [{ problems }] = envelopes(run(['weigh', 'river-tea', '--json'], { cwd: folder }));
    expect(problems).toEqual([
      expect.objectContaining({
        file: 'formulas/river-tea.yaml',
        line: 5,
        column: 31,
        code: 'bad-value',
      }),
    ]);
  });
});

test('line ends of Windows and a byte order mark are no faults', () => {
  const right = (() => {
    put(folder, 'formulas/river-tea.yaml', TEA);
    return run(['weigh', 'river-tea'], { cwd: folder });
  })();
  expect(right.code).toBe(0);
  for (const text of [TEA.replace(/\n/g, '\r\n'), `\ufeff${TEA}`, `\ufeff${TEA.replace(/\n/g, '\r\n')}`]) {
    put(folder, 'formulas/river-tea.yaml', text);
    expect(run(['weigh', 'river-tea'], { cwd: folder })).toEqual(right);
  }
  const person = readFileSync(patient('S-106'), 'utf8');
  put(folder, 'windows.yaml', `\ufeff${person.replace(/\n/g, '\r\n')}`);
  const args = ['check', 'stiff-joints', '--on', ON, '--patient'];
  expect(run([...args, 'windows.yaml'], { cwd: folder })).toEqual(
    run([...args, patient('S-106')], { cwd: folder }),
  );
});

test('and in a fault they do not shift the place', () => {
  for (const text of [TEA.replace(/\n/g, '\r\n'), `\ufeff${TEA}`]) {
    put(folder, 'formulas/river-tea.yaml', text.replace('12 g', '12 grms'));
    expect(run(['weigh', 'river-tea'], { cwd: folder }).err).toMatch(/^formulas\/river-tea\.yaml:5:31: /);
  }
});

describe('a broken', () => {
  const spoilt = (file: string, from: string | RegExp, to: string): string => {
    const dir = practiceFolder();
    const before = readFileSync(join(dir, file), 'utf8');
    const after = before.replace(from, to);
    expect(after).not.toBe(before);
    put(dir, file, after);
    return dir;
  };

  test('monograph stops whatever needs it, and nothing else', () => {
    const dir = spoilt('monographs/willow-bark.yaml', /^family:/m, 'famliy:');
    for (const args of [
      ['weigh', 'stiff-joints'],
      ['check', 'stiff-joints'],
      ['show', 'willow-bark'],
      ['list'],
    ]) {
      const { code, err } = run(args, { cwd: dir });
      expect(code).toBe(2);
      expect(err).toMatch(/monographs\/willow-bark\.yaml:\d+:1: unknown key "famliy": did you mean family\?/);
    }
    expect(run(['weigh', 'after-supper'], { cwd: dir }).code).toBe(0);
    expect(run(['list', 'formulas'], { cwd: dir }).code).toBe(0);
  });

  test('practice.yaml stops every command that stands in the folder', () => {
    const dir = spoilt('practice.yaml', '0.1 g', '0.1 grms');
    for (const args of [['weigh', 'after-supper'], ['convert', '1 g', 'mg'], ['list'], ['validate']]) {
      const { code, err } = run(args, { cwd: dir });
      expect(code).toBe(2);
      expect(err).toMatch(/^practice\.yaml:\d+:\d+: /);
    }
  });

  test.each([
    ['levels', 'table: levels', 'tabel: levels'],
    ['medicines', 'table: medicines', 'tabel: medicines'],
    ['questions', 'table: questions', 'tabel: questions'],
  ])('table of %s stops the check', (table, from, to) => {
    const dir = spoilt(`monographs/reference/${table}.yaml`, from, to);
    const ran = run(['check', 'stiff-joints', '--medicine', 'warfarin'], { cwd: dir });
    expect({ code: ran.code, out: ran.out }, ran.err).toEqual({ code: 2, out: '' });
    expect(ran.err).toMatch(new RegExp(`monographs/reference/${table}\\.yaml:\\d+:1: unknown key "tabel"`));
  });

  test('patient stops a run for several people before anything is printed', () => {
    const dir = spoilt('patients/S-104.yaml', 'asked: 2026-05-02', 'asked: 02.05.2026');
    const args = ['--patient', 'patients/S-103.yaml', '--patient', 'patients/S-104.yaml'];
    const ran = run(['check', 'after-supper', ...args], { cwd: dir });
    expect({ code: ran.code, out: ran.out }, ran.err).toEqual({ code: 2, out: '' });
    expect(ran.err).toMatch(/^patients\/S-104\.yaml:3:1: .*such as 2026-05-02/);
  });

  test('folder in place of a file is a fault and no crash', () => {
    const dir = practiceFolder();
    mkdirSync(join(dir, 'person.yaml'));
    const { code, err } = run(['check', 'after-supper', '--patient', 'person.yaml'], { cwd: dir });
    expect(code).toBe(2);
    expect(err).toMatch(/^person\.yaml: this is a folder/);
  });
});

describe('validate', () => {
  test('finds nothing wrong with what is shipped, nor with the invented practice', () => {
    const { code, out } = run(['validate'], { cwd: practiceFolder() });
    expect(code).toBe(0);
    expect(out).toContain('Every file is in order');
  });

  test('reports every fault of every file in one go', () => {
    const dir = practiceFolder();
    put(dir, 'formulas/river-tea.yaml', TEA.replace('12 g', '12 grms'));
    put(dir, 'formulas/brook-tea.yaml', TEA.replace('thyme-herb', 'thyme-hreb').replace('river', 'brook'));
    put(dir, 'monographs/odd.yaml', 'id: odd\n');
    const { code, out, err } = run(['validate'], { cwd: dir });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toMatch(/formulas\/river-tea\.yaml:5:31: /);
    expect(err).toMatch(/formulas\/brook-tea\.yaml:4:\d+: .*thyme-hreb.*did you mean thyme-herb/);
    expect(err).toMatch(/monographs\/odd\.yaml:1:1: "names" is missing/);
  });

  test('takes single files, a patient wherever it lies', () => {
    expect(run(['validate', patient('S-101'), patient('S-102')], { cwd: folder }).code).toBe(0);
    put(folder, 'p.yaml', 'patient: P-1\nasked: 2026-05-02\nsxe: male\n');
    expect(run(['validate', 'p.yaml'], { cwd: folder }).err).toMatch(/^p\.yaml:3:1: unknown key "sxe"/);
    expect(run(['validate', 'none.yaml'], { cwd: folder }).err).toMatch(/^none\.yaml: there is no such file/);
  });
});
