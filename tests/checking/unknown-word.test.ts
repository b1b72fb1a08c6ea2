import { describe, expect, it } from 'vitest';
import { judge, says, WELL } from './judge.ts';
import { finds, herb, tea } from './small.ts';

const FILES = { ...herb(), ...tea() };
const found = (answers: Record<string, string>) =>
  finds('unknown-word', { person: { ...WELL, ...answers }, files: FILES });

const LOOKED_UP = (word: string, because = 'a food supplement') =>
  `[{word: ${word}, because: "${because}", by: AB, on: 2026-05-02}]`;

describe('the rule on words that are not understood', () => {
  it('fires for warfarn with warfarin suggested, and is quiet for warfarin', async () => {
    const [f] = await found({ medicines: '[warfarn]' });
    expect(f).toMatchObject({ level: 'ask', id: 'unknown-word/formula/medicines-warfarn' });
    expect(says(f)).toBe('medicine "warfarn" is not understood: did you mean warfarin?');
    expect(await found({ medicines: '[warfarin]' })).toEqual([]);
  });

  it('asks of every list, and of a product whatever it is called', async () => {
    for (const answer of [
      { medicines: '[zzyzxol]' },
      { conditions: '[zzyzxia]' },
      { allergies: '[zzyzxwort]' },
      { taking: '[zzyzx-herb]' },
      { taking: '[{product: Evening capsules}]' },
    ])
      expect((await found(answer)).map((f) => f.level)).toEqual(['ask']);
  });

  it('counts a word that was looked up as a decision, however it is written', async () => {
    const [f] = await found({ medicines: '[Collagen-X]', looked_up: LOOKED_UP('collagen x') });
    expect(f?.level).toBe('decide');
    expect(says(f)).toContain('looked up by AB on 2026-05-02: a food supplement');
  });

  it('makes the basis hang on why, and not on a comma in it', async () => {
    const basis = async (because: string) =>
      (await found({ medicines: '[collagenia]', looked_up: LOOKED_UP('collagenia', because) }))[0]?.basis;
    expect(await basis('a food, from fish')).toBe(await basis('a food from fish.'));
    expect(await basis('a food, from fish')).not.toBe(await basis('a food, from cattle'));
  });

  it('keeps apart two words that no Latin letter tells apart, and joins two spellings of one', async () => {
    const ids = async (words: string) => {
      const c = await judge({ formula: 'test-tea', person: { ...WELL, medicines: words }, files: FILES });
      return c.findings.map((f) => f.id);
    };
    expect(new Set(await ids('["варфаринн", "дигоксинн"]')).size).toBe(2);
    expect(await ids('["zzyzx-ol", "Zzyzx Ol"]')).toHaveLength(1);
  });

  it('does not ask of a word for something stopped long ago', async () => {
    expect(await found({ medicines: '[{name: warfarn, stopped: 2020-01-01}]' })).toEqual([]);
    expect(await found({ taking: '[{product: Evening capsules, stopped: 2020-01-01}]' })).toEqual([]);
  });

  describe('that was looked up', () => {
    const of = async (on: string, list = 'medicines', day = '2026-05-02') => {
      const [f] = await finds('unknown-word', {
        person: {
          ...WELL,
          asked: day,
          [list]: '[collagen]',
          looked_up: `[{word: collagen, because: a food, by: AB, on: ${on}}]`,
        },
        files: FILES,
        on: day,
      });
      return f;
    };

    it('is a decision, with who looked it up, when, and what was found', async () => {
      const f = await of('2026-04-30');
      expect(f?.level).toBe('decide');
      expect(says(f)).toBe(
        'medicine "collagen" is not in the vocabulary; looked up by AB on 2026-04-30: a food',
      );
    });

    it('stays good as long as an answer of its list: medicines 90 days, allergies a year', async () => {
      expect((await of('2026-02-01'))?.level).toBe('decide');
      const old = await of('2026-01-31');
      expect(old?.level).toBe('ask');
      expect(says(old)).toBe(
        'medicine "collagen" is not understood: no word near it is known; looked up by AB on 2026-01-31, which stays good for 90 days: look it up again',
      );
      expect((await of('2026-01-31', 'allergies'))?.level).toBe('decide');
      expect((await of('2025-05-01', 'allergies'))?.level).toBe('ask');
    });

    it('after the day of the check is asked about all the same', async () => {
      const f = await of('2026-05-03');
      expect(f?.level).toBe('ask');
      expect(says(f)).toContain('after the day of this check: which is right?');
    });

    it('is that word and no other, however it is spaced, and the newest of two counts', async () => {
      const level = async (medicine: string, word: string) =>
        (await found({ medicines: `["${medicine}"]`, looked_up: LOOKED_UP(`"${word}"`) }))[0]?.level;
      expect(await level('Marine  Collagen', 'marine collagen')).toBe('decide');
      expect(await level('collagen', 'marine collagen')).toBe('ask');
      expect(await level('collagen', 'collagens')).toBe('ask');
      const [f] = await found({
        medicines: '[collagen]',
        looked_up:
          '[{word: collagen, because: older, by: AB, on: 2026-01-01}, {word: Collagen, because: newer, by: CD, on: 2026-05-01}]',
      });
      expect(says(f)).toContain('looked up by CD on 2026-05-01: newer');
    });

    it('is said beside the words near it, for it may be a slip', async () => {
      const [f] = await found({ medicines: '[warfarn]', looked_up: LOOKED_UP('warfarn') });
      expect(f?.level).toBe('decide');
      expect(says(f)).toContain('is not in the vocabulary, where warfarin is; looked up by AB');
    });

    it('and stands for two known medicines is still asked about: only a name leads to its cautions', async () => {
      const [f] = await found({ medicines: '[AZT]', looked_up: LOOKED_UP('AZT', 'azathioprine') });
      expect(f?.level).toBe('ask');
      expect(says(f)).toContain('it could be zidovudine or azathioprine; looked up by AB');
      expect(says(f)).toContain('write which of them it is in its place');
    });
  });
});
