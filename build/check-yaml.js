// Validates the shipped YAML against the schemas, for whoever writes it: node build/check-yaml.js

import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';

const path = (p) => fileURLToPath(new URL(`../${p}`, import.meta.url));
const out = mkdtempSync(join(tmpdir(), 'scruple-'));
await build({
  entryPoints: [path('src/folder/compile-index.ts')],
  outfile: join(out, 'c.mjs'),
  bundle: true,
  format: 'esm',
  platform: 'node',
  logLevel: 'error',
  banner: { js: "import{createRequire as $cr}from'node:module';const require=$cr(import.meta.url);" },
});
const { compileIndex } = await import(pathToFileURL(join(out, 'c.mjs')).href);
const problems = await compileIndex(path(''), out);
for (const p of problems) console.log(p);
console.log(problems.length === 0 ? 'all files are in order' : `${problems.length} problems`);
