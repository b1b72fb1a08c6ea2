import type { Kept } from '../../src/folder/schema/record.ts';
import { append, type Draft, type Journal, readRecords, snapshot } from '../../src/recording/journal.ts';
import { must } from '../must.ts';

/** Short ways to write and read records in tests. */

export const lot = (herb: string, amount: string, more: Record<string, unknown> = {}): Draft<'lot'> => ({
  kind: 'lot',
  on: '2026-05-01',
  by: 'KR',
  herb,
  form: 'dried',
  amount,
  bought: { from: 'an invented supplier' },
  ...more,
});

export const HASH = 'abcdef0123456789';

export const LABEL = {
  title: 'River tea',
  contents: [],
  directions: [],
  made: '2026-05-02',
  discard_after: '2027-05-02',
  says: [],
};

export const batch = (draws: readonly { lot: string; amount: string }[], makes: string): Draft<'batch'> => ({
  kind: 'batch',
  on: '2026-05-02',
  by: 'KR',
  formula: 'river-tea',
  title: 'River tea',
  text: 'formula: river-tea',
  lines: [{ of: 'thyme-herb', amount: makes, draws }],
  makes,
  rests_on: { formula: HASH, herbs: [] },
  label: LABEL,
});

/** A batch that became a tincture on the shelf. */
export const tinctureOf = (batch: string): Draft<'lot'> => ({
  ...lot('thyme-herb', '455 mL', { form: 'tincture', ratio: '1:5 w/v', spirit: '45 % v/v', made: { batch } }),
  bought: undefined,
});

export async function write(journal: Journal, draft: Draft): Promise<string> {
  const r = await append(journal, async () => ({ ok: true, value: draft }));
  if (!r.ok) throw new Error(r.problems.map((p) => p.message).join('; '));
  return r.number;
}

export async function all(journal: Journal): Promise<Kept[]> {
  const now = must(asResult(snapshot(journal)));
  return must(asResult(await readRecords(now, now.numbers)));
}

function asResult<T>(r: { ok: true; value: T } | { ok: false; problems: readonly { message: string }[] }) {
  return r.ok ? r : { ok: false as const, why: r.problems.map((p) => p.message).join('; ') };
}
