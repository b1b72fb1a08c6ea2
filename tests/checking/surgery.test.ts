import { describe, expect, it } from 'vitest';
import { says, WELL } from './judge.ts';
import { finds, levels, teaOf } from './small.ts';

/** Two weeks before an operation is common practice without a source; a tea for a week from 2 May ends on 9 May. */
const found = (surgery: string | undefined, herb = 'valerian-root', more = {}) =>
  finds('surgery', { person: { ...WELL, surgery, ...more }, files: teaOf(herb) });

describe('the rule on planned operations', () => {
  it('fires for valerian six days before one, and is quiet where none is planned', async () => {
    const [f, ...more] = await found('2026-05-08');
    expect(more).toEqual([]);
    expect([f?.level, f?.herb]).toEqual(['decide', 'valerian-root']);
    expect(says(f)).toBe(
      'valerian-root brings drowsiness, and an operation is planned for 2026-05-08: it may add to an anaesthetic; it is commonly stopped 14 days before',
    );
    expect(f?.reading).toBe('memory');
    expect(await found('null')).toEqual([]);
  });

  it('counts the time to the operation from the last dose', async () => {
    expect(levels(await found('2026-05-22'))).toEqual(['decide']);
    expect(await found('2026-05-23')).toEqual([]);
  });

  it('fires for herbs that make bleeding likelier, and not for those that do neither', async () => {
    expect(levels(await found('2026-05-08', 'turmeric-rhizome'))).toEqual(['decide']);
    expect(levels(await found('2026-05-08', 'willow-bark'))).toEqual(['decide']);
    expect(await found('2026-05-08', 'chamomile-flower')).toEqual([]);
  });

  it('asks whether another is planned where the one that was named is past', async () => {
    expect(levels(await found('2026-05-01'))).toEqual(['ask']);
  });

  it('takes an operation that is named among the conditions, without a day', async () => {
    const [f] = await found('null', 'valerian-root', { conditions: '[operation planned]' });
    expect(f?.level).toBe('decide');
  });
});
