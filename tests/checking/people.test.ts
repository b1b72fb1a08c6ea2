import { describe, expect, it } from 'vitest';
import { judge, of, says, told, WELL, WOMAN } from './judge.ts';

describe('willow bark', () => {
  it('is withheld from someone on warfarin', async () => {
    const c = await judge({ formula: 'stiff-joints', person: { ...WELL, medicines: '[warfarin]' } });
    expect(c.verdict).toBe('withhold');
    expect(of(c, 'caution', 'willow-bark')[0]).toMatchObject({ level: 'withhold' });
    expect(says(of(c, 'caution', 'willow-bark')[0])).toContain('warfarin');
  });

  it('comes out clean for an adult with no medicines, no conditions and every question answered', async () => {
    const c = await judge({ formula: 'stiff-joints', person: WELL });
    expect(['clear', 'note']).toContain(c.verdict);
    expect(c.findings.every((f) => f.level === 'note')).toBe(true);
  });

  it('is withheld in the third trimester and is a decision before it', async () => {
    const at = (weeks: string) => judge({ formula: 'stiff-joints', person: { ...WOMAN, pregnant: weeks } });
    expect(of(await at('30 weeks'), 'stage', 'willow-bark')[0]?.level).toBe('withhold');
    expect(of(await at('12 weeks'), 'stage', 'willow-bark')[0]?.level).toBe('decide');
  });

  it('counts the weeks of a pregnancy on from the day it was asked', async () => {
    const person = { ...WOMAN, pregnant: '26 weeks' };
    const early = await judge({ formula: 'stiff-joints', person, on: '2026-05-02' });
    const later = await judge({ formula: 'stiff-joints', person, on: '2026-05-20' });
    expect(of(early, 'stage', 'willow-bark')[0]?.level).toBe('decide');
    expect(of(later, 'stage', 'willow-bark')[0]?.level).toBe('withhold');
  });
});

describe('questions', () => {
  it('asks a woman of thirty about pregnancy, and a man of seventy not', async () => {
    const woman = await judge({ formula: 'quiet-evening', person: { ...WOMAN, pregnant: undefined } });
    expect(of(woman, 'unanswered').map((f) => f.id)).toContain('unanswered/formula/pregnant');
    expect(woman.verdict).toBe('ask');
    const man = await judge({ formula: 'quiet-evening', person: { ...WELL, born: '1956-03-01' } });
    expect(of(man, 'unanswered')).toEqual([]);
  });

  it('does not ask what cannot matter: an unknown beside a no is quiet', async () => {
    // Chamomile and sweet fennel name no medicine that an operation or driving would bring up.
    const c = await judge({ formula: 'after-supper', person: { ...WELL, drives: undefined } });
    expect(of(c, 'unanswered')).toEqual([]);
  });

  it('asks for medicines, conditions and allergies that were left out', async () => {
    const c = await judge({
      formula: 'stiff-joints',
      person: { ...WELL, medicines: undefined, conditions: undefined, allergies: undefined },
    });
    expect(of(c, 'unanswered').map((f) => f.id.split('/')[2])).toEqual(
      expect.arrayContaining(['medicines', 'conditions', 'allergies']),
    );
  });

  it('asks again when an answer is too old, by the time that the practice sets', async () => {
    const person = { ...WOMAN, asked: '2026-04-20' };
    expect(of(await judge({ formula: 'quiet-evening', person }), 'stale-answer')).toEqual([]);
    const later = await judge({ formula: 'quiet-evening', person, on: '2026-05-25' });
    expect(of(later, 'stale-answer').map((f) => f.id)).toContain('stale-answer/formula/pregnant');
    const own = { 'practice.yaml': 'answers: {pregnant: 60 days}\n' };
    const lenient = await judge({ formula: 'quiet-evening', person, on: '2026-05-25', files: own });
    expect(of(lenient, 'stale-answer').map((f) => f.id)).not.toContain('stale-answer/formula/pregnant');
  });
});

