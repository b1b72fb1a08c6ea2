import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { parseUnit } from '../../src/measure/parse.ts';
import { inUnit, quantity } from '../../src/measure/quantity.ts';
import {
  AMBIGUOUS,
  gram,
  kilogram,
  milligram,
  millilitre,
  mustUnit,
  per,
  UNITS,
  unitByCode,
  unitByName,
} from '../../src/measure/units.ts';

describe('a unit', () => {
  it.each(UNITS.map((u) => [u.symbol, u] as const))(
    '%s has a size, a source, a code and a name of its own',
    (_, u) => {
      expect(u.size[0].gt(0) && u.size[1].gt(0)).toBe(true);
      expect(u.from).not.toBe('');
      expect(unitByCode(u.code)).toBe(u);
      for (const name of u.names) expect(unitByName(name)).toBe(u);
    },
  );

  it('is read back from what is written on a sheet, singular and plural', () => {
    for (const u of UNITS) {
      for (const written of [u.symbol, u.plural ?? u.symbol]) {
        const r = parseUnit(written);
        // "cup" of unknown size shares its word with measured cups, and must be settled by the practice.
        if (u.code === '{cup}') expect(r.ok).toBe(false);
        else expect(r.ok && r.value).toBe(u);
      }
    }
  });

  it('has a code made of what UCUM allows', () => {
    for (const u of UNITS) expect(u.code).toMatch(/^[!-~]+$/);
  });

  it('shares its name with no other unit', () => {
    const names = UNITS.flatMap((u) => [...new Set(u.names.map((n) => n.toLowerCase()))]);
    expect(names.length).toBe(new Set(names).size);
  });
});

describe('a word that several units share', () => {
  it('is the name of none of them', () => {
    for (const word of AMBIGUOUS) {
      expect(word.could.length).toBeGreaterThan(1);
      for (const name of word.names) expect(unitByName(name)).toBeUndefined();
    }
  });
});

describe('so much in so much', () => {
  it('mg/5 mL is a fifth of mg/mL', () => {
    const strength = quantity(30, per(milligram, millilitre, exact(5)));
    expect(inUnit(strength, per(milligram, millilitre)).value.toFixed()).toBe('6');
  });

  it('is read from its code, the divisors from left to right', () => {
    const daily = quantity(24, mustUnit('mg/kg/d'));
    expect(inUnit(daily, mustUnit('mg/kg/h')).value.toFixed()).toBe('1');
    expect(daily.unit).toBe(per(per(milligram, kilogram), mustUnit('d')));
    expect(unitByCode('g/(100.mL)')).toBe(per(gram, millilitre, exact(100)));
  });

  it('is not read from a code that divides by nothing or by no unit', () => {
    for (const code of ['g/(0.mL)', 'g/', '/mL', 'g/xyz', 'g//mL', 'g/(mL)'])
      expect(unitByCode(code)).toBeUndefined();
    expect(() => per(gram, millilitre, exact(0))).toThrow(RangeError);
  });

  it('speaks of several drops', () => {
    const count = per(mustUnit('[drp]'), millilitre);
    expect([count.symbol, count.plural]).toEqual(['drop/mL', 'drops/mL']);
  });
});
