import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { patient } from './scruple.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const DIST = join(ROOT, 'dist');
const { load, loaded } = createRequire(import.meta.url)('../../bin/load.js');

const copy = mkdtempSync(join(tmpdir(), 'scruple-start-'));
for (const part of ['bin', 'dist', 'package.json'])
  cpSync(join(ROOT, part), join(copy, part), { recursive: true });
afterAll(() => rmSync(copy, { recursive: true }));

const kept = (folder: string) => readdirSync(folder).filter((file) => file.endsWith('.cjs.compiled'));

function check(root: string) {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [
      join(root, 'bin/scruple.js'),
      'check',
      'stiff-joints',
      '--on',
      '2026-05-02',
      '--patient',
      patient('S-106'),
    ],
    { cwd: ROOT, encoding: 'utf8' },
  );
  return { status, stdout, stderr };
}

describe('starting from the code that the build kept', () => {
  const bundles = readdirSync(DIST).filter((file) => file.endsWith('.cjs') && file !== 'compile-index.cjs');

  it('was kept of every bundle that a command starts with', () => {
    expect(bundles).toEqual(['convert.cjs', 'core.cjs', 'main.cjs', 'schemas.cjs']);
    expect(kept(DIST)).toEqual(bundles.map((file) => `${file}.compiled`));
  });

  it('begins with a bundle that knows neither numbers nor units, which every start would pay for', () => {
    const main = readFileSync(join(DIST, 'main.cjs'), 'latin1');
    expect(main).not.toContain('[pt_br]');
    expect(main.length).toBeLessThan(70_000);
  });

  it.each(bundles)('is taken by this V8: %s', (file) => {
    load(join(DIST, file));
    expect(loaded.get(join(DIST, file)).script.cachedDataRejected).toBe(false);
  });

  it.each([
    ['damaged', (file: string) => writeFileSync(file, 'not code')],
    ['missing', (file: string) => rmSync(file)],
  ])('does without it when it is %s, and says the same', (_, spoil) => {
    const whole = check(ROOT);
    for (const file of kept(join(copy, 'dist'))) spoil(join(copy, 'dist', file));
    expect(check(copy)).toEqual(whole);
    expect(whole.status).toBe(5);
  });
});
