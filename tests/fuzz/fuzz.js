// npm run fuzz [-- --cases N --seed S]: hostile input, the seed printed so that a red run can be run again. Build first.
import { commandLine, drawn, fileCase } from './cases.js';
import { tryCommand, tryFile } from './run.js';

const option = (name, other) => {
  const i = process.argv.indexOf(`--${name}`);
  return i < 0 ? other : Number(process.argv[i + 1]);
};
const cases = option('cases', 10_000);
const seed = option('seed', Math.floor(Math.random() * 2 ** 31));
// A command line costs a start of the program, a file does not.
const commands = Math.ceil(cases / 20);

console.log(`seed ${seed}: ${cases - commands} files, ${commands} command lines`);
let failed = 0;
const tell = (c, why) => {
  if (why === null) return;
  failed += 1;
  if (failed <= 20) console.log(`\n${why}\n${JSON.stringify(c).slice(0, 2000)}`);
};
for (const c of drawn(fileCase, seed, cases - commands)) tell(c, await tryFile(c));
for (const c of drawn(commandLine, seed, commands)) tell(c, tryCommand(c));
console.log(`${cases - failed} clean, ${failed} not (seed ${seed})`);
process.exitCode = failed === 0 ? 0 : 1;
