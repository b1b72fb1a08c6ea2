// Writes README.md anew with every session as the program prints it: npm run readme. With --bench, the table of speed too.
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { withSessionsRun } from './readme-sessions.js';

const file = fileURLToPath(new URL('../README.md', import.meta.url));
let text = withSessionsRun(readFileSync(file, 'utf8'));

if (process.argv.includes('--bench')) {
  const bench = fileURLToPath(new URL('../tests/bench/bench.js', import.meta.url));
  const run = spawnSync(process.execPath, [bench, '--markdown'], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (run.status !== 0) throw new Error('the bench failed');
  text = text.replace(
    /(<!-- bench -->\n)[\s\S]*?(\n<!-- \/bench -->)/,
    (_, from, to) => from + run.stdout.trimEnd() + to,
  );
}
writeFileSync(file, text);
