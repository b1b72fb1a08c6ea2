// How long the program takes to start, as ratios to bare Node in alternating pairs, so that a slow moment of the
// machine falls on both. Prints a table; `--json FILE` also writes the figures. Run `npm run build` first.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));
const PAIRS = 21;

const FLAGS =
  '--age 42y --sex male --condition none --medicine warfarin --allergy none --taking none --surgery none'.split(
    ' ',
  );
const PATIENT = ['--on', '2026-05-02', '--patient', 'tests/practice/patients/S-106.yaml'];

/** A library of 5,000 monographs: those that ship, and copies of them under other names. */
function largeLibrary() {
  const dir = mkdtempSync(join(tmpdir(), 'scruple-bench-'));
  for (const part of ['monographs', 'formulas'])
    cpSync(join(root, part), join(dir, part), { recursive: true });
  const names = readdirSync(join(dir, 'monographs')).filter((f) => f.endsWith('.yaml'));
  const texts = names.map((f) => readFileSync(join(dir, 'monographs', f), 'utf8'));
  for (let i = names.length; i < 5000; i += 1)
    writeFileSync(
      join(dir, 'monographs', `copy-${i}.yaml`),
      texts[i % texts.length].replace(/^id: .*$/m, `id: copy-${i}`),
    );
  return dir;
}

const large = largeLibrary();

const ROWS = [
  { name: 'convert', target: 1.5, args: ['convert', '1 imp pint', 'mL'] },
  { name: 'weigh', target: 1.9, args: ['weigh', 'stiff-joints'] },
  { name: 'check, nobody named', target: 2.2, args: ['check', 'stiff-joints'] },
  { name: 'check, 5,000 monographs', target: 2.2, args: ['check', 'stiff-joints', '--folder', '@large'] },
  { name: 'check, a person by flags', target: 2.2, args: ['check', 'stiff-joints', ...FLAGS] },
  // A patient's file is never in the compiled index: the YAML parser and the schemas have to be loaded for it.
  { name: 'check, a patient file', target: 2.2, args: ['check', 'stiff-joints', ...PATIENT] },
];

function seconds(args) {
  const from = process.hrtime.bigint();
  const run = spawnSync(process.execPath, args, { cwd: root, stdio: 'ignore' });
  const to = process.hrtime.bigint();
  if (run.error || run.status === 1 || run.status === 2)
    throw new Error(`node ${args.join(' ')} ended with ${run.status}`);
  return Number(to - from) / 1e9;
}

const median = (list) => [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)];

function ratio(args) {
  const ratios = [];
  for (let i = 0; i < PAIRS; i += 1) {
    const bare = seconds(['-e', '0']);
    ratios.push(seconds(args) / bare);
  }
  return median(ratios);
}

seconds(['-e', '0']);
const results = ROWS.map(({ name, target, args }) => {
  const command = ['bin/scruple.js', ...args.map((a) => (a === '@large' ? large : a))];
  seconds(command);
  const measured = ratio(command);
  return { name, ratio: measured, target, met: measured <= target };
});

rmSync(large, { recursive: true });

console.log('start-up against bare `node -e 0`, median of alternating pairs');
for (const r of results) {
  console.log(
    `${r.name.padEnd(26)} ${r.ratio.toFixed(2).padStart(6)}  target ${r.target.toFixed(1)}  ${r.met ? 'met' : 'not met'}`,
  );
}
const at = process.argv.indexOf('--json');
if (at > 0) writeFileSync(process.argv[at + 1], `${JSON.stringify({ pairs: PAIRS, results }, null, 2)}\n`);
