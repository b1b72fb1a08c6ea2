// Published rules for writing doses: what the program writes, whatever it is given, obeys them.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { parseQuantity } from '../../src/measure/parse.ts';
import { type Quantity, quantity } from '../../src/measure/quantity.ts';
import { per, UNITS, type Unit } from '../../src/measure/units.ts';
import { write, writeNumber, writeRange } from '../../src/measure/write.ts';

const JOINT_COMMISSION =
  'The Joint Commission, official "Do Not Use" list (2017), with the possible additions of 2009';
const ISMP =
  'Institute for Safe Medication Practices, list of error-prone abbreviations, symbols and dose designations';
const NHS = 'NHS Common User Interface, medication line design guidance, MEDi-014 to MEDi-017';
const BNF = 'British National Formulary, prescription writing';

// biome-ignore format: a table
const EXAMPLES: [typed: string, written: string, neverWritten: string, source: string][] = [
  ['5.0 mg', '5 mg', '5.0', `no trailing zero: ${JOINT_COMMISSION}; ${ISMP}`],
  ['0.50 mL', '0.5 mL', '0.50', `no trailing zero: ${JOINT_COMMISSION}; ${ISMP}`],
  ['1/2 mL', '0.5 mL', ' .5', `a zero before the point: ${JOINT_COMMISSION}; ${ISMP}; ${NHS}`],
  ['10000 mg', '10,000 mg', '10000', `thousands set apart: ${ISMP}; ${NHS}`],
  ['1000 mg', '1,000 mg', '1000', `a comma from 1,000 on: ${NHS}`],
  ['1234567 g', '1,234,567 g', '1234567', `thousands set apart: ${ISMP}; ${NHS}`],
  ['250 mcg', '250 micrograms', 'mcg', `microgram in full: ${BNF}`],
  ['250 \u00b5g', '250 micrograms', '\u00b5', `never the Greek letter: ${ISMP}; ${JOINT_COMMISSION}`],
  ['5 ml', '5 mL', 'ml', `mL: ${JOINT_COMMISSION}; ${ISMP}`],
  ['10mg', '10 mg', '10mg', `a space before the unit: ${ISMP}`],
  ['10 mg.', '10 mg', 'mg.', `no full stop after the unit: ${ISMP}`],
  ['2 [dr_ap]', '2 drachm ap', '\u0292', `no apothecary sign: ${JOINT_COMMISSION}`],
  ['500 mg', '500 mg', '0.5 g', `as it was: ${BNF}`],
  ['0.3 mL', '0.3 mL', ' .3', `as it was: ${BNF}`],
];

describe('what is typed is written safely', () => {
  it.each(EXAMPLES)('%s becomes %s and never holds %s (%s)', (typed, written, never) => {
    const r = parseQuantity(typed);
    if (!r.ok) throw new Error(r.why);
    expect(write(r.value, 'exact')).toBe(written);
    expect(write(r.value)).toBe(written);
    if (never !== typed) expect(` ${write(r.value)}`).not.toContain(never);
  });

  it.each([
    ['.5 mL', `a point without its zero: ${JOINT_COMMISSION}`],
    ['2 cc', `cc: ${JOINT_COMMISSION}; ${ISMP}`],
    ['gr 5', `the grain's old sign: ${JOINT_COMMISSION}`],
    ['5 gr', `the grain's old sign: ${JOINT_COMMISSION}`],
    ['1,000 mg', 'one house style is written, and none is guessed at when read'],
    ['5 U', `U: ${JOINT_COMMISSION}; ${ISMP}`],
    ['5 IU', `IU: ${JOINT_COMMISSION}; ${ISMP}`],
    ['2 \u2125', `apothecary signs: ${JOINT_COMMISSION}`],
    ['> 5 mg', `> and <: ${ISMP}`],
  ])('%s is not even read (%s)', (typed) => {
    expect(parseQuantity(typed).ok).toBe(false);
  });
});

/** Nought to a hundred million, with up to nine decimals: as text, for no binary fraction may take part. */
const figure = fc
  .tuple(fc.nat(100_000_000), fc.integer({ min: 0, max: 9 }), fc.nat(999_999_999))
  .map(([whole, places, part]) => exact(`${whole}.${String(part).padStart(9, '0').slice(0, places)}0`));

const simple = fc.constantFrom<Unit>(...UNITS);
const anyUnit = fc.oneof(
  simple,
  fc.tuple(simple, simple, fc.constantFrom(1, 5, 100)).map(([a, b, n]) => per(a, b, exact(n))),
);
const anyQuantity: fc.Arbitrary<Quantity> = fc.tuple(figure, anyUnit).map(([value, u]) => quantity(value, u));

/** Groups of three from the point leftwards, a zero before the point, and no zero at the end. */
const SAFE_NUMBER = /^(?:0|[1-9]\d{0,2}(?:,\d{3})*)(?:\.\d*[1-9])?$/;
/** cc, Greek mu, short forms of microgram, of units and of grain, apothecary signs, comparison signs, a full stop at the end. */
const ERROR_PRONE = /\b(?:cc|ccs|ug|mcg|IU|U|gr|ml|gtt|T|t)\b|[\u00b5\u03bc\u2125\u2108\u2114<>@]|\u0292|\.$/;

describe('whatever is written', () => {
  it('has no trailing zero, no naked point, no exponent, and its thousands set apart', () => {
    fc.assert(
      fc.property(figure, (value) => {
        expect(writeNumber(value)).toMatch(SAFE_NUMBER);
        expect(writeNumber(value.div(7).toSignificantDigits(12))).toMatch(SAFE_NUMBER);
      }),
    );
  });

  it('loses nothing of the figure', () => {
    fc.assert(fc.property(figure, (value) => exact(writeNumber(value).replaceAll(',', '')).eq(value)));
  });

  it('is a number, one space and a unit that is not misread', () => {
    fc.assert(
      fc.property(anyQuantity, fc.constantFrom('readable' as const, 'exact' as const), (q, as) => {
        const [number = '', ...unit] = write(q, as).split(' ');
        expect(number).toMatch(SAFE_NUMBER);
        expect(unit.join(' ')).not.toBe('');
        expect(unit[0]).not.toBe('');
        expect(unit.join(' ')).not.toMatch(ERROR_PRONE);
      }),
    );
  });

  it('puts "to" between the ends of a range, never a dash', () => {
    fc.assert(
      fc.property(figure, figure, simple, (a, b, u) => {
        const [low, high] = a.lt(b) ? [a, b] : [b, a];
        const written = writeRange({ low: quantity(low, u), high: quantity(high, u) }, 'exact');
        expect(written).not.toMatch(/[-\u2010-\u2015]/);
        expect(written).not.toMatch(ERROR_PRONE);
      }),
    );
  });

  it('keeps mg, g and mL without a plural (College of Licensed Practical Nurses of Alberta; NHS dose syntax guidance)', () => {
    for (const code of ['mg', 'g', 'kg', 'mL', 'L']) expect(write(quantity(5, code))).toBe(`5 ${code}`);
  });
});
