import { describe, expect, it } from 'vitest';
import {
  type Measures,
  NO_MEASURES,
  ownMeasure,
  parseQuantity,
  parseRange,
  parseRatio,
  parseStrength,
} from '../../src/measure/parse.ts';
import { inUnit, type Quantity, quantity } from '../../src/measure/quantity.ts';
import type { Dimension } from '../../src/measure/units.ts';
import { milligram, millilitre, mustUnit } from '../../src/measure/units.ts';
import { write, writeRange, writeRatio } from '../../src/measure/write.ts';

/** What the reader makes of a text: the quantity written out in full, or the reason why not. */
function read(text: string, measures: Measures = NO_MEASURES, of: readonly Dimension[] = []): string {
  const r = parseQuantity(text, measures, of);
  return r.ok ? write(r.value, 'exact') : r.why;
}

function readRange(text: string, measures: Measures = NO_MEASURES): string {
  const r = parseRange(text, measures);
  return r.ok ? writeRange(r.value, 'exact') : r.why;
}

function taken(text: string, measures: Measures = NO_MEASURES): Quantity {
  const r = parseQuantity(text, measures);
  if (!r.ok) throw new Error(r.why);
  return r.value;
}

const practice: Measures = {
  settled: new Map([['pint', mustUnit('[pt_br]')]]),
  own: new Map([
    ['dropper', ownMeasure('dropper', quantity('0.8', 'mL'))],
    ['level teaspoon', ownMeasure('level teaspoon', quantity('2.1', 'g'))],
    ['glass', ownMeasure('glass', quantity(180, 'mL'))],
    ['teacup', ownMeasure('teacup', quantity(150, 'mL'))],
  ]),
};

describe('a quantity as a person writes it', () => {
  it.each([
    ['12 g', '12 g'],
    ['12g', '12 g'],
    ['0.5 g', '0.5 g'],
    ['1 1/2 tsp', '1.5 tsp'],
    ['1½ tsp', '1.5 tsp'],
    ['1 ½ tsp', '1.5 tsp'],
    ['1⁄2 tsp', '0.5 tsp'],
    ['½ imp pint', '0.5 imp pints'],
    ['1/4 imp fl oz', '0.25 imp fl oz'],
    ['150 mL', '150 mL'],
    ['150 ml', '150 mL'],
    ['2 tablespoonfuls', '2 tbsp'],
    ['250 mcg', '250 micrograms'],
    ['250 \u00b5g', '250 micrograms'],
    ['1 microgram', '1 microgram'],
    ['14 days', '14 days'],
    ['20 drops', '20 drops'],
    ['45 % v/v', '45 % v/v'],
    ['45% vol', '45 % v/v'],
    ['3\u00a0g', '3 g'],
    ['1000 g', '1,000 g'],
    ['0 g', '0 g'],
  ])('%s', (text, meant) => {
    expect(read(text)).toBe(meant);
  });

  it('may be written with a UCUM code, which is what JSON prints', () => {
    expect(inUnit(taken('1 [pt_br]'), millilitre).value.toFixed()).toBe('568.26125');
    expect(read('2 [sc_ap]')).toBe('2 scruples');
    expect(read('2.5 g/(100.mL)')).toBe('2.5 g/100 mL');
    expect(read('3 mg/kg/d')).toBe('3 mg/kg/day');
  });

  it('may be so much in so much', () => {
    expect(read('30 mg/5 mL')).toBe('30 mg/5 mL');
    expect(read('30 mg/5mL')).toBe('30 mg/5 mL');
    expect(read('30 mg in 5 mL')).toBe('30 mg/5 mL');
    expect(read('2.5 g/100 mL')).toBe('2.5 g/100 mL');
    expect(read('0.92 g/mL')).toBe('0.92 g/mL');
    expect(read('3 mg/kg')).toBe('3 mg/kg');
    expect(read('20 drops per mL')).toBe('20 drops/mL');
    expect(inUnit(taken('30 mg/5 mL'), mustUnit('mg/mL')).value.toFixed()).toBe('6');
  });

  it('divides from left to right: mg/kg/day is (mg/kg) a day', () => {
    expect(inUnit(taken('24 mg/kg/day'), mustUnit('mg/kg/h')).value.toFixed()).toBe('1');
    expect(inUnit(taken('24 mg per kg per day'), mustUnit('ug/g/d')).value.toFixed()).toBe('24');
  });

  it('is of the kind that is asked for', () => {
    expect(read('5 mL', NO_MEASURES, ['mass'])).toBe('"mL" measures volume; here it must be mass');
    expect(read('5 mL', NO_MEASURES, ['mass', 'volume'])).toBe('5 mL');
  });
});

