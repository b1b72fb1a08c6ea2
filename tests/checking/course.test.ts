import { describe, expect, it } from 'vitest';
import { says, WELL } from './judge.ts';
import { finds, herb, levels, tea } from './small.ts';

const entry = (keys: string, source = 'a') =>
  `{preparation: {kind: infusion}, route: oral, single: 1-3 g, ${keys}, source: ${source}}`;

const found = (
  doses: string,
  days: number | null,
  taking = '[]',
  person: Record<string, string | undefined> = WELL,
) =>
  finds('course', {
    person: { ...person, taking },
    files: {
      ...herb({ doses: `[${doses}]` }),
      ...tea({ directions: `{take: all of the pot, times: 3${days === null ? '' : `, for: ${days} days`}}` }),
    },
  });

const STOP = entry('stop_after: 28 days');

describe('the rule on how long', () => {
  it('fires for five weeks of liquorice, which is stopped after four, and is quiet for a week', async () => {
    const directed = (days: number) => ({
      ...tea({
        ingredients: '[{herb: liquorice-root, parts: 1}]',
        use: 'productive-cough',
        directions: `{take: all of the pot, times: 2, for: ${days} days}`,
      }),
    });
    const five = await finds('course', { person: WELL, files: directed(35) });
    expect(levels(five)).toEqual(['decide', 'note']);
    expect(await finds('course', { person: WELL, files: directed(7) })).toEqual([]);
  });

  it('reaches the last day allowed and not one more', async () => {
    expect(levels(await found(STOP, 28))).toEqual([]);
    expect(levels(await found(STOP, 29))).toEqual(['decide']);
  });

  it('adds what is taken already, by whatever name, and until it was stopped lately', async () => {
    const since = (rest: string) => found(STOP, 14, `[{${rest}}]`);
    expect(levels(await since('herb: test-herb, since: 2026-04-18'))).toEqual([]);
    const [f] = await since('herb: Test herb, since: 2026-04-17');
    expect(f?.level).toBe('decide');
    expect(says(f)).toContain('taken for 29 days in all');
    expect(levels(await since('formula: test-tea, since: 2026-04-17'))).toEqual(['decide']);
    expect(levels(await since('herb: test-herb, since: 2026-04-01, stopped: 2026-04-25'))).toEqual([
      'decide',
    ]);
    expect(levels(await since('herb: test-herb, since: 2025-04-01, stopped: 2025-06-01'))).toEqual([]);
  });

  it('asks since when where it is taken already and nobody said', async () => {
    const [f, ...more] = await found(STOP, 7, '[test-herb]');
    expect(more).toEqual([]);
    expect(f).toMatchObject({ level: 'ask', id: 'course/test-herb/test-tea-since' });
    expect(says(f)).toContain('since when?');
    expect(await found(entry('refer_after: 7 days'), 7, '[test-herb]')).toEqual([]);
  });

  it('asks what is taken already, where an end is stated and the question was left out', async () => {
    const files = { ...herb({ doses: `[${STOP}]` }), ...tea() };
    const open = await finds('unanswered', { person: { ...WELL, taking: undefined }, files });
    expect(open.map((f) => f.id)).toEqual(['unanswered/formula/taking']);
  });

  it('withholds past an end that is stated for safety, even where another end was passed first', async () => {
    const doses = `${entry('stop_after: 14 days')}, ${entry('stop_after: 28 days, limit: safety', 'b')}`;
    expect(levels(await found(doses, 21))).toEqual(['decide']);
    expect(levels(await found(doses, 30))).toEqual(['withhold']);
  });

  it('does not hang on the order in which two sources with one end are listed', async () => {
    const [a, b] = [entry('stop_after: 7 days'), entry('stop_after: 7 days, limit: safety', 'b')];
    const of = async (doses: string) => (await found(doses, 10)).map((f) => [f.id, f.basis, f.level]);
    expect(await of(`${a}, ${b}`)).toEqual(await of(`${b}, ${a}`));
  });

  it('holds an entry to its end even where its amount cannot be compared', async () => {
    const marker = entry('stop_after: 5 days, of: testin', 'b');
    expect(levels(await found(`${entry('times: 1-3')}, ${marker}`, 7))).toEqual(['decide']);
  });

  it("passes over another preparation's end", async () => {
    const powder = '{preparation: {kind: powder}, route: oral, single: 1 g, stop_after: 3 days, source: b}';
    expect(await found(`${entry('times: 1-3')}, ${powder}`, 7)).toEqual([]);
  });

  it('takes directions without an end for too long, and says so', async () => {
    const [f] = await found(STOP, null);
    expect(f?.level).toBe('decide');
    expect(says(f)).toContain('the directions set no end');
  });

  it('sends to a doctor after the time stated, in the words of the person', async () => {
    const [f] = await found(entry('refer_after: 7 days'), 14);
    expect(f?.level).toBe('note');
    expect(says(f)).toBe('see a doctor after 7 days of test-herb if there is no improvement');
  });
});
