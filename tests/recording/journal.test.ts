import { mkdirSync, readdirSync, readFileSync, unlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { write as writeQuantity } from '../../src/measure/write.ts';
import { append, journalOf, snapshot } from '../../src/recording/journal.ts';
import { stockOf } from '../../src/recording/stock.ts';
import { emptyRoot, type Fault, faultyDisk, removeRoots } from './disk.ts';
import { all, batch, lot, write } from './records.ts';

afterAll(removeRoots);

const names = (root: string): string[] => readdirSync(join(root, 'records')).sort();

describe('records', () => {
  it('are numbered in one row, whatever they are of, and read back as they were written', async () => {
    const journal = journalOf(emptyRoot());
    expect(await write(journal, lot('thyme-herb', '500 g'))).toBe('000001');
    expect(await write(journal, batch([{ lot: '000001', amount: '12.5 g' }], '12.5 g'))).toBe('000002');
    const [first, second] = await all(journal);
    expect(first).toMatchObject({ kind: 'lot', record: '000001', herb: 'thyme-herb' });
    expect(second).toMatchObject({ kind: 'batch', record: '000002' });
    expect(writeQuantity(stockOf(await all(journal)).get('000001')?.left as never)).toBe('487.5 g');
  });

  it('have file names that tell nothing but their number', async () => {
    const root = emptyRoot();
    await write(journalOf(root), lot('thyme-herb', '500 g'));
    expect(names(root)).toEqual(['000001.yaml']);
  });

  it('are for the eyes of their owner alone', async () => {
    const root = emptyRoot();
    await write(journalOf(root), lot('thyme-herb', '500 g'));
    const { statSync } = await import('node:fs');
    expect(statSync(join(root, 'records', '000001.yaml')).mode & 0o077).toBe(0);
  });

  it('with one missing in the row are refused, because what is left could not be told', async () => {
    const root = emptyRoot();
    const journal = journalOf(root);
    for (let i = 0; i < 3; i += 1) await write(journal, lot('thyme-herb', '500 g'));
    unlinkSync(join(root, 'records', '000002.yaml'));
    const now = snapshot(journal);
    expect(now.ok ? '' : now.problems[0]?.message).toMatch(
      /record 000002 is not there, though later ones are/,
    );
  });

  it('that somebody spoiled are told with their place, and nothing is written', async () => {
    const root = emptyRoot();
    const journal = journalOf(root);
    await write(journal, lot('thyme-herb', '500 g'));
    const file = join(root, 'records', '000001.yaml');
    writeFileSync(file, readFileSync(file, 'utf8').replace('500 g', '500 grims'));
    await expect(all(journal)).rejects.toThrow(/grims/);
  });

  it('half-written by a program that died long ago are swept away, and what is being written now is not', async () => {
    const root = emptyRoot();
    mkdirSync(join(root, 'records'));
    const stray = join(root, 'records', '.000001-abc123.tmp');
    const fresh = join(root, 'records', '.000001-def456.tmp');
    for (const f of [stray, fresh]) writeFileSync(f, 'half');
    utimesSync(stray, 0, 0);
    await write(journalOf(root), lot('thyme-herb', '500 g'));
    expect(names(root)).toEqual(['.000001-def456.tmp', '000001.yaml']);
  });

  it('say so where a disk gives no file a second name', async () => {
    const root = emptyRoot();
    const { disk } = faultyDisk(Number.POSITIVE_INFINITY, 'before');
    const noLinks = () => {
      throw Object.assign(new Error('no'), { code: 'ENOTSUP' });
    };
    const r = await append(journalOf(root, { ...disk, link: noLinks }), async () => ({
      ok: true,
      value: lot('thyme-herb', '500 g'),
    }));
    expect(r.ok ? '' : r.problems[0]?.message).toMatch(/keep the folder on another disk/);
    expect(names(root)).toEqual([]);
  });

  it('are not written twice where a network says that a link failed which it gave', async () => {
    const root = emptyRoot();
    const { disk } = faultyDisk(Number.POSITIVE_INFINITY, 'before');
    const gaveIt = (from: string, to: string) => {
      disk.link(from, to);
      throw Object.assign(new Error('already'), { code: 'EEXIST' });
    };
    const r = await append(journalOf(root, { ...disk, link: gaveIt }), async () => ({
      ok: true,
      value: lot('thyme-herb', '500 g'),
    }));
    expect(r.ok && r.number).toBe('000001');
    expect(names(root)).toEqual(['000001.yaml']);
  });
});

describe('a fault at every call to the disk', () => {
  const draw = async (journal: ReturnType<typeof journalOf>) =>
    append(journal, async () => ({ ok: true, value: batch([{ lot: '000001', amount: '100 g' }], '100 g') }));

  async function callsOfOne(): Promise<string[]> {
    const root = emptyRoot();
    await write(journalOf(root), lot('thyme-herb', '500 g'));
    const { disk, calls } = faultyDisk(Number.POSITIVE_INFINITY, 'before');
    await draw(journalOf(root, disk));
    return calls;
  }

  it('meets each of them: the file made, written, synced, closed, linked, read back', async () => {
    const calls = await callsOfOne();
    for (const call of [
      'makeFolder',
      'create',
      'write',
      'sync',
      'close',
      'link',
      'remove',
      'syncFolder',
      'read',
    ])
      expect(calls).toContain(call);
  });

  for (const fault of ['before', 'after', 'dead', 'half'] as const satisfies readonly Fault[]) {
    it(`leaves no half-written record and no draw lost or doubled (${fault})`, async () => {
      const { length } = await callsOfOne();
      for (let nth = 1; nth <= length; nth += 1) {
        const root = emptyRoot();
        await write(journalOf(root), lot('thyme-herb', '500 g'));
        const { disk, calls } = faultyDisk(nth, fault);
        const r = await draw(journalOf(root, disk));
        const at = `${fault} at call ${nth}, ${calls[nth - 1]}`;

        // Whoever comes next reads whole records, and as many as it was told of.
        const kept = await all(journalOf(root));
        const told = r.ok || /was recorded as 000002/.test(r.problems[0]?.message ?? '');
        expect(kept.length, at).toBe(told ? 2 : 1);
        expect(names(root).filter((n) => n.endsWith('.yaml')).length, at).toBe(kept.length);
        const left = stockOf(kept).get('000001')?.left;
        expect(writeQuantity(left as never), at).toBe(told ? '400 g' : '500 g');

        // And goes on from there.
        const again = await draw(journalOf(root));
        expect(again.ok && again.number, at).toBe(told ? '000003' : '000002');
      }
    });
  }
});

describe('several at once', () => {
  it('each get a number of their own, and the lot gives what it holds and no gram more', async () => {
    const root = emptyRoot();
    await write(journalOf(root), lot('thyme-herb', '30 g'));
    const one = () =>
      append(journalOf(root), async (now) => {
        const kept = await all(journalOf(root));
        // Others go on while this one thinks.
        await new Promise((done) => setTimeout(done, Math.random() * 5));
        const seen = kept.filter((r) => Number(r.record) <= now.last);
        const left = stockOf(seen).get('000001')?.left.value.toNumber() ?? 0;
        return left >= 1
          ? { ok: true, value: batch([{ lot: '000001', amount: '1 g' }], '1 g') }
          : { ok: false, problems: [{ code: 'bad-value', file: 'lot', message: 'used up' }] };
      });
    const results = await Promise.all(Array.from({ length: 50 }, one));
    const numbers = results.flatMap((r) => (r.ok ? [r.number] : []));
    expect(numbers.length).toBe(30);
    expect(new Set(numbers).size).toBe(30);
    expect(results.filter((r) => !r.ok).every((r) => !r.ok && r.problems[0]?.message === 'used up')).toBe(
      true,
    );
    expect(
      stockOf(await all(journalOf(root)))
        .get('000001')
        ?.left.value.toFixed(),
    ).toBe('0');
  });
});
