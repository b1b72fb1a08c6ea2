// What is refused, and what is said instead.
import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { parseQuantity, parseRange, parseRatio } from '../../src/measure/parse.ts';
import { type Quantity, quantity, type Range } from '../../src/measure/quantity.ts';
import type { Result } from '../../src/measure/result.ts';
import { alligation, blendTo } from '../../src/measure/spirit/blend.ts';
import { spiritDensity } from '../../src/measure/spirit/density.ts';
import { ethanolIn } from '../../src/measure/spirit/ethanol.ts';
import { finalStrength } from '../../src/measure/spirit/fresh.ts';
import { strengthFromDensity, trueStrength } from '../../src/measure/spirit/hydrometer.ts';
import { dilute, mixture, useUp } from '../../src/measure/spirit/mixing.ts';
import { pourByRatio, spiritNeeded } from '../../src/measure/spirit/spirit-needed.ts';
import {
  densityOfSpirit,
  relativeDensity,
  toMassStrength,
  toVolumeStrength,
  volumeFactor,
} from '../../src/measure/spirit/strength.ts';
import { must } from '../must.ts';

const q = (text: string): Quantity => must(parseQuantity(text));
const range = (text: string): Range => must(parseRange(text));
const ratio = (text: string) => must(parseRatio(text));
const why = (r: Result<unknown>): string => (r.ok ? 'accepted' : r.why);

/** Strengths that no spirit has, and what is said of each. */
const IMPOSSIBLE: readonly (readonly [Quantity, string])[] = [
  [quantity(120, '%{v/v}'), '120 % v/v is outside 0 to 100 %: write such as 45 % v/v'],
  [quantity(101, '%{m/m}'), '101 % m/m is outside 0 to 100 %: write such as 45 % m/m'],
  [quantity(-5, '%{v/v}'), '-5 % v/v is outside 0 to 100 %: write such as 45 % v/v'],
  [quantity(45, '%'), '45 % lacks its basis: write % v/v (by volume) or % m/m (by mass)'],
  [quantity(45, '%{w/v}'), '45 % w/v is not a strength of spirit: write such as 45 % v/v or 38 % m/m'],
  [quantity(45, 'mL'), '45 mL is not a strength of spirit: write such as 45 % v/v or 38 % m/m'],
];

describe('a strength that cannot be', () => {
  const fine = q('96 % v/v');
  const plant = { plant: q('300 g'), moisture: q('75 %') };

  it.each(IMPOSSIBLE)('%# is refused wherever a strength is asked for', (strength, said) => {
    const everywhere: readonly Result<unknown>[] = [
      toMassStrength(strength),
      toVolumeStrength(strength),
      densityOfSpirit(strength, exact(20)),
      relativeDensity(strength, exact(20)),
      volumeFactor(strength, exact(25)),
      trueStrength(strength, exact(20)),
      ethanolIn(q('10 mL'), strength),
      ethanolIn(q('10 g'), strength),
      mixture([
        { amount: q('1 L'), strength: fine },
        { amount: q('1 L'), strength },
      ]),
      dilute({ to: strength, make: q('1 L'), from: fine }),
      dilute({ to: q('45 % v/v'), make: q('1 L'), from: strength }),
      useUp({ to: strength, amount: q('1 L'), from: fine }),
      useUp({ to: q('45 % v/v'), amount: q('1 L'), from: strength }),
      alligation([fine, strength], q('60 % v/v')),
      alligation([fine, q('20 % v/v')], strength),
      blendTo({ of: [fine, strength], target: q('60 % v/v'), make: q('1 L') }),
      blendTo({ of: [fine, q('20 % v/v')], target: strength, make: q('1 L') }),
      finalStrength({ ...plant, spirit: q('700 mL'), strength }),
      spiritNeeded({ ...plant, pour: q('700 mL'), target: strength }),
      spiritNeeded({ ...plant, pour: q('700 mL'), target: q('60 % v/v'), from: strength }),
    ];
    expect(new Set(everywhere.map(why))).toEqual(new Set([said]));
  });
});

