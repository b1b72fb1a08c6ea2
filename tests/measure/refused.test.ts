import { describe, expect, it } from 'vitest';
import { NO_MEASURES, parseQuantity, parseUnit } from '../../src/measure/parse.ts';
import type { Dimension } from '../../src/measure/units.ts';
import { write } from '../../src/measure/write.ts';

/** What the reader says to a text: why it is refused, or what it was taken for. */
function read(text: string, of: readonly Dimension[] = []): string {
  const r = parseQuantity(text, NO_MEASURES, of);
  return r.ok ? write(r.value, 'exact') : r.why;
}

describe('a quantity that cannot be trusted says what to write instead', () => {
  it.each([
    ['1,5 g', '"1,5" has a comma: write a decimal point, and no sign between thousands'],
    ['1,000 mg', '"1,000" has a comma: write a decimal point, and no sign between thousands'],
    ['1 000 mg', '"1 000 mg" holds two figures: write one, with no space between thousands, and its unit'],
    ['5 gr', '"gr" may be a grain (65 mg) or a gram: write grain or g'],
    ['gr 5', '"gr 5" does not start with a figure: write the figure, then the unit, such as 3 g'],
    ['.5 g', '".5" lacks its leading zero: write 0.5'],
    ['5. g', '"5." ends in a point: write 5'],
    ['1e400 g', '"1e400 g" is in exponent form: write the figure out, such as 0.001 or 1000'],
    ['1e-5 g', '"1e-5 g" is in exponent form: write the figure out, such as 0.001 or 1000'],
    ['2E3g', '"2E3g" is in exponent form: write the figure out, such as 0.001 or 1000'],
    ['NaN g', '"NaN" is not a number: write a figure, such as 3 g'],
    ['Infinity g', '"Infinity" is not a number: write a figure, such as 3 g'],
    ['∞ g', '"∞" is not a number: write a figure, such as 3 g'],
    ['-3 g', '"-3" is negative: amounts start at 0'],
    ['\u22123 g', '"-3" is negative: amounts start at 0'],
    ['+3 g', '"+3" has a plus sign: leave it out'],
    ['3', '"3" has no unit: write such as 3 g'],
    ['g', '"g" does not start with a figure: write the figure, then the unit, such as 3 g'],
    ['', 'nothing is written: write a figure and its unit, such as 3 g'],
    ['   ', 'nothing is written: write a figure and its unit, such as 3 g'],
    ['3 ggg', '"ggg" is not a known unit: write such as g, mg, mL, tsp or drops'],
    ['3 gramz', '"gramz" is not a known unit: did you mean gram or grams?'],
    ['2 T', '"T" may be a tablespoon or a teaspoon: write tbsp or tsp'],
    ['2 t', '"t" may be a tablespoon or a teaspoon: write tbsp or tsp'],
    ['5 cc', '"cc" is misread as a unit or as zeros: write mL'],
    ['5 c.c.', '"c.c." is misread as a unit or as zeros: write mL'],
    ['5 g/cc', '"cc" is misread as a unit or as zeros: write mL'],
    ['4-1.5 g', '"4-1.5" is a range: write one figure here'],
    ['1.5 to 4 g', '"1.5 to 4 g" is a range: write one figure here'],
    ['1 g-2 g', '"1 g-2 g" is a range: write one figure here'],
    ['up to 8 g', '"up to 8 g" is a limit: write one figure here'],
    ['<8 g', '"<8 g" is a limit in other words: write such as up to 3 g or at least 3 g'],
    ['1/0 g', '"1/0" divides by nothing: write a fraction such as 1/2'],
    ['5 mg/0 mL', '"mg/0 mL" divides by nothing: write such as mg/mL or mg/5 mL'],
    ['1.2.3 g', '"1.2.3" is not a number: write such as 3, 0.5 or 1 1/2'],
    [
      '123456789012345678901234567890 g',
      '"123456789012345678901234567890" has more than 24 digits: write only as many as were measured',
    ],
    ['\uff15 g', '"\uff15" is a figure of another script: write it with the figures 0 to 9'],
    ['\u0663 g', '"\u0663" is a figure of another script: write it with the figures 0 to 9'],
    ['3\u200b0 g', '"30 g" holds a hidden character (U+200B): delete it and type the figure and unit again'],
    ['\u200f3 g', '"3 g" holds a hidden character (U+200F): delete it and type the figure and unit again'],
    ['3 g\u0007', '"3 g" holds a hidden character (U+0007): delete it and type the figure and unit again'],
    ['5 iu', '"iu" is misread as a figure, and herbs are not dosed in units: write g, mg or mL'],
  ])('%s', (text, why) => {
    const r = parseQuantity(text);
    expect(r.ok ? `read as ${write(r.value)}` : r.why).toBe(why);
  });

  it.each(['\u0292', '\u2125', '\u2108', '\u2114'])(
    'the apothecary sign %s, before or after the figure',
    (sign) => {
      const why = `the apothecary sign ${sign} is easily misread: write the word (drachm ap, oz ap, scruple, lb ap) or g`;
      expect(read(`2 ${sign}`)).toBe(why);
      expect(read(`${sign} ij`)).toBe(why);
    },
  );

  it('asks for a unit of the kind that is wanted', () => {
    expect(read('3', ['volume'])).toBe('"3" has no unit: write such as 3 mL');
    expect(read('3', ['time'])).toBe('"3" has no unit: write such as 3 days');
    expect(read('3', ['volume per mass'])).toBe('"3" has no unit: write such as 3 mL/g');
  });

  it('a zero in front, which may have been 0.12', () => {
    expect(read('012 g')).toBe('"012" starts with a needless 0: write 12, or put back a lost decimal point');
    expect(read('00.5 g')).toContain('write 0.5');
  });

  it('11/2, which is what pages make of 1 1/2', () => {
    expect(read('11/2 tsp')).toBe('the fraction of "11/2" is not below 1: write such as 1 1/2');
    expect(read('1 3/2 tsp')).toContain('is not below 1');
    expect(read('2/2 tsp')).toContain('is not below 1');
  });

  it('a figure run into a fraction sign', () => {
    expect(read('\u00bd5 g')).toContain('holds two figures');
    expect(read('1\u00bd\u00bd g')).toContain('holds two figures');
    expect(read('1.5\u00bd g')).toContain('holds two figures');
  });

  it('a figure where the unit should be', () => {
    expect(read('3 1')).toContain('holds two figures');
    expect(parseUnit('1').ok).toBe(false);
  });

  it('a text without end, quickly and without repeating it all', () => {
    const why = read(`1 ${'g/'.repeat(100_000)}g`);
    expect(why).toMatch(/is too long: write one figure and its unit/);
    expect(why.length).toBeLessThan(120);
  });
});

