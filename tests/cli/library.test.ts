import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import remarkGfm from 'remark-gfm';
import remarkParse from 'remark-parse';
import { unified } from 'unified';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { emptyFolder, type Json, json, practiceFolder, removeFolders, run } from './scruple.ts';

/** The library as a working materia medica. */

let folder = '';
let herbs: Json[] = [];
beforeAll(() => {
  folder = practiceFolder();
  herbs = json(['list', 'herbs'], { cwd: folder }).result.herbs;
});
afterAll(removeFolders);

const listed = (...args: string[]): string[] =>
  json(['list', 'herbs', ...args], { cwd: folder }).result.herbs.map((h: Json) => h.herb);
const refused = (...args: string[]): string => {
  const { code, err } = run(args, { cwd: folder });
  expect(code, args.join(' ')).toBe(2);
  return err;
};

test('holds sixty plant parts or more', () => {
  expect(herbs.length).toBeGreaterThanOrEqual(60);
});

describe('herbs are chosen', () => {
  test('by what is known of them, every filter together', () => {
    expect(listed('--family', 'Lamiaceae')).toContain('peppermint-leaf');
    expect(listed('--family', 'lamiaceae', '--part', 'leaf', '--month', 'june')).toContain('lemon-balm-leaf');
    expect(listed('--part', 'bark')).toEqual(
      expect.arrayContaining(['cramp-bark', 'oak-bark', 'willow-bark', 'witch-hazel-bark']),
    );
    expect(listed('--effect', 'sedation')).toContain('hops-flower');
    expect(listed('--constituent', 'salicin')).toContain('willow-bark');
    expect(listed('--use', 'sleep')).toContain('passionflower-herb');
    expect(listed('--not-signed-off')).toHaveLength(herbs.length);
    expect(listed('--signed-off')).toEqual([]);
  });

  test('by a medicine that their cautions speak of, under whatever name', () => {
    const warfarin = listed('--medicine', 'warfarin');
    expect(warfarin).toContain('willow-bark');
    expect(warfarin).not.toContain('chamomile-flower');
    expect(listed('--medicine', 'B01AA03')).toEqual(warfarin);
  });

  test.each([
    [['--use', 'slep'], /did you mean sleep/],
    [['--month', 'juno'], /did you mean june/],
    [['--medicine', 'warfarn'], /did you mean warfarin/],
    [['--family', 'Lamiacea'], /did you mean Lamiaceae/],
  ])('%j is refused with the nearest word', (args, says) => {
    expect(refused('list', 'herbs', ...args)).toMatch(says);
  });

  test('a formula is not chosen by what a herb is', () => {
    expect(refused('list', 'formulas', '--month', 'june')).toMatch(/choose among herbs/);
  });
});

test('figures are counted by how they were read', () => {
  const { readings } = json(['list', '--readings'], { cwd: folder }).result;
  expect(Object.keys(readings)).toEqual([
    'original',
    'product-text',
    'restated',
    'computed',
    'memory',
    'practice',
  ]);
  expect(Object.values<string>(readings).reduce((t, n) => t + Number(n), 0)).toBeGreaterThan(1000);
});

test('several herbs stand side by side, and too many are refused', () => {
  const { out } = run(['show', 'valerian-root', 'hops-flower'], { cwd: folder });
  expect(out).toMatch(/^ +valerian-root +hops-flower$/m);
  expect(refused('show', 'sage-leaf', 'oak-bark', 'ash-leaf', 'aniseed', 'linseed')).toMatch(/room for 4/);
});

test('the sources of a herb, and of the whole library', () => {
  expect(run(['show', 'oak-bark', '--sources'], { cwd: folder }).out).toContain('Quercus');
  const { sources } = json(['show', '--sources'], { cwd: folder }).result;
  expect(sources.length).toBeGreaterThan(200);
});

test('every monograph is read back from Markdown by a parser of it, with its tables whole', () => {
  const parser = unified().use(remarkParse).use(remarkGfm);
  let all = 0;
  for (const { herb } of herbs) {
    const { out, code } = run(['show', herb, '--markdown'], { cwd: folder });
    expect(code, herb).toBe(0);
    const tree = parser.parse(out) as { children: { type: string; children?: { children: unknown[] }[] }[] };
    const tables = tree.children.filter((c) => c.type === 'table');
    all += tables.length;
    for (const t of tables)
      expect(new Set((t.children ?? []).map((r) => r.children.length)).size, herb).toBe(1);
  }
  expect(all).toBeGreaterThan(2 * herbs.length);
});

describe('what is not signed off', () => {
  test('is listed', () => {
    const { signed_off, not_yet } = json(['validate', '--checked'], { cwd: folder }).result;
    expect(signed_off).toEqual([]);
    expect(not_yet).toHaveLength(herbs.length);
  });
});

test('checking one formula opens the files that it needs, and no other monograph', () => {
  const log = join(emptyFolder('opened'), 'opened.txt');
  const hook = join(emptyFolder('hook'), 'hook.cjs');
  writeFileSync(
    hook,
    `const fs = require('node:fs');
     for (const name of ['readFileSync', 'openSync']) {
       const real = fs[name];
       fs[name] = (file, ...more) => {
         if (typeof file === 'string' && /monographs[\\\\/][^\\\\/]+\\.yaml$/.test(file)) fs.appendFileSync(${JSON.stringify(log)}, file + '\\n');
         return real(file, ...more);
       };
     }
     const reals = fs.promises.readFile;
     fs.promises.readFile = (file, ...more) => {
       if (typeof file === 'string' && /monographs[\\\\/][^\\\\/]+\\.yaml$/.test(file)) fs.appendFileSync(${JSON.stringify(log)}, file + '\\n');
       return reals(file, ...more);
     };`,
  );
  run(['check', 'stiff-joints'], { cwd: folder, env: { NODE_OPTIONS: `--require ${hook}` } });
  const opened = readFileSync(log, 'utf8')
    .trim()
    .split('\n')
    .map((f) => f.split(/[\\/]/).pop());
  expect([...new Set(opened)].sort()).toEqual(['meadowsweet-herb.yaml', 'willow-bark.yaml']);
  expect(opened).toHaveLength(2);
});
