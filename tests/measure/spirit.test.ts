import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { parseQuantity, parseRange, parseRatio } from '../../src/measure/parse.ts';
import type { Quantity } from '../../src/measure/quantity.ts';
import type { Result } from '../../src/measure/result.ts';
import { alligation, blendTo } from '../../src/measure/spirit/blend.ts';
import { AT_20_DEGREES, OF_MIXTURES, OF_WATER } from '../../src/measure/spirit/coefficients.ts';
import { ethanolIn, UK_UNIT } from '../../src/measure/spirit/ethanol.ts';
import { finalStrength } from '../../src/measure/spirit/fresh.ts';
import { GLASS, trueStrength } from '../../src/measure/spirit/hydrometer.ts';
import { dilute, mixture, useUp } from '../../src/measure/spirit/mixing.ts';
import { AT_20C, AT_60F } from '../../src/measure/spirit/reference.ts';
import { risingRoot } from '../../src/measure/spirit/root.ts';
import { pourByRatio, spiritNeeded } from '../../src/measure/spirit/spirit-needed.ts';
import { densityOfSpirit, toMassStrength, toVolumeStrength } from '../../src/measure/spirit/strength.ts';
import { write } from '../../src/measure/write.ts';
import { must } from '../must.ts';

const q = (text: string): Quantity => must(parseQuantity(text));
const ratio = (text: string) => must(parseRatio(text));

describe('the formula', () => {
  it('has 12, 6 and 36 coefficients, the last in rows of 11, 10, 9, 4 and 2 (OIML R 22)', () => {
    expect([AT_20_DEGREES.length, OF_WATER.length]).toEqual([12, 6]);
    expect(OF_MIXTURES.map((row) => row.length)).toEqual([11, 10, 9, 4, 2]);
  });

  it('has the slope that two near places show', () => {
    const step = exact('1e-20');
    for (const p of ['0', '0.1', '0.5', '0.93']) {
      const { value, slope } = AT_60F.density(exact(p));
      const next = AT_60F.density(exact(p).plus(step)).value;
      expect(next.minus(value).div(step).minus(slope).abs().lt('1e-12')).toBe(true);
    }
  });
});

describe('finding a root', () => {
  it('to 1e-48, also where a step would leave the bracket', () => {
    const cubic = (x: ReturnType<typeof exact>) => ({
      value: x.pow(3).minus('1e-9'),
      slope: x.pow(2).times(3),
    });
    const root = risingRoot(cubic, exact(0), exact(1));
    expect(root.minus('0.001').abs().lt('1e-47')).toBe(true);
  });

  it('at either end of the bracket', () => {
    const line = (zero: string) => (x: ReturnType<typeof exact>) => ({
      value: x.minus(zero),
      slope: exact(1),
    });
    expect(risingRoot(line('0'), exact(0), exact(1)).abs().lt('1e-47')).toBe(true);
    expect(risingRoot(line('1'), exact(0), exact(1)).minus(1).abs().lt('1e-47')).toBe(true);
  });

  it('where the slope is nothing', () => {
    const flat = (x: ReturnType<typeof exact>) => ({ value: x.minus('0.3'), slope: exact(0) });
    expect(risingRoot(flat, exact(0), exact(1)).minus('0.3').abs().lt('1e-47')).toBe(true);
  });

  it('throws where the function is no number, rather than answer', () => {
    const broken = () => ({ value: exact('NaN'), slope: exact('NaN') });
    expect(() => risingRoot(broken, exact(0), exact(1))).toThrow('no number');
  });
});

describe('strength', () => {
  it('stays to the last figure where it has the wanted basis already', () => {
    expect(must(toVolumeStrength(q('45 % v/v'))).value.toFixed()).toBe('45');
    expect(must(toMassStrength(q('37.8 % m/m'))).value.toFixed()).toBe('37.8');
  });

  it.each(['0', '100'])('%s % is the same by mass and by volume', (percent) => {
    expect(must(toMassStrength(q(`${percent} % v/v`))).value.toFixed()).toBe(percent);
    expect(must(toVolumeStrength(q(`${percent} % m/m`))).value.toFixed()).toBe(percent);
  });

  it('by volume is another figure at 60 F', () => {
    const byMass = must(toMassStrength(q('57.15 % v/v'), AT_60F));
    const at20 = must(toVolumeStrength(byMass, AT_20C));
    expect(at20.value.eq('57.15')).toBe(false);
    expect(at20.value.minus('57.15').abs().lt('0.2')).toBe(true);
  });
});

describe('an alcoholometer', () => {
  it('at its own temperature shows the strength itself', () => {
    const found = must(trueStrength(q('45 % v/v'), exact(20)));
    expect(found.volumeStrength.value.minus(45).abs().lt('1e-40')).toBe(true);
    expect(found.note).toBeNull();
  });

  it('says that the growth of its glass is from memory', () => {
    expect(GLASS.reading).toBe('memory');
  });
});

