// The units beside an independent implementation of UCUM (ucum-lhc 7.1.10, US National Library of Medicine).
import { createRequire } from 'node:module';
import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { parseQuantity } from '../../src/measure/parse.ts';
import { comparable, convert, quantity } from '../../src/measure/quantity.ts';
import { mustUnit, UNITS, type Unit, unitByCode } from '../../src/measure/units.ts';
import { quantityJson } from '../../src/measure/write.ts';

interface Ucum {
  validateUnitString(code: string): { status: string; ucumCode: string | null };
  convertUnitTo(from: string, value: number, to: string): { status: string; toVal: number | null };
}

const library = createRequire(import.meta.url)('@lhncbc/ucum-lhc') as {
  UcumLhcUtils: { getInstance(): Ucum };
};
const ucum = library.UcumLhcUtils.getInstance();

/** An annotation in braces says nothing to UCUM: it is the bare number one, or whatever stands before it. */
const isAnnotated = (u: Unit): boolean => u.code.includes('{');

/** UCUM makes a drop 1/20 mL; here it is a count. Its mean month and year differ from calendars but agree with ours. */
const OTHERWISE_DEFINED = ['[drp]'];

const defined = UNITS.filter((u) => !isAnnotated(u) && !OTHERWISE_DEFINED.includes(u.code));

/** Compounds as they stand in monographs: strengths, densities, doses by body weight and by day. */
// biome-ignore format: a table
const COMPOUNDS = [
  'mg/mL', 'g/mL', 'g/L', 'mg/(5.mL)', 'g/(100.mL)', 'ug/mL', '[gr]/[foz_br]', '[lb_av]/[gal_us]', 'kg/L',
  'mg/kg', 'ug/kg', 'mL/g', 'mL/kg', 'mg/kg/d', 'mg/kg/h', 'ug/kg/d', 'g/d', 'mg/d', 'g/wk', 'mL/h', 'mL/min',
].map(mustUnit);

const pairs = (units: readonly Unit[]): [Unit, Unit][] =>
  units.flatMap((a) => units.filter((b) => b !== a && comparable(a, b)).map((b): [Unit, Unit] => [a, b]));

/** What is wrong with one conversion, or nothing. The library works in binary fractions, hence the tolerance. */
function difference(from: Unit, to: Unit): string | undefined {
  const theirs = ucum.convertUnitTo(from.code, 7.5, to.code);
  const ours = convert(quantity('7.5', from), to);
  if (theirs.status !== 'succeeded' || theirs.toVal === null)
    return `${from.code} in ${to.code}: ${theirs.status}`;
  if (!ours.ok) return `${from.code} in ${to.code}: ${ours.why}`;
  const apart = ours.value.value
    .div(exact(String(theirs.toVal)))
    .minus(1)
    .abs();
  return apart.lte('1e-9')
    ? undefined
    : `${from.code} in ${to.code}: ${ours.value.value.toFixed()} and ${theirs.toVal}`;
}

describe('every pair of units of one kind', () => {
  it.each(defined.map((u) => [u.code, u] as const))('from %s', (_, from) => {
    const wrong = pairs(defined)
      .filter(([a]) => a === from)
      .map(([a, b]) => difference(a, b))
      .filter((w) => w !== undefined);
    expect(wrong).toEqual([]);
  });

  it('is a great many pairs', () => {
    expect(pairs(defined).length).toBeGreaterThan(700);
  });

  it('so much in so much', () => {
    expect(pairs(COMPOUNDS).length).toBeGreaterThan(60);
    expect(
      pairs(COMPOUNDS)
        .map(([a, b]) => difference(a, b))
        .filter((w) => w !== undefined),
    ).toEqual([]);
  });
});

describe('every code', () => {
  it.each([...UNITS, ...COMPOUNDS].map((u) => [u.code, u] as const))(
    '%s goes out as valid UCUM and comes in again',
    (code, u) => {
      expect(ucum.validateUnitString(code)).toMatchObject({ status: 'valid', ucumCode: code });
      const out = quantityJson(quantity(2, u));
      expect(unitByCode(out.unit)).toBe(u);
      const typed = parseQuantity(`${out.value} ${out.unit}`);
      if (code === '1') expect(typed.ok).toBe(false);
      else expect(typed.ok && typed.value.unit).toBe(u);
    },
  );
});

describe('what UCUM lacks or sees otherwise', () => {
  it('has no unit of its own for these, which are annotations', () => {
    const measures = UNITS.filter((u) => isAnnotated(u) && u.dimension !== 'count');
    expect(measures.map((u) => u.code)).toEqual([
      '{fl_sc_br}',
      '{dessertspoon}',
      '{metric_cup}',
      '{wineglass}',
      '{teacup}',
      '{tumbler}',
      '%{m/m}',
      '%{v/v}',
      '%{w/v}',
      '%{v/m}',
    ]);
  });

  it('counts every % alike, so that by mass turns into by volume: here they stay apart', () => {
    expect(ucum.convertUnitTo('%{m/m}', 45, '%{v/v}').toVal).toBe(45);
    expect(convert(quantity(45, '%{m/m}'), mustUnit('%{v/v}')).ok).toBe(false);
  });

  it('makes 20 drops a millilitre of any liquid: here a drop is only a count', () => {
    expect(ucum.convertUnitTo('[drp]', 20, 'mL').toVal).toBeCloseTo(1, 9);
    expect(convert(quantity(20, '[drp]'), mustUnit('mL')).ok).toBe(false);
  });

  it.each(['oz', 'lb', 'pint', 'mcg', 'cc', 'gr'])('refuses the everyday word %s as a code', (word) => {
    expect(ucum.validateUnitString(word).status).not.toBe('valid');
    expect(unitByCode(word)).toBeUndefined();
  });
});
