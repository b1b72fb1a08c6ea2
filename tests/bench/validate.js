// The validation of 2,000 monographs against merely parsing the same bytes with the same YAML library, each in a process of
// its own: node tests/bench/validate.js
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));
const COUNT = 2000;
const PAIRS = 5;

/** A folder of so many monographs, none of which the compiled index knows: copies of the shipped ones under other names. */
export function libraryOf(count) {
  const dir = mkdtempSync(join(tmpdir(), 'scruple-bench-'));
  mkdirSync(join(dir, 'monographs'));
  cpSync(join(root, 'monographs/reference'), join(dir, 'monographs/reference'), { recursive: true });
  cpSync(join(root, 'formulas'), join(dir, 'formulas'), { recursive: true });
  const names = readdirSync(join(root, 'monographs')).filter((f) => f.endsWith('.yaml'));
  const texts = names.map((f) => readFileSync(join(root, 'monographs', f), 'utf8'));
  for (let i = 0; i < count; i += 1) {
    const ships = i < names.length;
    const name = ships ? names[i] : `copy-${i}.yaml`;
    const text = texts[i % texts.length];
    // A formula needs its herbs by their names: the first keep them, with a comment that no index knows.
    const changed = ships ? `# ${i}\n${text}` : text.replace(/^id: .*$/m, `id: copy-${i}`);
    writeFileSync(join(dir, 'monographs', name), changed);
  }
  return dir;
}

const PARSE = `
const { readdirSync, readFileSync } = require('node:fs');
const { parseDocument } = require(process.argv[1]);
for (const place of ['monographs', 'monographs/reference', 'formulas'])
  for (const f of readdirSync(place).filter((x) => x.endsWith('.yaml')))
    parseDocument(readFileSync(place + '/' + f, 'utf8'), { schema: 'failsafe' }).toJS();
`;

export function validateFigures() {
  const dir = libraryOf(COUNT);
  const yaml = fileURLToPath(import.meta.resolve('yaml'));
  const seconds = (args) => {
    const from = process.hrtime.bigint();
    const run = spawnSync(process.execPath, args, {
      cwd: dir,
      stdio: ['ignore', 'ignore', 'pipe'],
      encoding: 'utf8',
    });
    if (run.status !== 0) throw new Error(run.stderr.slice(0, 500));
    return Number(process.hrtime.bigint() - from) / 1e9;
  };
  const ratios = [];
  for (let i = 0; i < PAIRS; i += 1) {
    const parsed = seconds(['-e', PARSE, yaml]);
    ratios.push(seconds([join(root, 'bin/scruple.js'), 'validate']) / parsed);
  }
  rmSync(dir, { recursive: true });
  const value = ratios.sort((a, b) => a - b)[Math.floor(PAIRS / 2)];
  return [
    { name: 'validate, 2,000 monographs', value, unit: 'times parsing', target: 1.3, met: value <= 1.3 },
  ];
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href)
  for (const f of validateFigures()) console.log(f);