describe('ethanol in a dose', () => {
  it('5 mL at 45 % v/v hold 2.25 mL, 1.776 g and 0.225 British units', () => {
    const held = must(ethanolIn(q('5 mL'), q('45 % v/v')));
    expect(held.volume.value.toFixed()).toBe('2.25');
    // 2.25 mL at 0.78924 g/mL (OIML R 22).
    expect(held.mass.value.toDecimalPlaces(3).toFixed()).toBe('1.776');
    expect(held.ukUnits.toFixed()).toBe('0.225');
  });

  it('one unit is 10 mL of ethanol, which weighs 7.89 g and not 8; a matter of practice', () => {
    const held = must(ethanolIn(q('25 mL'), q('40 % v/v')));
    expect(held.ukUnits.toFixed()).toBe('1');
    expect(held.mass.value.toDecimalPlaces(2).toFixed()).toBe('7.89');
    expect(UK_UNIT.reading).toBe('practice');
  });

  it('is the same from a mass, and from % m/m', () => {
    const strength = q('45 % v/v');
    const weighed = must(mixture([{ amount: q('5 mL'), strength }])).mass;
    const byMass = must(toMassStrength(strength));
    const answers = [
      ethanolIn(q('5 mL'), strength),
      ethanolIn(q('5 mL'), byMass),
      ethanolIn(weighed, strength),
      ethanolIn(weighed, byMass),
    ].map((r) => must(r).mass.value.toDecimalPlaces(40).toFixed());
    expect(new Set(answers).size).toBe(1);
  });

  it('of water is nothing', () => {
    expect(must(ethanolIn(q('1 tsp'), q('0 % v/v'))).mass.value.toFixed()).toBe('0');
  });
});

describe('diluting', () => {
  it('to the same strength, or the same one by another name, takes no water and shrinks by nothing', () => {
    const other = must(toMassStrength(q('70 % v/v')));
    for (const to of [q('70 % v/v'), other]) {
      const r = must(dilute({ to, make: q('1 L'), from: q('70 % v/v') }));
      expect(write(r.stock.volume)).toBe('1,000 mL');
      expect(write(r.water.volume)).toBe('0 mL');
      expect(write(r.made.contraction)).toBe('0 mL');
    }
  });

  it('makes a mass where a mass is asked for', () => {
    const r = must(dilute({ to: q('45 % v/v'), make: q('1 kg'), from: q('96 % v/v') }));
    expect(r.made.mass.value.toFixed()).toBe('1000');
    expect(r.stock.mass.value.plus(r.water.mass.value).toDecimalPlaces(40).toFixed()).toBe('1000');
  });

  it('uses up what is left of a bottle', () => {
    const r = must(useUp({ from: q('96 % v/v'), amount: q('350 mL'), to: q('60 % v/v') }));
    // 350 x 96 / 60, with water to make it up: more than 210 mL, for it shrinks.
    expect(r.made.volume.value.toFixed()).toBe('560');
    expect(r.water.volume.value.gt(210)).toBe(true);
    expect(r.water.volume.value.plus(350).minus(560).minus(r.made.contraction.value).abs().lt('1e-40')).toBe(
      true,
    );
  });
});

describe('mixing like with like', () => {
  it('shrinks by nothing, in so many figures', () => {
    const made = must(
      mixture([
        { amount: q('100 mL'), strength: q('40 % v/v') },
        { amount: q('230 mL'), strength: q('40 % v/v') },
      ]),
    );
    expect(write(made.contraction)).toBe('0 mL');
    expect(write(made.volume)).toBe('330 mL');
  });
});

describe('blending to a target', () => {
  it('two strengths: the one split there is', () => {
    const r = must(blendTo({ of: [q('96 % v/v'), q('40 % v/v')], target: q('60 % v/v'), make: q('1 L') }));
    if (!r.reachable) throw new Error(r.says);
    expect(r.pairs).toHaveLength(1);
    const [strong, weak] = r.parts;
    const remade = must(
      mixture([
        { amount: strong?.volume ?? q('0 mL'), strength: q('96 % v/v') },
        { amount: weak?.volume ?? q('0 mL'), strength: q('40 % v/v') },
      ]),
    );
    expect(write(remade.volume)).toBe('1,000 mL');
    expect(write(remade.volumeStrength)).toBe('60 % v/v');
  });

  it('with water as one of them it is a dilution', () => {
    const blend = must(blendTo({ of: [q('0 % v/v'), q('96 % v/v')], target: q('45 % v/v'), make: q('1 L') }));
    if (!blend.reachable) throw new Error(blend.says);
    const r = must(dilute({ to: q('45 % v/v'), make: q('1 L'), from: q('96 % v/v') }));
    expect(blend.parts.map((p) => write(p.volume))).toEqual([write(r.water.volume), write(r.stock.volume)]);
  });

  it('says the nearest there is, in the basis of the target', () => {
    const of = [q('50 % v/v'), q('40 % v/v')];
    const above = must(blendTo({ of, target: q('60 % v/v'), make: q('1 L') }));
    expect(above.reachable ? 'reachable' : above.says).toBe(
      '60 % v/v is above all of them: the nearest is 50 % v/v, the one spirit alone',
    );
    const below = must(alligation(of, q('20 % m/m')));
    expect(below.reachable ? 'reachable' : below.says).toBe(
      '20 % m/m is below all of them: the nearest is 33.3 % m/m, the one spirit alone',
    );
  });

  it('one that is the target already is enough by itself, and left out where the others make it', () => {
    const alone = must(alligation([q('60 % m/m'), q('80 % m/m')], q('60 % m/m')));
    const among = must(alligation([q('60 % m/m'), q('80 % m/m'), q('30 % m/m')], q('60 % m/m')));
    const parts = (r: typeof alone) => (r.reachable ? r.parts.map((p) => p.byMass.toFixed()) : []);
    expect(parts(alone)).toEqual(['1', '0']);
    expect(parts(among)).toEqual(['0', '30', '20']);
  });

  it('more than two: where one side runs out, its last is paired again', () => {
    const r = must(
      alligation(
        ['20', '40', '50', '90'].map((p) => q(`${p} % m/m`)),
        q('60 % m/m'),
      ),
    );
    if (!r.reachable) throw new Error(r.says);
    // 50 and 90, 40 and 90, 20 and 90: 30 parts of each weaker, and 10 + 20 + 40 of the stronger.
    expect(r.parts.map((p) => p.byMass.toFixed())).toEqual(['30', '30', '30', '70']);
    expect(r.pairs.map((p) => [p.above.toFixed(), p.below.toFixed()])).toEqual([
      ['10', '30'],
      ['20', '30'],
      ['40', '30'],
    ]);
  });
});