describe('an amount that is none', () => {
  const NONE: readonly (readonly [Quantity, string])[] = [
    [q('0 mL'), 'an amount must be above 0: write such as 500 mL, not 0 mL'],
    [quantity(-1, 'g'), 'an amount must be above 0: write such as 500 g, not -1 g'],
    [q('3 days'), 'day measures time: an amount of spirit is written such as 500 mL or 400 g'],
  ];

  it.each(NONE)('%# is refused wherever an amount is asked for', (amount, said) => {
    const [strong, weak] = [q('96 % v/v'), q('45 % v/v')];
    const plant = { plant: q('300 g'), moisture: q('75 %') };
    const everywhere: readonly Result<unknown>[] = [
      ethanolIn(amount, strong),
      mixture([{ amount, strength: strong }]),
      dilute({ to: weak, make: amount, from: strong }),
      useUp({ to: weak, amount, from: strong }),
      blendTo({ of: [strong, weak], target: q('60 % v/v'), make: amount }),
      finalStrength({ ...plant, spirit: amount, strength: strong }),
      spiritNeeded({ ...plant, pour: amount, target: weak }),
      spiritNeeded({ ...plant, pour: amount, target: weak, from: strong }),
    ];
    expect(new Set(everywhere.map(why))).toEqual(new Set([said]));
  });

  it('nothing to mix', () => {
    expect(why(mixture([]))).toBe('nothing to mix: give at least one amount with its strength');
  });
});

describe('a temperature that the formula does not reach', () => {
  it.each([
    ['-25', '-25 C is outside -20 to 40 C, between which the density of spirit is known'],
    ['45', '45 C is outside -20 to 40 C, between which the density of spirit is known'],
    ['-20.01', '-20.01 C is outside -20 to 40 C, between which the density of spirit is known'],
  ])('%s C', (celsius, said) => {
    const t = exact(celsius);
    expect(why(spiritDensity(exact('0.5'), t))).toBe(said);
    expect(why(densityOfSpirit(q('45 % v/v'), t))).toBe(said);
    expect(why(volumeFactor(q('45 % v/v'), t))).toBe(said);
    expect(why(strengthFromDensity(q('0.92 g/mL'), t))).toBe(said);
    expect(why(trueStrength(q('45 % v/v'), t))).toBe(said);
  });

  it.each(['-20', '40'])('%s C is still inside', (celsius) => {
    expect(why(spiritDensity(exact('0.5'), exact(celsius)))).toBe('accepted');
  });

  it('below 0 C it is said that the mixture may be frozen, from 0 C up nothing is', () => {
    const note = 'below 0 C the mixture may be partly frozen: the figure is that of the liquid';
    expect(must(spiritDensity(exact('0.2'), exact('-0.1'))).note).toBe(note);
    expect(must(densityOfSpirit(q('45 % v/v'), exact(-10))).note).toBe(note);
    expect(must(strengthFromDensity(q('950 g/L'), exact(-5))).note).toBe(note);
    expect(must(spiritDensity(exact('0.2'), exact(0))).note).toBeNull();
  });
});

describe('a mass fraction', () => {
  it.each(['-0.01', '1.01', '45'])('of %s is none', (p) => {
    expect(why(spiritDensity(exact(p), exact(20)))).toBe(`a mass fraction of ${p} is outside 0 to 1`);
  });
});

describe('a density that no spirit has', () => {
  it('above water: something is dissolved in it', () => {
    expect(why(strengthFromDensity(q('1.02 g/mL'), exact(20)))).toBe(
      '1.02 g/mL does not lie between 789.2 g/L (ethanol) and 998.2 g/L (water) at 20 C: something is dissolved in it',
    );
  });

  it('below ethanol', () => {
    expect(why(strengthFromDensity(q('0.78 g/mL'), exact(20)))).toBe(
      '0.78 g/mL does not lie between 789.2 g/L (ethanol) and 998.2 g/L (water) at 20 C',
    );
  });

  it('in another unit', () => {
    expect(why(strengthFromDensity(q('45 % v/v'), exact(20)))).toBe(
      '45 % v/v is not a density: write such as 0.92 g/mL',
    );
  });

  it('water itself and ethanol itself are accepted', () => {
    const ends = (strength: string) => must(densityOfSpirit(q(strength), exact(15))).density;
    const found = (strength: string) => must(strengthFromDensity(ends(strength), exact(15))).volumeStrength;
    expect(found('0 % v/v').value.toDecimalPlaces(40).toFixed()).toBe('0');
    expect(found('100 % v/v').value.toDecimalPlaces(40).toFixed()).toBe('100');
  });

  it('an alcoholometer that shows pure ethanol in the cold is not believed', () => {
    expect(trueStrength(q('100 % v/v'), exact(5)).ok).toBe(false);
  });
});

