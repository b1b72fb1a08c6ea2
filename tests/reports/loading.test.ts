import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { expect, test } from 'vitest';

/** Every package that a file of ours pulls in when it is loaded. */
async function packagesOf(file: string): Promise<string[]> {
  const { metafile } = await build({
    entryPoints: [fileURLToPath(new URL(`../../src/${file}`, import.meta.url))],
    ...{
      bundle: true,
      write: false,
      metafile: true,
      format: 'esm',
      platform: 'node',
      logLevel: 'silent',
      outdir: 'unused',
    },
  } as const);
  const names = Object.keys(metafile.inputs).map(
    (input) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(input)?.[1],
  );
  return [...new Set(names.filter((name) => name !== undefined))].sort();
}

test.each([
  'reports/markdown.ts',
  'reports/json.ts',
  'reports/working.ts',
  'reports/cite.ts',
  'reports/caution.ts',
  'cli/output.ts',
])('%s loads nothing that only a terminal needs', async (file) => {
  expect((await packagesOf(file)).filter((name) => name !== 'decimal.js')).toEqual([]);
});

test('the terminal does load its table and its styles', async () => {
  expect(await packagesOf('reports/terminal.ts')).toEqual(
    expect.arrayContaining(['chalk', 'cli-table3', 'string-width']),
  );
});
