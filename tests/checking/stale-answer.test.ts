import { describe, expect, it } from 'vitest';
import { says, WELL, WOMAN } from './judge.ts';
import { finds, herb, levels, tea } from './small.ts';

const BARRED = '[{when: {medicine: [warfarin]}, says: avoid, why: x, source: a}]';
const KEYS = { cautions: BARRED, pregnancy: '{says: not-recommended, source: a}' };

const stale = (
  person: Record<string, string | undefined>,
  on: string,
  files: Record<string, string> = {},
  keys: Record<string, string> = KEYS,
) => finds('stale-answer', { person, on, files: { ...herb(keys), ...tea(), ...files } });

const asked = (day: string) => ({ ...WOMAN, asked: day });
const questions = async (found: ReturnType<typeof stale>) => (await found).map((f) => f.id.split('/')[2]);

describe('the rule on stale answers', () => {
  it('fires for "not pregnant" of three months ago, and is quiet for last week\'s', async () => {
    expect(await questions(stale(asked('2026-02-01'), '2026-05-02'))).toContain('pregnant');
    expect(await stale(asked('2026-04-25'), '2026-05-02')).toEqual([]);
  });

  it('lets an answer stay good to its last day: 28 days for a pregnancy, 90 for medicines', async () => {
    expect(await questions(stale(asked('2026-04-04'), '2026-05-02'))).toEqual([]);
    const [f, ...more] = await stale(asked('2026-04-03'), '2026-05-02');
    expect(more).toEqual([]);
    expect(f).toMatchObject({ level: 'ask', id: 'stale-answer/formula/pregnant' });
    expect(says(f)).toBe(
      'Are they pregnant? The answer is of 2026-04-03, and stays good for 28 days. It matters for test-herb',
    );
    expect(await questions(stale(asked('2026-02-01'), '2026-05-02'))).not.toContain('medicines');
    expect(await questions(stale(asked('2026-01-31'), '2026-05-02'))).toContain('medicines');
  });

  it("goes by the practice's own times", async () => {
    const own = { 'practice.yaml': 'answers: {pregnant: 60 days, medicines: 10 days}\n' };
    expect(await questions(stale(asked('2026-04-03'), '2026-05-02', own))).toEqual(['medicines']);
  });

  it('asks again only what matters for these herbs and arises for this person', async () => {
    const quiet = { pregnancy: '{says: acceptable, source: a}' };
    expect(await questions(stale(asked('2026-01-01'), '2026-05-02', {}, quiet))).toEqual([]);
    const man = { ...WELL, asked: '2026-02-20' };
    expect(await questions(stale(man, '2026-05-02'))).toEqual([]);
  });

  it('asks nothing again that was never answered', async () => {
    const open = { ...asked('2026-01-01'), medicines: undefined };
    expect(await questions(stale(open, '2026-05-02'))).not.toContain('medicines');
  });

  it('asks which date is right where the answers are of a day after the check', async () => {
    const [f, ...more] = await stale(asked('2027-05-02'), '2026-05-02');
    expect(more).toEqual([]);
    expect(f?.level).toBe('ask');
    expect(says(f)).toContain('2027-05-02, after the day of this check (2026-05-02): which is right?');
  });

  it('still judges by the old answer meanwhile', async () => {
    const person = { ...WELL, asked: '2025-05-02', medicines: '[warfarin]' };
    expect(levels(await stale(person, '2026-05-02'))).toContain('ask');
    const files = { ...herb(KEYS), ...tea() };
    expect(levels(await finds('caution', { person, on: '2026-05-02', files }))).toEqual(['withhold']);
  });
});
