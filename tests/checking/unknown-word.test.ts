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
    expect(says(f)).toContain('looked up by AB: a food supplement');
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
});
