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

// One bundle for the start, one for converting, one for all that needs the folder, one for the YAML parser with the schemas.
// Each holds all that it needs, because at start-up the number of files costs more than their size, and what of it is not
// called costs little; what passes between them is text (validate-text.ts).
const bundles = {
  main: 'src/cli/main.ts',
  convert: 'src/cli/entries/convert.ts',
  core: 'src/cli/bundles/core.ts',
  schemas: 'src/cli/bundles/schemas.ts',
  'compile-index': 'src/folder/compile-index.ts',
};
const apart = {
  name: 'apart',
  setup(b) {
    b.onResolve(
      { filter: /(\.\/entries\/convert|\.\/bundles\/\w+|\/validate-text)\.ts$/ },
      ({ path, kind }) => {
        if (kind !== 'dynamic-import') return undefined;
        const name = basename(path, '.ts').replace('validate-text', 'schemas');
        return { path: `./${name}.cjs`, external: true };
      },
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

// What is done most, so that the code kept of each bundle holds the functions that will be called. More of it takes longer to
// read than it saves: what the other commands call besides is compiled when they call it.
const USUAL = [
  ['convert', '1 imp pint', 'mL'],
  ['check', 'stiff-joints', '--on', '2026-05-02', '--patient', 'tests/practice/patients/S-106.yaml'],
];
for (const args of USUAL) {
  const run = spawnSync(process.execPath, [path('build/keep-compiled.js'), path('dist.next'), ...args], {
    cwd: path('.'),
    stdio: ['ignore', 'ignore', 'pipe'],
    encoding: 'utf8',
  });
  if (run.stderr) throw new Error(`${args.join(' ')} could not be run for its code: ${run.stderr}`);
}

rmSync(path('dist'), { recursive: true, force: true });
renameSync(path('dist.next'), path('dist'));
