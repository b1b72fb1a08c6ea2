// What must hold of whatever is put in: an answer within two seconds, no stack trace, and problems that name their place.
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));
const { load } = createRequire(import.meta.url)('../../bin/load.js');

const LONGEST = 2000;
const NO_MEASURES = '{"settled":[],"own":[]}';

/** Null where all is well, else what is not. */
export async function tryFile({ kind, name, path, text }) {
  const { validateText } = load(join(root, 'dist/schemas.cjs'));
  const from = performance.now();
  let read;
  try {
    read = await validateText(kind, text, path, name, NO_MEASURES);
  } catch (error) {
    return `threw ${error?.stack ?? error}`;
  }
  const took = performance.now() - from;
  if (took > LONGEST) return `took ${Math.round(took)} ms`;
  if (read.ok) return inUse({ kind, name, text });
  if (read.why.length === 0) return 'is refused without a reason';
  for (const p of read.why) {
    if (p.message === '' || p.file !== path) return `says nothing, or of another file: ${JSON.stringify(p)}`;
    if (/[\u0000-\u001f\u007f-\u009f\u202a-\u202e]/.test(p.message + (p.excerpt ?? '')))
      return `prints a control character: ${JSON.stringify(p)}`;
    if (
      /undefined|\[object |NaN\b/.test(p.message.replace(text, '')) &&
      !/undefined|\[object |NaN/.test(text)
    )
      return `says ${p.message}`;
  }
  return null;
}

/** A practice of its own, in which spoiled files that are still in order take the place of the right ones. */
let practice = null;

function practiceFolder() {
  if (practice) return practice;
  practice = mkdtempSync(join(tmpdir(), 'scruple-fuzz-'));
  for (const part of ['monographs', 'formulas'])
    cpSync(join(root, part), join(practice, part), { recursive: true });
  cpSync(join(root, 'tests/practice/patients'), join(practice, 'patients'), { recursive: true });
  process.on('exit', () => rmSync(practice, { recursive: true, force: true }));
  return practice;
}

const PATIENT = 'patients/S-106.yaml';
const COMMANDS = [
  ['weigh', {}],
  ['dose', {}],
  ['check', { patient: [PATIENT] }],
  ['gather', {}],
  ['show', {}],
];

/** What is still in order is used as it would be: it is weighed, dosed, checked and printed, or refused with a reason. */
async function inUse({ kind, name, text }) {
  const place = { formula: `formulas/${name}.yaml`, monograph: `monographs/${name}.yaml`, patient: PATIENT }[
    kind
  ];
  if (place === undefined || name === 'case') return null;
  const folder = practiceFolder();
  const path = join(folder, place);
  const before = readFileSync(path, 'utf8');
  writeFileSync(path, text);
  try {
    const formula =
      kind === 'formula' ? name : kind === 'monograph' ? (usedIn(name) ?? null) : 'stiff-joints';
    for (const [command, more] of COMMANDS) {
      if (formula === null && command !== 'show') continue;
      const { run, emit } = await load(join(root, 'dist/core.cjs')).commands[command]();
      const from = performance.now();
      const options = {
        folder,
        on: '2026-05-02',
        ...more,
        ...(more.patient ? { patient: [join(folder, PATIENT)] } : {}),
      };
      const what = kind === 'monograph' && command === 'show' ? name : formula;
      const outcome = await run([what], options);
      if (outcome.ok) {
        const exit = await emit(command, outcome, {
          ...options,
          output: join(folder, 'out.txt'),
          force: true,
          working: true,
        });
        if (![0, 3, 4, 5].includes(exit)) return `${command} prints nothing and ends with ${exit}`;
        const printed = readFileSync(join(folder, 'out.txt'), 'utf8');
        if (
          /\bNaN\b|\bInfinity\b|undefined|\[object /.test(printed) &&
          !/NaN|Infinity|undefined|\[object/i.test(text)
        )
          return `${command} prints ${printed}`;
      } else if (outcome.problems.length === 0) return `${command} refuses it without a reason`;
      const took = performance.now() - from;
      if (took > LONGEST) return `${command} took ${Math.round(took)} ms`;
    }
    return null;
  } catch (error) {
    return `threw in use: ${error?.stack ?? error}`;
  } finally {
    writeFileSync(path, before);
  }
}

/** A formula that holds this herb. */
function usedIn(herb) {
  const folder = join(root, 'formulas');
  const file = readdirSync(folder).find((f) =>
    readFileSync(join(folder, f), 'utf8').includes(`herb: ${herb},`),
  );
  return file?.replace('.yaml', '');
}

/** The program itself, with a command line that nobody meant. */
export function tryCommand({ args }) {
  const from = performance.now();
  const run = spawnSync(process.execPath, [join(root, 'bin/scruple.js'), ...args], {
    cwd: root,
    input: '',
    encoding: 'utf8',
    timeout: 10_000,
    env: { ...process.env, NO_COLOR: '1' },
  });
  const took = performance.now() - from;
  if (run.error) return `did not run: ${run.error.message}`;
  if (run.status === null) return 'hangs, or was ended by a signal';
  if (![0, 2, 3, 4, 5].includes(run.status)) return `ended with ${run.status}: ${run.stderr}`;
  if (/^\s+at .*:\d+:\d+\)?$/m.test(run.stderr)) return `prints a stack trace: ${run.stderr}`;
  if (run.status === 2 && run.stderr.trim() === '') return 'ends with 2 and says nothing';
  if (/[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u202a-\u202e]/.test(run.stdout + run.stderr))
    return 'prints a control character';
  return took > LONGEST ? `took ${Math.round(took)} ms` : null;
}
