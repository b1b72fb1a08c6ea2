// How fast the program is: its start as ratios to bare Node in alternating pairs, so that a slow moment of the machine falls
// on both; validation against parsing; the caseload. `--start-up` measures that alone, `--markdown` prints a table for
// README, `--json FILE` also writes the figures. Run `npm run build` first.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { caseloadFigures } from './caseload.js';
import { validateFigures } from './validate.js';

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

const figures = [
  ...results.map((r) => ({
    name: r.name,
    value: r.ratio,
    unit: 'times bare Node',
    target: r.target,
    met: r.met,
  })),
  ...(process.argv.includes('--start-up') ? [] : [...validateFigures(), ...(await caseloadFigures())]),
];

// Targets of so many a second are met from above, all others from below.
const shown = (f) => (f.value >= 100 ? f.value.toFixed(0) : f.value.toFixed(2));
if (process.argv.includes('--markdown')) {
  console.log('| figure | measured | target | |\n|---|---|---|---|');
  // A page tells ratios: how many a second there are is a matter of the machine.
  for (const f of figures.filter((x) => /^(times|%)/.test(x.unit)))
    console.log(`| ${f.name} | ${shown(f)} ${f.unit} | ${f.target} | ${f.met ? 'met' : 'not met'} |`);
} else {
  console.log('start-up in alternating pairs against bare `node -e 0`, the rest in one run');
  for (const f of figures)
    console.log(
      `${f.name.padEnd(38)} ${shown(f).padStart(7)} ${f.unit.padEnd(16)} target ${String(f.target).padStart(4)}  ${f.met ? 'met' : 'not met'}`,
    );
}
const at = process.argv.indexOf('--json');
if (at > 0) writeFileSync(process.argv[at + 1], `${JSON.stringify({ pairs: PAIRS, figures }, null, 2)}\n`);
