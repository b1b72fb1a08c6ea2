// Checks a second, how flat the cost of one stays as rows grow, and the memory that it takes: node tests/bench/caseload.js
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { people } from './people.js';

const root = fileURLToPath(new URL('../../', import.meta.url));
const SIZES = [1000, 10_000, 100_000];

/** Seconds and MB at the most for so many rows, the start of the program with them. */
function judged(rows) {
  return new Promise((done, fail) => {
    const args = ['bin/scruple.js', 'caseload', 'after-supper', '--on', '2026-05-02'];
    const from = process.hrtime.bigint();
    const p = spawn(process.execPath, args, { cwd: root, stdio: ['pipe', 'ignore', 'ignore'] });
    let memory = 0;
    // What the system says of it while it runs; where it says nothing, nothing is told.
    const watch = setInterval(() => {
      try {
        const peak = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${p.pid}/status`, 'utf8'));
        if (peak) memory = Math.max(memory, Number(peak[1]) / 1024);
      } catch {
        clearInterval(watch);
      }
    }, 50);
    p.on('error', fail);
    p.on('close', () => {
      clearInterval(watch);
      done({ seconds: Number(process.hrtime.bigint() - from) / 1e9, memory });
    });
    const source = people(rows, 1);
    const send = () => {
      let batch = '';
      while (batch.length < 1 << 16) {
        const { value, done: over } = source.next();
        if (over) break;
        batch += `${value}\n`;
      }
      if (batch === '') p.stdin.end();
      else if (p.stdin.write(batch)) setImmediate(send);
      else p.stdin.once('drain', send);
    };
    send();
  });
}

/**
 * The figures of the caseload with their targets (design, speed). What a check costs is the time that rows add beyond the
 * first thousand, in which the program is started and its functions are compiled by Node: from 1,000 to 10,000 rows, and
 * from 10,000 to 100,000.
 */
export async function caseloadFigures() {
  const each = [];
  for (const rows of SIZES) each.push({ rows, ...(await judged(rows)) });
  const [, few, many] = each.map((e, i) => {
    const before = each[i - 1];
    return before ? (e.rows - before.rows) / (e.seconds - before.seconds) : e.rows / e.seconds;
  });
  const apart = (100 * Math.max(0, few - many)) / few;
  const { memory } = each.at(-1);
  const rate = (name, value) => ({ name, value, unit: 'checks a second', target: 3000, met: value >= 3000 });
  return [
    {
      name: 'caseload, the first 1,000 rows',
      value: each[0].seconds,
      unit: 'seconds',
      target: '-',
      met: true,
    },
    rate('caseload, from 1,000 to 10,000', few),
    rate('caseload, from 10,000 to 100,000', many),
    { name: 'caseload, how much dearer it grows', value: apart, unit: '%', target: 15, met: apart <= 15 },
    { name: 'caseload, memory at the most', value: memory, unit: 'MB', target: 250, met: memory <= 250 },
  ];
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  for (const f of await caseloadFigures())
    console.log(
      `${f.name.padEnd(40)} ${f.value.toFixed(0).padStart(7)} ${f.unit.padEnd(16)} target ${f.target}  ${f.met ? 'met' : 'not met'}`,
    );
}
