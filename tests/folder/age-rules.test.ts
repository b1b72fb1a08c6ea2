import { describe, expect, it } from 'vitest';
import { changed, told } from './written.ts';

/** A table of one rule, to be spoiled in one place. */
const TABLE = `table: age-rules
about: invented
sources: {us: {body: Our practice, title: Rules, reading: practice}}
warnings: [{says: with care, source: us}]
infants_under: {age: 2 years, source: us}
surface: {root_over: "3600", source: us}
plausible: [{ages: all ages, weight: 1-300 kg, height: 30-230 cm, source: us}]
rules:
  - {id: ours, name: our rule, input: completed years, divisor: "20", ages: 2-18 years, source: us}
`;
const spoiled = (from: string, to: string): Promise<string[]> =>
  told('age-rules', changed(TABLE, from, to), 'age-rules');

describe('a table of rules of age', () => {
  it('has no fault', async () => {
    expect(await told('age-rules', TABLE, 'age-rules')).toEqual([]);
  });

  it.each([
    ['divisor: "20"', 'note: none', 'how is it reckoned? write one of divisor:, plus:, percent:, bands:'],
    ['divisor: "20"', 'divisor: "20", plus: "12"', 'how is it reckoned? write one of'],
    ['divisor: "20"', 'divisor: "0"', '"0" must be above 0'],
    ['input: completed years', 'input: band', 'bands: go with input: band, and nothing else'],
    [
      'divisor: "20"',
      'bands: [{ages: 2-18 years, share: 1/4, printed: x}]',
      'bands: go with input: band, and nothing else',
    ],
    ['input: completed years, divisor', 'input: weight in kg, plus', 'is added to completed years or months'],
    ['divisor: "20"', 'percent: [{times: "2", plus: "0"}]', 'is for each kg: input: weight in kg'],
    ['input: completed years', 'input: completed yeers', 'completed years'],
    ['source: us}\n', 'source: them}\n', '"them" is not among this file\'s sources'],
    ['divisor: "20"', 'divisor: "20", variant_of: yuong', 'there is no rule "yuong"'],
    ['ages: 2-18 years', 'ages: 18-2 years', 'holds nobody'],
    ['ages: 2-18 years, ', '', 'ages'],
  ])('%j as %j is told', async (from, to, why) => {
    // The rule stands last, so that the last of several passages alike is the rule's.
    const at = TABLE.lastIndexOf(from);
    expect(at).toBeGreaterThan(0);
    const text = TABLE.slice(0, at) + to + TABLE.slice(at + from.length);
    expect((await told('age-rules', text, 'age-rules')).join('\n')).toContain(why);
  });

  it.each([
    ['5/4', 'the fraction of "5/4" is not below 1'],
    ['1.25', '"1.25" is no share of the adult dose: write above 0 and at most 1, such as 1/4'],
    ['0', '"0" is no share of the adult dose'],
  ])('a share of %s is told', async (share, why) => {
    const bands = `input: band, bands: [{ages: 2-18 years, share: ${JSON.stringify(share)}, printed: x}]`;
    expect((await spoiled('input: completed years, divisor: "20"', bands)).join()).toContain(why);
  });

  it.each([
    ['[{times: "2", plus: "0"}, {times: "1", plus: "30"}]', 'every line but the last has its under:'],
    ['[{under: "30", times: "2", plus: "0"}]', 'every line but the last has its under:'],
    [
      '[{under: "30", times: "2", plus: "0"}, {under: "20", times: "1", plus: "30"}, {times: "1", plus: "1"}]',
      'each line ends above the one before it',
    ],
  ])('per cent by lines that leave a weight out or claim it twice are told: %s', async (lines, why) => {
    const by = `input: weight in kg, percent: ${lines}`;
    expect((await spoiled('input: completed years, divisor: "20"', by)).join()).toContain(why);
  });

  it('a rule that is there twice is told at the second', async () => {
    const twice = `${TABLE}${TABLE.slice(TABLE.lastIndexOf('  - {id'))}`;
    expect(await told('age-rules', twice, 'age-rules')).toEqual(['10:6: "ours" is there twice']);
  });
});