describe("a practice's own measures", () => {
  it('settles what its pint is', () => {
    expect(read('1 pint', practice)).toBe('1 imp pint');
    expect(read('2 pints', practice)).toBe('2 imp pints');
    expect(read('1 US pint', practice)).toBe('1 US pint');
  });

  it('knows its dropper, one or several', () => {
    expect(read('2 droppers', practice)).toBe('2 droppers');
    expect(inUnit(taken('2 droppers', practice), millilitre).value.toFixed()).toBe('1.6');
    expect(inUnit(taken('1 Level Teaspoon', practice), milligram).value.toFixed()).toBe('2100');
    expect(read('2 glasses', practice)).toBe('2 glasses');
    expect(read('30 mg per dropper', practice)).toBe('30 mg/dropper');
  });

  it('has its own teacup, and the code of it is not the code of the common teacup', () => {
    const cup = taken('1 teacup', practice);
    expect(inUnit(cup, millilitre).value.toFixed()).toBe('150');
    expect(cup.unit.code).not.toBe(taken('1 teacup').unit.code);
  });

  it('has codes that UCUM allows: no space and no brace within', () => {
    expect(taken('1 level teaspoon', practice).unit.code).toBe('{level_teaspoon}');
  });

  it('keeps two practices apart that have droppers of different size', () => {
    const other: Measures = {
      ...practice,
      own: new Map([['dropper', ownMeasure('dropper', quantity(2, 'mL'))]]),
    };
    const ours = taken('30 mg/dropper', practice);
    const theirs = taken('30 mg/dropper', other);
    expect(inUnit(ours, mustUnit('mg/mL')).value.toFixed()).toBe('37.5');
    expect(inUnit(theirs, mustUnit('mg/mL')).value.toFixed()).toBe('15');
  });

  it('never replaces a measure that law or standard fixes', () => {
    const rash: Measures = { ...practice, own: new Map([['tsp', ownMeasure('tsp', quantity(2, 'g'))]]) };
    expect(read('1 tsp', rash)).toContain('"tsp" already means tsp');
    expect(read('1 tsp', rash)).toContain("give the practice's own measure another name");
  });

  it('never measures nothing', () => {
    const empty: Measures = { ...practice, own: new Map([['scoop', ownMeasure('scoop', quantity(0, 'g'))]]) };
    expect(read('1 scoop', empty)).toBe(
      'the practice\'s measure "scoop" holds nothing: write its size, such as 0.8 mL',
    );
  });
});

describe('a range', () => {
  it.each([
    ['1.5-4 g', '1.5 to 4 g'],
    ['1.5\u20134 g', '1.5 to 4 g'],
    ['1.5 \u2013 4 g', '1.5 to 4 g'],
    ['1.5 to 4 g', '1.5 to 4 g'],
    ['300 mg-1 g', '0.3 to 1 g'],
    ['300 mg to 1 g', '0.3 to 1 g'],
    ['½-1 tsp', '0.5 to 1 tsp'],
    ['1-1 1/2 tsp', '1 to 1.5 tsp'],
    ['up to 8 g', 'up to 8 g'],
    ['at most 8 g', 'up to 8 g'],
    ['at least 4 % m/m', 'at least 4 % m/m'],
    ['from 4 g', 'at least 4 g'],
    ['2 g', '2 g'],
    ['2-2 g', '2 g'],
    ['2-4 mg/kg', '2 to 4 mg/kg'],
  ])('%s', (text, meant) => {
    expect(readRange(text)).toBe(meant);
  });

  it("may be in the practice's own measure", () => {
    expect(readRange('1-2 droppers', practice)).toBe('1 to 2 droppers');
  });

  it.each([
    ['4-1.5 g', '"4-1.5 g" runs downward: write the smaller figure first'],
    ['300-1 g', '"300-1 g" runs downward: write the smaller figure first'],
    [
      '1-1/2 tsp',
      '"1-1/2 tsp" runs downward: for a whole and a fraction write a space, such as 1 1/2; for a range the smaller figure first',
    ],
    ['1-2', '"1-2" has no unit: write such as 1-2 g'],
    ['1 g-2', '"1 g-2" has no unit: write such as 1 g-2 g'],
    ['1 g-2 mL', '"1 g-2 mL" runs from g to mL: write both ends in one kind of unit'],
    ['1-2-3 g', '"2-3" is a range: write one figure here'],
    ['up to 1-3 g', '"1-3" is a range: write one figure here'],
    ['1,5-4 g', '"1,5" has a comma: write a decimal point, and no sign between thousands'],
    ['.5-1 g', '".5-1" lacks its leading zero: write 0.5-1'],
    ['1e-5 g', '"1e-5 g" is in exponent form: write the figure out, such as 0.001 or 1000'],
    ['-1-3 g', '"-1-3" is negative: amounts start at 0'],
    ['1-2 oz', '"oz" could be'],
  ])('%s is refused', (text, why) => {
    const r = parseRange(text);
    expect(r.ok ? `read as ${writeRange(r.value)}` : r.why).toContain(why);
  });
});

describe('a ratio of herb to product', () => {
  it.each(['1:5', '0.75:1', '4-6:1', '1:0.5-0.8'])('%s', (text) => {
    const r = parseRatio(text);
    expect(r.ok ? writeRatio(r.value) : r.why).toBe(text);
  });

  it.each(['5', '1:2:3', '0:5', '1:', 'up to 5:1', '0-5:1', '1:5,5', '1:5\u200b'])('not %s', (text) => {
    expect(parseRatio(text).ok).toBe(false);
  });
});

describe('the strength of a spirit', () => {
  it('says whether by volume or by mass', () => {
    const r = parseStrength('45 % v/v');
    expect(r.ok && write(r.value)).toBe('45 % v/v');
    expect(parseStrength('45 %')).toEqual({
      ok: false,
      why: '"45 %" lacks its basis: write % v/v (by volume) or % m/m (by mass)',
    });
  });

  it.each(['101 % v/v', '45 g', '45 %/kg', 'strong'])('is not %s', (text) => {
    expect(parseStrength(text).ok).toBe(false);
  });
});