describe('a dilution that cannot be', () => {
  it('a target above the stock', () => {
    const said = '96 % v/v cannot be made from 45 % v/v: water only weakens it';
    expect(why(dilute({ to: q('96 % v/v'), make: q('1 L'), from: q('45 % v/v') }))).toBe(said);
    expect(why(useUp({ to: q('96 % v/v'), amount: q('1 L'), from: q('45 % v/v') }))).toBe(said);
  });

  it('60 % m/m from 60 % v/v, which is only 52 % m/m', () => {
    expect(dilute({ to: q('60 % m/m'), make: q('1 L'), from: q('60 % v/v') }).ok).toBe(false);
    expect(dilute({ to: q('60 % v/v'), make: q('1 L'), from: q('60 % m/m') }).ok).toBe(true);
  });

  it('to no strength at all, or from water', () => {
    expect(why(dilute({ to: q('0 % v/v'), make: q('1 L'), from: q('96 % v/v') }))).toBe(
      '0 % v/v is water: write a strength above 0',
    );
    expect(why(useUp({ to: q('20 % v/v'), amount: q('1 L'), from: q('0 % v/v') }))).toBe(
      '20 % v/v cannot be made from 0 % v/v: water only weakens it',
    );
  });

  it('a blend of fewer than two strengths', () => {
    const said = 'a blend needs two strengths or more: write such as 96 % v/v and 40 % v/v';
    expect(why(alligation([q('96 % v/v')], q('60 % v/v')))).toBe(said);
    expect(why(blendTo({ of: [], target: q('60 % v/v'), make: q('1 L') }))).toBe(said);
  });
});

describe('a plant that cannot be', () => {
  const asked = { plant: q('300 g'), moisture: q('75 %'), spirit: q('700 mL'), strength: q('96 % v/v') };

  it.each([
    [{ plant: q('300 mL') }, 'mL measures volume: a plant is weighed, such as 300 g'],
    [{ plant: q('0 g') }, 'a plant must weigh more than 0 g: write such as 300 g'],
    [{ moisture: q('100 %') }, 'a moisture of 100 % cannot be: write from 0 to below 100 %, such as 75 %'],
    [
      { moisture: quantity(-1, '%') },
      'a moisture of -1 % cannot be: write from 0 to below 100 %, such as 75 %',
    ],
    [{ moisture: q('75 % v/v') }, '% v/v measures share v/v: moisture is written by mass, such as 75 %'],
    [
      { moisture: range('up to 80 %') },
      'the moisture is open at one end: write from and to, such as 75-80 %',
    ],
    [{ moisture: { low: q('80 %'), high: q('75 %') } }, 'the moisture runs downward: write 75 % to 80 %'],
  ] as const)('%#', (instead, said) => {
    expect(why(finalStrength({ ...asked, ...instead }))).toBe(said);
    const { plant, moisture } = { ...asked, ...instead };
    expect(why(spiritNeeded({ plant, moisture, pour: q('700 mL'), target: q('60 % v/v') }))).toBe(said);
  });

  it('a target of no strength', () => {
    const { plant, moisture } = asked;
    expect(why(spiritNeeded({ plant, moisture, pour: q('700 mL'), target: q('0 % m/m') }))).toBe(
      '0 % m/m is water: write a strength above 0',
    );
  });

  it('a ratio that is a range, or of a volume', () => {
    expect(why(pourByRatio(q('300 g'), ratio('1:2-3'), 'w/v'))).toBe(
      '1:2-3 has a range in it: write one figure a side, such as 1:2',
    );
    expect(why(pourByRatio(q('300 mL'), ratio('1:2'), 'w/v'))).toBe(
      'mL measures volume: a plant is weighed, such as 300 g',
    );
  });
});
