import { cpSync, mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openFolder, readTable } from '../../src/folder/folder.ts';

const root = new URL('../../', import.meta.url).pathname;

async function folderWith(own: string | null) {
  const dir = mkdtempSync(join(tmpdir(), 'scruple-own-'));
  cpSync(join(root, 'monographs', 'reference'), join(dir, 'monographs', 'reference'), { recursive: true });
  cpSync(join(root, 'formulas'), join(dir, 'formulas'), { recursive: true });
  if (own !== null) writeFileSync(join(dir, 'monographs', 'reference', 'uses.own.yaml'), own);
  const folder = await openFolder(dir, undefined);
  if (!folder.ok) throw new Error('the folder does not open');
  return readTable(folder.value, 'uses');
}

const ids = (r: Awaited<ReturnType<typeof folderWith>>) => (r.ok ? r.value.value.uses.map((u) => u.id) : []);

describe("a practitioner's own additions to a shared table", () => {
  it('stand behind the shipped ones, of which none is lost', async () => {
    const shipped = ids(await folderWith(null));
    const grown = ids(await folderWith('table: uses\nuses:\n  - {id: hay-fever, term: hay fever}\n'));
    expect(grown).toEqual([...shipped, 'hay-fever']);
  });

  it('change the hash of the table, so that what was judged with them can be told', async () => {
    const [before, after] = [await folderWith(null), await folderWith('table: uses\nuses: []\n')];
    expect(before.ok && after.ok && before.value.hash !== after.value.hash).toBe(true);
  });

  it('are told of a fault in their own file, at its place', async () => {
    const read = await folderWith('table: uses\nuzes: []\n');
    expect(read.ok ? [] : read.why).toMatchObject([
      { code: 'unknown-key', file: 'monographs/reference/uses.own.yaml', line: 2, column: 1 },
    ]);
  });
});