describe('words that are not understood', () => {
  it.each([
    ['medicines', 'warfarn', 'warfarin'],
    ['conditions', 'asthmma', 'asthma'],
    ['allergies', 'asperin', 'aspirin'],
  ])('asks about a misspelt word among the %s and suggests', async (list, word, near) => {
    const c = await judge({ formula: 'after-supper', person: { ...WELL, [list]: `[${word}]` } });
    expect(c.verdict).toBe('ask');
    expect(says(of(c, 'unknown-word')[0])).toContain(near);
  });

  it('asks which is meant by a word with several meanings', async () => {
    const c = await judge({ formula: 'after-supper', person: { ...WELL, medicines: '[AZT]' } });
    expect(of(c, 'unknown-word')[0]).toMatchObject({ level: 'ask' });
  });

  it('counts a word that the practitioner looked up as a decision', async () => {
    const c = await judge({
      formula: 'after-supper',
      person: {
        ...WELL,
        medicines: '[collagenia]',
        looked_up: '[{word: collagenia, because: a food supplement, by: AB, on: 2026-05-02}]',
      },
    });
    expect(of(c, 'unknown-word')[0]).toMatchObject({ level: 'decide' });
  });

  it('takes a denied condition for what it is', async () => {
    const c = await judge({ formula: 'stiff-joints', person: { ...WELL, conditions: '[no asthma]' } });
    expect(told(c).filter((t) => !t.startsWith('note'))).toEqual([]);
  });

  it('asks which medicine a group word means, and says what it would matter for', async () => {
    const c = await judge({ formula: 'stiff-joints', person: { ...WELL, medicines: '[blood thinner]' } });
    expect(['ask', 'withhold']).toContain(c.verdict);
    expect(c.findings.some((f) => f.herb === 'willow-bark' && f.level !== 'note')).toBe(true);
  });
});

describe('ages', () => {
  const girl = (born: string) => ({ ...WOMAN, born });

  it('are counted to the day: twelve on the birthday, eleven the day before', async () => {
    const twelve = await judge({ formula: 'quiet-evening', person: girl('2014-05-02') });
    const eleven = await judge({ formula: 'quiet-evening', person: girl('2014-05-03') });
    expect(of(twelve, 'age-floor', 'lemon-balm-leaf')).toEqual([]);
    expect(of(eleven, 'age-floor', 'lemon-balm-leaf')).toHaveLength(1);
  });

  it('ask for the day where a month of birth straddles a limit', async () => {
    const c = await judge({ formula: 'quiet-evening', person: girl('2014-05') });
    expect(of(c, 'age-floor', 'lemon-balm-leaf')[0]).toMatchObject({ level: 'ask' });
    expect(says(of(c, 'age-floor', 'lemon-balm-leaf')[0])).toContain('day');
  });

  it('withhold willow bark at 15, for Reye syndrome and not only for want of data', async () => {
    const c = await judge({ formula: 'stiff-joints', person: { ...WELL, born: '2011-01-01' } });
    expect(of(c, 'age-floor', 'willow-bark')[0]).toMatchObject({ level: 'withhold' });
  });

  it("differ by the monograph's own bands: sweet fennel for twelve, for eleven and for a toddler", async () => {
    const at = async (born: string) => {
      const c = await judge({ formula: 'after-supper', person: { ...WELL, born } });
      return c.findings.filter((f) => f.herb === 'sweet-fennel-fruit').map((f) => f.level);
    };
    // How much estragole fennel holds is not stated, which is said to everybody.
    expect(await at('2014-05-02')).toEqual(['note']);
    expect(await at('2014-05-03')).toEqual(expect.arrayContaining(['decide']));
    expect(await at('2024-09-01')).toEqual(expect.arrayContaining(['withhold']));
  });
});

describe('allergies', () => {
  it('to aspirin withhold willow bark and meadowsweet', async () => {
    const c = await judge({ formula: 'stiff-joints', person: { ...WELL, allergies: '[aspirin]' } });
    expect(
      of(c, 'caution')
        .filter((f) => f.level === 'withhold')
        .map((f) => f.herb),
    ).toEqual(['meadowsweet-herb', 'willow-bark']);
  });

  it('to the daisy family withhold chamomile, by any name of the family', async () => {
    for (const word of ['Asteraceae', 'Compositae', 'daisy family']) {
      const c = await judge({ formula: 'after-supper', person: { ...WELL, allergies: `[${word}]` } });
      expect(told(c)).toContain('withhold caution chamomile-flower');
    }
  });

  it('to a herb of the same family ask where the monograph is silent', async () => {
    const c = await judge({ formula: 'quiet-evening', person: { ...WELL, allergies: '[thyme herb]' } });
    expect(of(c, 'allergy', 'lemon-balm-leaf')[0]).toMatchObject({ level: 'ask' });
  });

  it('to the plant itself withhold it', async () => {
    const c = await judge({ formula: 'quiet-evening', person: { ...WELL, allergies: '[lemon balm leaf]' } });
    expect(c.findings.find((f) => f.herb === 'lemon-balm-leaf')?.level).toBe('withhold');
  });

  it('to penicillin say nothing', async () => {
    const c = await judge({ formula: 'after-supper', person: { ...WELL, allergies: '[penicillin]' } });
    expect(c.findings.filter((f) => f.level !== 'note')).toEqual([]);
  });
});

describe('without a person', () => {
  it('the formula alone is judged', async () => {
    const c = await judge({ formula: 'after-supper', person: null });
    expect(of(c, 'unanswered')).toEqual([]);
    expect(c.findings.every((f) => f.level === 'note')).toBe(true);
  });
});
