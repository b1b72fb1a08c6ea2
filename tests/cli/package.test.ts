import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { emptyFolder, removeFolders } from './scruple.ts';

/** The packed program, as it is installed somewhere else: it is unpacked by tar, as a package manager does. */

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const MOST = 1_500_000;

let folder = '';
let packed = '';
beforeAll(() => {
  folder = emptyFolder('elsewhere');
  const told = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
    cwd: ROOT,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  packed = join(folder, JSON.parse(told)[0].filename);
  execFileSync('tar', ['xzf', packed, '-C', folder]);
});
afterAll(removeFolders);

const run = (...args: string[]) =>
  spawnSync(process.execPath, [join(folder, 'package', 'bin', 'scruple.js'), ...args], {
    cwd: folder,
    encoding: 'utf8',
    input: '',
  });

describe('the package', () => {
  test('is under 1.5 MB', () => {
    expect(statSync(packed).size).toBeLessThan(MOST);
  });

  test('runs nothing at its installation', () => {
    const { scripts } = JSON.parse(readFileSync(join(folder, 'package', 'package.json'), 'utf8'));
    for (const script of ['preinstall', 'install', 'postinstall']) expect(scripts).not.toHaveProperty(script);
  });

  test('needs no other package: what it uses is in its bundles', () => {
    expect(run('convert', '1 imp pint', 'mL').stdout).toContain('568.26125 mL');
    expect(run('init', 'practice', '--pint', 'imperial').status).toBe(0);
    const person =
      'patient: P-1\nasked: 2026-05-02\nborn: 1980\nsex: male\nmedicines: []\nconditions: []\nallergies: []\ntaking: []\n';
    writeFileSync(join(folder, 'P-1.yaml'), person);
    const checked = run(
      'check',
      'after-supper',
      '--patient',
      'P-1.yaml',
      '--on',
      '2026-05-02',
      '--folder',
      'practice',
    );
    expect(checked.stderr).toBe('');
    expect(checked.status).toBe(0);
    expect(run('validate', '--folder', 'practice').status).toBe(0);
  });
});
