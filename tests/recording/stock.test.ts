import { afterAll, describe, expect, it } from 'vitest';
import { write as written } from '../../src/measure/write.ts';
import { journalOf } from '../../src/recording/journal.ts';
import { stockOf } from '../../src/recording/stock.ts';
import { backward, dispensingsIn, forward } from '../../src/recording/trace.ts';
import { emptyRoot, removeRoots } from './disk.ts';
import { all, batch, HASH, LABEL, lot, tinctureOf, write } from './records.ts';

afterAll(removeRoots);

const dispensing = (more: Record<string, unknown>) => ({
  kind: 'dispensing' as const,
  on: '2026-05-03',
  by: 'KR',
  patient: 'P-017',
  asked: '2026-05-02',
  formula: 'river-tea',
  title: 'River tea',
  text: 'formula: river-tea',
  verdict: 'clear',
  findings: [],
  decisions: [],
  rests_on: { formula: HASH, herbs: [] },
  label: LABEL,
  ...more,
});

const adjust = (of: string, reason: string, more: Record<string, unknown> = {}) => ({
  kind: 'adjustment' as const,
  on: '2026-05-04',
  by: 'KR',
  of,
  reason,
  ...more,
});

async function left(journal: ReturnType<typeof journalOf>): Promise<Record<string, string>> {
  return Object.fromEntries(
    [...stockOf(await all(journal))].map(([n, h]) => [Number(n), written(h.left, 'exact')]),
  );
}

describe('what is left', () => {
  it('is what was booked in, less batches, less what is handed over, less what was spilled', async () => {
    const j = journalOf(emptyRoot());
    await write(j, lot('thyme-herb', '500 g'));
    await write(j, batch([{ lot: '000001', amount: '84.5 g' }], '84.5 g'));
    await write(j, dispensing({ batch: '000002', amount: '42 g' }));
    await write(j, adjust('000001', 'spilled', { less: '15.5 g' }));
    expect(await left(j)).toEqual({ 1: '400 g', 2: '42.5 g' });
  });

  it('is what was counted, whatever was reckoned before', async () => {
    const j = journalOf(emptyRoot());
    await write(j, lot('thyme-herb', '500 g'));
    await write(j, adjust('000001', 'counted', { left: '430 g' }));
    await write(j, adjust('000001', 'moths', { less: '30 g' }));
    expect(await left(j)).toEqual({ 1: '400 g' });
  });

  it('comes back where what drew it is cancelled or corrected', async () => {
    const j = journalOf(emptyRoot());
    await write(j, lot('thyme-herb', '500 g'));
    await write(j, batch([{ lot: '000001', amount: '100 g' }], '100 g'));
    const first = await write(j, dispensing({ batch: '000002', amount: '60 g' }));
    await write(
      j,
      dispensing({ batch: '000002', amount: '50 g', corrects: first, because: 'the scale was read wrong' }),
    );
    expect(await left(j)).toEqual({ 1: '400 g', 2: '50 g' });
    await write(j, {
      kind: 'correction',
      on: '2026-05-05',
      by: 'KR',
      of: '000004',
      because: 'never fetched',
    });
    expect((await left(j))['2']).toBe('100 g');
  });

  it('of a batch that became a lot is the lot', async () => {
    const j = journalOf(emptyRoot());
    await write(j, lot('thyme-herb', '100 g'));
    await write(j, batch([{ lot: '000001', amount: '100 g' }], '480 mL'));
    await write(j, tinctureOf('000002'));
    expect(await left(j)).toEqual({ 1: '0 g', 2: '0 mL', 3: '455 mL' });
  });

  it('may not be used in quarantine, until it is released', async () => {
    const j = journalOf(emptyRoot());
    await write(j, lot('thyme-herb', '100 g'));
    await write(j, adjust('000001', 'quarantine'));
    expect(stockOf(await all(j)).get('000001')?.quarantined).toBe(true);
    await write(j, adjust('000001', 'released'));
    expect(stockOf(await all(j)).get('000001')?.quarantined).toBe(false);
  });
});

describe('trace', () => {
  it('goes from a lot through a tincture and a batch to each person, and back to the supplier', async () => {
    const j = journalOf(emptyRoot());
    await write(j, lot('thyme-herb', '100 g'));
    await write(j, lot('thyme-herb', '100 g'));
    await write(j, batch([{ lot: '000001', amount: '100 g' }], '480 mL'));
    await write(j, tinctureOf('000003'));
    await write(j, batch([{ lot: '000004', amount: '200 mL' }], '200 mL'));
    await write(j, dispensing({ patient: 'P-1', batch: '000005', amount: '100 mL' }));
    const second = await write(j, dispensing({ patient: 'P-2', batch: '000005', amount: '100 mL' }));
    await write(
      j,
      dispensing({
        patient: 'P-3',
        amount: '20 g',
        lines: [{ of: 'thyme-herb', amount: '20 g', draws: [{ lot: '000002', amount: '20 g' }] }],
      }),
    );
    const records = await all(j);
    const people = (n: string) => dispensingsIn(forward(n, records)).map((d) => d.patient);
    expect(people('000001')).toEqual(['P-1', 'P-2']);
    expect(people('000002')).toEqual(['P-3']);
    expect(people('000005')).toEqual(['P-1', 'P-2']);
    const path: string[] = [];
    for (let [at] = backward(second, records); at; [at] = at.further) path.push(at.record.record);
    expect(path).toEqual(['000005', '000004', '000003', '000001']);

    await write(j, { kind: 'correction', on: '2026-05-05', by: 'KR', of: second, because: 'never fetched' });
    const now = await all(j);
    expect(dispensingsIn(forward('000001', now)).map((d) => d.patient)).toEqual(['P-1']);
  });

  it('finds what was said of a reaction beside what was handed over', async () => {
    const j = journalOf(emptyRoot());
    await write(j, lot('thyme-herb', '100 g'));
    const d = await write(
      j,
      dispensing({
        amount: '20 g',
        lines: [{ of: 'thyme-herb', amount: '20 g', draws: [{ lot: '000001', amount: '20 g' }] }],
      }),
    );
    await write(j, { kind: 'reaction', on: '2026-05-05', by: 'KR', of: d, says: 'a rash on both arms' });
    expect(forward('000001', await all(j))[0]?.further[0]?.record).toMatchObject({
      kind: 'reaction',
      says: 'a rash on both arms',
    });
  });
});
