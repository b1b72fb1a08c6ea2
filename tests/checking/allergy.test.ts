import { describe, expect, it } from 'vitest';
import { judge, says, told, WELL } from './judge.ts';
import { finds, herb, levels, tea, teaOf } from './small.ts';

const allergic = (...words: string[]) => ({ ...WELL, allergies: JSON.stringify(words) });

const to = (word: string, keys: Record<string, string> = {}) =>
  finds('allergy', { person: allergic(word), files: { ...herb(keys), ...tea() } });

describe('the rule on allergies', () => {
  it('fires for an allergy to liquorice, of which the monograph says nothing, and is quiet for penicillin', async () => {
    const files = teaOf('liquorice-root');
    expect(await finds('allergy', { person: allergic('liquorice'), files })).toMatchObject([
      { level: 'withhold', herb: 'liquorice-root' },
    ]);
    expect(await finds('allergy', { person: allergic('penicillin'), files })).toEqual([]);
  });

  it('knows a plant by its herb, its Latin name and any common name, and calls it one thing', async () => {
    const ids = new Set<string | undefined>();
    for (const word of ['test herb', 'test-herb', 'Testia vera', 'allergy to test herb']) {
      const [f, ...more] = await to(word);
      expect(f?.level, word).toBe('withhold');
      expect(more).toEqual([]);
      ids.add(f?.id);
    }
    expect(ids.size).toBe(1);
  });

  it('asks for an allergy to another plant of the family, and for a pollen that crosses with it', async () => {
    const lamiaceae = { names: '{latin: Testia vera L., common: [test herb]}', family: 'Lamiaceae' };
    const [kin] = await to('thyme', lamiaceae);
    expect(kin?.level).toBe('ask');
    expect(says(kin)).toContain('same family (Lamiaceae)');
    expect(levels(await to('ragweed', { family: 'Asteraceae' }))).toEqual(['ask']);
    expect(await to('ragweed', lamiaceae)).toEqual([]);
  });

  it('withholds for an allergy to the whole family where the table lists the genus under it', async () => {
    const files = teaOf('liquorice-root');
    expect(levels(await finds('allergy', { person: allergic('Fabaceae'), files }))).toEqual(['withhold']);
  });

  it('leaves it to a caution of the monograph that withholds for it here', async () => {
    const said = '[{when: {allergy: [Testia]}, says: contraindicated, why: said, source: a}]';
    expect(await to('test herb', { cautions: said })).toEqual([]);
  });

  it('is not silenced by a caution that does not concern this preparation, or that does not withhold', async () => {
    const barred = '[{when: {allergy: [Testia]}, says: contraindicated, why: x, route: bath, source: a}]';
    expect(levels(await to('test herb', { cautions: barred }))).toEqual(['withhold']);
    const mild = '[{when: {allergy: [Testia]}, says: caution, why: x, source: a}]';
    expect(levels(await to('test herb', { cautions: mild }))).toEqual(['withhold']);
    const both = '[{when: {allergy: [Testia], sex: female}, says: contraindicated, why: x, source: a}]';
    expect(levels(await to('test herb', { cautions: both }))).toEqual(['withhold']);
  });

  it('asks once where a caution on the family and the rule itself would both ask', async () => {
    const c = await judge({ formula: 'after-supper', person: allergic('ragweed') });
    expect(told(c).filter((t) => t.endsWith('chamomile-flower'))).toEqual(['ask allergy chamomile-flower']);
  });

  it('finds one thing for two words that name it', async () => {
    const files = teaOf('chamomile-flower');
    const c = await judge({ formula: 'test-tea', person: allergic('ragweed', 'ambrosia'), files });
    expect(c.findings.filter((f) => f.rule === 'allergy')).toHaveLength(1);
  });

  it('asks which plant is meant where a common name belongs to several genera', async () => {
    const other = herb({ names: '{latin: Otheria alba L., common: [moonwort tea]}' }, 'other-herb');
    const one = herb({ names: '{latin: Testia vera L., common: [moonwort tea]}' });
    const c = await judge({
      formula: 'test-tea',
      person: allergic('moonwort tea'),
      files: { ...one, ...other, ...tea() },
    });
    const [f] = c.findings.filter((x) => x.rule === 'unknown-word');
    expect(f?.level).toBe('ask');
    expect(says(f)).toContain('Otheria or Testia');
  });
});
