import { describe, expect, it } from 'vitest';
import { settledUnit } from '../../src/folder/settled.ts';
import { AMBIGUOUS } from '../../src/measure/units.ts';

const symbol = (word: string, meaning: string): string | undefined => settledUnit(word, meaning)?.symbol;

describe('what a practice means by a word', () => {
  it.each([
    ['pint', 'imperial', 'imp pint'],
    ['pints', 'UK', 'imp pint'],
    ['pt', 'US', 'US pint'],
    ['fl oz', 'imp', 'imp fl oz'],
    ['gallon', 'american', 'US gal'],
    ['pint', 'US pint', 'US pint'],
    ['ounce', 'oz av', 'oz av'],
    ['oz', 'imp fl oz', 'imp fl oz'],
    ['cup', 'metric cup', 'metric cup'],
    ['cup', 'US', 'US cup'],
  ])('%s: %s', (word, meaning, unit) => {
    expect(symbol(word, meaning)).toBe(unit);
  });

  it('by its system alone is refused where it may be a mass or a volume', () => {
    for (const system of ['imperial', 'US'])
      for (const word of ['ounce', 'oz', 'drachm']) expect(symbol(word, system)).toBeUndefined();
  });

  it.each([
    ['pint', 'metric'],
    ['pint', 'oz av'],
    ['pint', ''],
    ['cup', 'imperial'],
    ['spoon', 'imperial'],
    ['constructor', 'imperial'],
  ])('is never guessed: %s: %s', (word, meaning) => {
    expect(symbol(word, meaning)).toBeUndefined();
  });

  it('can be any unit that the word can be', () => {
    for (const { word, could } of AMBIGUOUS)
      for (const unit of could) expect(settledUnit(word, unit.symbol)).toBe(unit);
  });
});
