import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normal } from '../../src/vocabulary/normal.ts';
import { otherSpellings } from '../../src/vocabulary/spelling.ts';

describe('the one form of a word', () => {
  it.each([
    ['Warfarin', 'warfarin'],
    ['  co-codamol ', 'co codamol'],
    ['co\u2011codamol', 'co codamol'],
    ['beta_blockers', 'beta blockers'],
    ['TMP/SMX', 'tmp smx'],
    ['Crohn\u2019s disease', "crohn's disease"],
    ['Crohn\u00b4s disease', "crohn's disease"],
    ['Sjögren', 'sjogren'],
    ['\u0153dema', 'oedema'],
    ['\uff37arfarin', 'warfarin'],
    ['war\u00adfarin', 'warfarin'],
    ['asthma.', 'asthma'],
    ['asthma. .', 'asthma'],
    ['high   blood\u00a0pressure', 'high blood pressure'],
    ['insulin (human)', 'insulin (human)'],
  ])('%s is %s', (word, form) => {
    expect(normal(word)).toBe(form);
  });

  it('is its own form, whatever was typed', () => {
    fc.assert(fc.property(fc.string({ unit: 'grapheme' }), (word) => normal(normal(word)) === normal(word)));
  });

  it('keeps words apart that differ by a letter', () => {
    expect(normal('prednisone')).not.toBe(normal('prednisolone'));
  });
});

describe('other spellings', () => {
  const rules = [
    { from: 'oe', to: 'e' },
    { from: 'sulph', to: 'sulf' },
  ];

  it('come of each rule alone and of both together', () => {
    expect(otherSpellings('oesulph', rules).sort()).toEqual(['esulf', 'esulph', 'oesulf']);
  });

  it('are none where no rule applies', () => {
    expect(otherSpellings('warfarin', rules)).toEqual([]);
  });
});
