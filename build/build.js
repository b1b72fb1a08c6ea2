// Bundles the program, one chunk per command, and compiles the shipped YAML into dist/index.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));
const root = new URL('../', import.meta.url);
const path = (p) => fileURLToPath(new URL(p, root));

// Everything is made beside dist/ and takes its place at the end, so that a build that fails leaves the old one.
rmSync(path('dist.next'), { recursive: true, force: true });
mkdirSync(path('dist.next/index'), { recursive: true });

// Some imports of the bundled packages cost start-up time for nothing that is used here.
const STAND_INS = {
  // commander loads it for subcommands that are programs of their own, and there are none.
  'node:child_process': 'module.exports = {};',
  // chalk looks for what the terminal can do; here the program decides, and tells it.
  '#supports-color': 'module.exports = { stdout: false, stderr: false };',
};
const standIns = {
  name: 'stand-ins',
  setup(b) {
    b.onResolve({ filter: /^(node:child_process|#supports-color)$/ }, ({ path }) => ({
      path,
      namespace: 'stand-in',
    }));
    b.onLoad({ filter: /.*/, namespace: 'stand-in' }, ({ path }) => ({ contents: STAND_INS[path] }));
  },
};

// One bundle for the start, one a command, one for the YAML parser with the schemas. Each holds all that it needs, because
// at start-up the number of files costs more than their size; what passes between them is text (validate-text.ts).
// biome-ignore format: a list
const COMMANDS = [
  'weigh', 'convert', 'spirit', 'dose', 'check', 'gather', 'dry', 'list', 'show', 'validate', 'lots', 'label', 'dispense', 'trace',
  'schema', 'init',
];
const bundles = {
  main: 'src/cli/main.ts',
  'validate-text': 'src/folder/validate-text.ts',
  'compile-index': 'src/folder/compile-index.ts',
  ...Object.fromEntries(COMMANDS.map((c) => [c, `src/cli/entries/${c}.ts`])),
};
const apart = {
  name: 'apart',
  setup(b) {
    b.onResolve({ filter: /(\.\/entries\/\w+|\/validate-text)\.ts$/ }, ({ path, kind }) =>
      kind === 'dynamic-import' ? { path: `./${basename(path, '.ts')}.cjs`, external: true } : undefined,
    );
  },
};

await build({
  entryPoints: Object.fromEntries(Object.entries(bundles).map(([name, file]) => [name, path(file)])),
  outdir: path('dist.next'),
  outExtension: { '.js': '.cjs' },
  bundle: true,
  // The source is made of ES modules; the bundles are CommonJS, which Node loads in one go and without its module loader.
  format: 'cjs',
  supported: { 'dynamic-import': false },
  platform: 'node',
  target: 'node20',
  minify: true,
  legalComments: 'linked',
  define: { VERSION: JSON.stringify(version), 'import.meta.url': 'HERE' },
  banner: { js: "const HERE=require('node:url').pathToFileURL(__filename).href;" },
  plugins: [standIns, apart],
});

// Read as one byte a sign (bin/load.js), a bundle takes half the memory and its start less time: what is left of other signs,
// in regular expressions, is written as an escape.
for (const name of Object.keys(bundles)) {
  const file = path(`dist.next/${name}.cjs`);
  const text = readFileSync(file, 'utf8');
  const escaped = (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`;
  writeFileSync(file, text.replace(/[^\0-\x7f]/g, escaped));
}

const { compileIndex } = await import(pathToFileURL(path('dist.next/compile-index.cjs')).href);
const problems = await compileIndex(path('.'), path('dist.next/index/'));
if (problems.length > 0) {
  for (const problem of problems) console.error(problem);
  process.exit(1);
}

// What each command does most, so that the code kept of its bundle holds the functions it will call.
const USUAL = [
  'schema monograph',
  'init dist.next/practice',
  'lots --folder dist.next/practice book-in honey --bought them --initials KR|--amount|1 kg',
  'dispense --folder dist.next/practice after-supper --without-lots --initials KR --on 2026-05-02 --discard-after 2026-12-01 --patient tests/practice/patients/S-103.yaml',
  'label 2 --folder dist.next/practice',
  'trace 2 --folder dist.next/practice',
  'show valerian-root',
  'list formulas',
  'validate',
  'convert|1 imp pint|mL',
  'spirit|--to|60 %|--make|500 mL|--from|96 %',
  'dry valerian-root|--fresh|800 g',
  'gather stiff-joints',
  'weigh stiff-joints',
  'dose stiff-joints',
  'check stiff-joints --on 2026-05-02 --patient tests/practice/patients/S-106.yaml',
];
for (const line of USUAL) {
  const args = line.split('|').flatMap((part, i) => (i === 0 ? part.split(' ') : [part]));
  const run = spawnSync(process.execPath, [path('build/keep-compiled.js'), path('dist.next'), ...args], {
    cwd: path('.'),
    stdio: ['ignore', 'ignore', 'pipe'],
    encoding: 'utf8',
  });
  if (run.stderr) throw new Error(`${args.join(' ')} could not be run for its code: ${run.stderr}`);
}

rmSync(path('dist.next/practice'), { recursive: true });
rmSync(path('dist'), { recursive: true, force: true });
renameSync(path('dist.next'), path('dist'));
