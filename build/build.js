// Bundles the program, one chunk per command, and compiles the shipped YAML into dist/index.
import { mkdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { isBuiltin } from 'node:module';
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
  // Imported as a module, Node opens all three standard streams to list what it exports.
  'node:process': 'module.exports = globalThis.process;',
  // chalk looks for what the terminal can do; here the program decides, and tells it.
  '#supports-color': 'module.exports = { stdout: false, stderr: false };',
};
const standIns = {
  name: 'stand-ins',
  setup(b) {
    b.onResolve({ filter: /.*/ }, ({ path }) => {
      const name = isBuiltin(path) ? `node:${path.replace(/^node:/, '')}` : path;
      return name in STAND_INS || isBuiltin(name) ? { path: name, namespace: 'stand-in' } : undefined;
    });
    b.onLoad({ filter: /.*/, namespace: 'stand-in' }, ({ path }) => ({
      contents: STAND_INS[path] ?? `module.exports = require$('${path}');`,
    }));
  },
};

// One bundle for the start, one a command, one for the YAML parser with the schemas. Each holds all that it needs, because
// at start-up the number of files costs more than their size; what passes between them is text (validate-text.ts).
const COMMANDS = ['weigh', 'convert', 'spirit', 'dose', 'check', 'list', 'show', 'validate'];
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
      kind === 'dynamic-import'
        ? { path: `./${path.replace(/^.*\//, '').replace(/\.ts$/, '.js')}`, external: true }
        : undefined,
    );
  },
};

await build({
  entryPoints: Object.fromEntries(Object.entries(bundles).map(([name, file]) => [name, path(file)])),
  outdir: path('dist.next'),
  bundle: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  minify: true,
  legalComments: 'linked',
  define: { VERSION: JSON.stringify(version) },
  // Node's own modules are taken as they are: to import one, Node first lists all that it exports, and to require one, it
  // sets up a loader. Newer Nodes hand them over directly.
  banner: {
    js: "import{createRequire as $cr}from'node:module';const require$=(n)=>process.getBuiltinModule?.(n)??$cr(import.meta.url)(n);",
  },
  plugins: [standIns, apart],
});

const { compileIndex } = await import(pathToFileURL(path('dist.next/compile-index.js')).href);
const problems = await compileIndex(path('.'), path('dist.next/index/'));
if (problems.length > 0) {
  for (const problem of problems) console.error(problem);
  process.exit(1);
}

rmSync(path('dist'), { recursive: true, force: true });
renameSync(path('dist.next'), path('dist'));