describe('a word that several units share is not guessed', () => {
  it.each([
    ['1 pint', ['imp pint (568.26125 mL)', 'US pint (473.176473 mL)']],
    [
      '2 oz',
      [
        'oz av (28.34952312 g)',
        'oz ap (31.1034768 g)',
        'imp fl oz (28.4130625 mL)',
        'US fl oz (29.57352956 mL)',
      ],
    ],
    ['1 gallon', ['imp gal (4546.09 mL)', 'US gal (3785.411784 mL)']],
    ['1 cup', ['US cup (236.5882365 mL)', 'metric cup (250 mL)', 'label cup (240 mL)', 'teacup (120 mL)']],
    ['1 quart', ['imp qt', 'US qt']],
    ['5 minims', ['imp minim', 'US minim']],
    ['1 dram', ['drachm ap (3.8879346 g)', 'dram av (1.771845195 g)', 'imp fluid drachm', 'US fluid dram']],
    ['1 lb', []],
    ['1 pound', ['lb (453.59237 g)', 'lb ap (373.2417216 g)']],
  ])('%s', (text, could) => {
    const said = read(text);
    for (const one of could) expect(said).toContain(one);
    expect(said).toContain(could.length > 0 ? 'write which, or set it once in practice.yaml' : '1 lb');
  });
});
