// Bundles the program, one chunk per command, and compiles the shipped YAML into dist/index.
import { mkdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'));
const root = new URL('../', import.meta.url);
const path = (p) => fileURLToPath(new URL(p, root));

// Everything is made beside dist/ and takes its place at the end, so that a build that fails leaves the old one.
rmSync(path('dist.next'), { recursive: true, force: true });
mkdirSync(path('dist.next/index'), { recursive: true });

// commander loads it for subcommands that are programs of their own, and there are none.
const withoutChildProcesses = {
  name: 'without-child-processes',
  setup(b) {
    b.onResolve({ filter: /^node:child_process$/ }, () => ({ path: 'none', namespace: 'none' }));
    b.onLoad({ filter: /.*/, namespace: 'none' }, () => ({ contents: 'module.exports = {};' }));
  },
};

await build({
  entryPoints: { main: path('src/cli/main.ts'), 'compile-index': path('src/folder/compile-index.ts') },
  outdir: path('dist.next'),
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  minify: true,
  keepNames: false,
  legalComments: 'linked',
  define: { VERSION: JSON.stringify(version) },
  chunkNames: '[name]-[hash]',
  // Some bundled packages are CommonJS and ask for Node's own modules with require, which is slow to set up for an
  // ES module: newer Nodes hand them over directly.
  banner: {
    js: "import{createRequire as $cr}from'node:module';const require=(n)=>process.getBuiltinModule?.(n)??$cr(import.meta.url)(n);",
  },
  plugins: [withoutChildProcesses],
});

const { compileIndex } = await import(pathToFileURL(path('dist.next/compile-index.js')).href);
const problems = await compileIndex(path('.'), path('dist.next/index/'));
if (problems.length > 0) {
  for (const problem of problems) console.error(problem);
  process.exit(1);
}

rmSync(path('dist'), { recursive: true, force: true });
renameSync(path('dist.next'), path('dist'));