describe('fresh plants', () => {
  const plant = q('300 g');

  it('with no water leave the spirit as it is', () => {
    const fresh = must(
      finalStrength({ plant, moisture: q('0 %'), spirit: q('700 mL'), strength: q('60 % v/v') }),
    );
    expect(write(fresh.wettest.volumeStrength)).toBe('60 % v/v');
    expect(write(fresh.wettest.contraction)).toBe('0 mL');
    const { wettest } = must(
      spiritNeeded({ plant, moisture: q('0 %'), pour: q('700 mL'), target: q('60 % v/v') }),
    );
    expect(wettest.reachable && write(wettest.volumeStrength)).toBe('60 % v/v');
  });

  it('a range of moisture may be reachable at one end only', () => {
    const r = must(
      spiritNeeded({
        plant,
        moisture: must(parseRange('60-90 %')),
        pour: q('500 mL'),
        target: q('72 % v/v'),
        from: q('96.3 % v/v'),
      }),
    );
    expect([r.driest.reachable, r.wettest.reachable]).toEqual([true, false]);
  });

  it('where the spirit in hand is weaker than the target, no amount of it is enough', () => {
    const { wettest } = must(
      spiritNeeded({
        plant,
        moisture: q('75 %'),
        pour: q('700 mL'),
        target: q('60 % v/v'),
        from: q('40 % v/v'),
      }),
    );
    if (wettest.reachable) throw new Error('must be out of reach');
    expect(wettest.enough).toBeNull();
    expect(wettest.says).toMatch(
      /^not reachable: 700 mL of 40 % v\/v, undiluted, ends at [\d.]+ % v\/v; no amount of it is enough$/,
    );
  });

  it('what absolute ethanol just reaches is reachable, poured by volume or by weight', () => {
    for (const pour of [q('500 mL'), q('400 g')]) {
      const moisture = q('85 %');
      const best = must(finalStrength({ plant, moisture, spirit: pour, strength: q('100 % v/v') })).wettest;
      const { wettest } = must(spiritNeeded({ plant, moisture, pour, target: best.massStrength }));
      expect(wettest.reachable && write(wettest.volumeStrength)).toBe('100 % v/v');
    }
  });

  it('a ratio by weight is poured by weight', () => {
    expect(write(must(pourByRatio(plant, ratio('1:2'), 'w/w')))).toBe('600 g');
    expect(write(must(pourByRatio(plant, ratio('1:2'), 'w/v')))).toBe('600 mL');
    expect(write(must(pourByRatio(q('0.3 kg'), ratio('3:2'), 'w/v')))).toBe('200 mL');
  });
});

describe('speed', () => {
  it('a sum takes a few milliseconds at most', () => {
    const sums: readonly (() => Result<unknown>)[] = [
      () => dilute({ to: q('45 % v/v'), make: q('1 L'), from: q('96 % v/v') }),
      () => densityOfSpirit(q('45 % v/v'), exact(25)),
      () => trueStrength(q('45 % v/v'), exact(25)),
      () =>
        spiritNeeded({
          plant: q('300 g'),
          moisture: q('75 %'),
          pour: q('700 mL'),
          target: q('60 % v/v'),
          from: q('96.3 % v/v'),
        }),
    ];
    for (const sum of sums) {
      const times = Array.from({ length: 15 }, () => {
        const start = performance.now();
        must(sum());
        return performance.now() - start;
      }).sort((a, b) => a - b);
      // The middle of 15, so that one pause of the machine does not decide.
      expect(times[7]).toBeLessThan(10);
    }
  });
});
