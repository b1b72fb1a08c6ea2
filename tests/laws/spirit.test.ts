// What holds for every mixture of ethanol and water, not only for the printed cells.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Exact, exact, sum } from '../../src/measure/exact.ts';
import { type Quantity, quantity } from '../../src/measure/quantity.ts';
import { blendTo } from '../../src/measure/spirit/blend.ts';
import { densityCurve, spiritDensity } from '../../src/measure/spirit/density.ts';
import { ethanolIn } from '../../src/measure/spirit/ethanol.ts';
import { finalStrength } from '../../src/measure/spirit/fresh.ts';
import { strengthFromDensity, trueStrength } from '../../src/measure/spirit/hydrometer.ts';
import { dilute, mixture, type Part, useUp } from '../../src/measure/spirit/mixing.ts';
import { AT_20C, AT_60F } from '../../src/measure/spirit/reference.ts';
import { spiritNeeded } from '../../src/measure/spirit/spirit-needed.ts';
import { densityOfSpirit, toMassStrength, toVolumeStrength } from '../../src/measure/spirit/strength.ts';
import { must } from '../must.ts';

/** Hundredths, so that neighbours are never nearer than anyone measures. */
const hundredths = (min: number, max: number): fc.Arbitrary<Exact> =>
  fc.integer({ min: min * 100, max: max * 100 }).map((n) => exact(n).div(100));
const vol = (percent: Exact): Quantity => quantity(percent, '%{v/v}');
const mL = (volume: Exact): Quantity => quantity(volume, 'mL');
const g = (mass: Exact): Quantity => quantity(mass, 'g');
const ordered = (a: Exact, b: Exact): [Exact, Exact] => (a.lte(b) ? [a, b] : [b, a]);

const strength = (min = 0, max = 100) =>
  fc.tuple(hundredths(min, max), fc.constantFrom('%{v/v}', '%{m/m}')).map(([p, unit]) => quantity(p, unit));
const amount = fc
  .tuple(hundredths(1, 5000), fc.constantFrom('mL', 'g'))
  .map(([n, unit]) => quantity(n, unit));
const parts = (min = 0): fc.Arbitrary<Part[]> =>
  fc.array(fc.record({ amount, strength: strength(min) }), { minLength: 1, maxLength: 4 });
const reference = fc.constantFrom(AT_20C, AT_60F);
const celsius = hundredths(-20, 40);

/** Equal but for the last figures of a long sum. */
const agree = (a: Exact, b: Exact): boolean => a.minus(b).abs().lte(a.abs().plus(1).times('1e-38'));

describe('density', () => {
  it('strictly falls as ethanol takes the place of water, at every temperature', () => {
    fc.assert(
      fc.property(hundredths(0, 99), hundredths(0, 99), celsius, (a, b, t) => {
        fc.pre(!a.eq(b));
        const curve = densityCurve(t);
        const [low, high] = ordered(a.div(100), b.div(100));
        expect(curve(low).value.gt(curve(high).value)).toBe(true);
        expect(curve(low).slope.lt(0)).toBe(true);
      }),
    );
  });

  it('of a strong spirit falls with warmth', () => {
    fc.assert(
      fc.property(hundredths(40, 100), celsius, celsius, (p, s, t) => {
        fc.pre(!s.eq(t));
        const [cold, warm] = ordered(s, t);
        const at = (c: Exact) => must(spiritDensity(p.div(100), c)).density.value;
        expect(at(cold).gt(at(warm))).toBe(true);
      }),
    );
  });

  it('leads back to the strength that it came from', () => {
    fc.assert(
      fc.property(strength(), celsius, reference, (s, t, at) => {
        const { density } = must(densityOfSpirit(s, t, at));
        const found = must(strengthFromDensity(density, t, at));
        expect(agree(found.massStrength.value, must(toMassStrength(s, at)).value)).toBe(true);
        expect(agree(found.volumeStrength.value, must(toVolumeStrength(s, at)).value)).toBe(true);
      }),
    );
  });
});

describe('strength', () => {
  it('by mass to by volume and back is the same, at 20 C and at 60 F', () => {
    fc.assert(
      fc.property(strength(), reference, (s, at) => {
        const byVolume = must(toVolumeStrength(must(toMassStrength(s, at)), at));
        const byMass = must(toMassStrength(must(toVolumeStrength(s, at)), at));
        const back = s.unit.symbol === '% v/v' ? byVolume : byMass;
        expect(agree(back.value, s.value)).toBe(true);
      }),
    );
  });

  it('by volume is the larger figure, and rises with that by mass', () => {
    fc.assert(
      fc.property(hundredths(1, 99), hundredths(1, 99), (a, b) => {
        fc.pre(!a.eq(b));
        const [low, high] = ordered(a, b);
        const at = (p: Exact) => must(toVolumeStrength(quantity(p, '%{m/m}'))).value;
        expect(at(low).gt(low)).toBe(true);
        expect(at(high).gt(at(low))).toBe(true);
      }),
    );
  });

  it('reads higher on a warm alcoholometer than it is, and lower on a cold one', () => {
    fc.assert(
      fc.property(hundredths(25, 75), hundredths(11, 30), (reading, t) => {
        fc.pre(!t.eq(20));
        const found = must(trueStrength(vol(reading), t)).volumeStrength.value;
        expect(found.comparedTo(reading)).toBe(t.gt(20) ? -1 : 1);
      }),
    );
  });
});

describe('mixing', () => {
  it('loses neither mass nor ethanol', () => {
    fc.assert(
      fc.property(parts(), reference, (all, at) => {
        const made = must(mixture(all, at));
        const ethanol = sum(all.map((p) => must(ethanolIn(p.amount, p.strength, at)).mass.value));
        expect(agree(made.ethanol.value, ethanol)).toBe(true);
        const each = sum(all.map((p) => must(mixture([p], at)).mass.value));
        expect(agree(made.mass.value, each)).toBe(true);
        // Reckoned once more from the finished liquid alone.
        const held = must(ethanolIn(made.volume, made.volumeStrength, at)).mass.value;
        expect(agree(held, ethanol)).toBe(true);
      }),
    );
  });

  it('ends between its weakest and its strongest part', () => {
    fc.assert(
      fc.property(parts(), (all) => {
        const made = must(mixture(all)).massStrength.value;
        const each = all.map((p) => must(toMassStrength(p.strength)).value);
        const slack = exact('1e-38');
        expect(each.some((s) => s.lte(made.plus(slack)))).toBe(true);
        expect(each.some((s) => s.gte(made.minus(slack)))).toBe(true);
      }),
    );
  });

  it('fills no more than its parts did, where each is 20 % m/m or more', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ amount, strength: hundredths(20, 100).map((p) => quantity(p, '%{m/m}')) }), {
          minLength: 1,
          maxLength: 4,
        }),
        reference,
        (all, at) => {
          expect(must(mixture(all, at)).contraction.value.gte(0)).toBe(true);
        },
      ),
    );
  });

  // Where weak spirit meets water, specific volume against mass fraction is not convex: a mixture near 8 % m/m stands
  // above the line from water to 23 % m/m by 0.151 % at 20 C and 0.184 % at 60 F (the formula's own lower hull).
  it('and never above 0.185 % more where weak spirit is among them', () => {
    fc.assert(
      fc.property(parts(), reference, (all, at) => {
        const { contraction, volume } = must(mixture(all, at));
        expect(contraction.value.gte(volume.value.times('-0.00185'))).toBe(true);
      }),
    );
  });

  it('absolute ethanol and water always shrink', () => {
    fc.assert(
      fc.property(hundredths(1, 5000), hundredths(1, 5000), (a, b) => {
        const made = must(
          mixture([
            { amount: mL(a), strength: vol(exact(100)) },
            { amount: mL(b), strength: vol(exact(0)) },
          ]),
        );
        expect(made.contraction.value.gt(0)).toBe(true);
      }),
    );
  });

  it('does not depend on the order of its parts', () => {
    fc.assert(
      fc.property(parts(), (all) => {
        const [one, other] = [must(mixture(all)), must(mixture([...all].reverse()))];
        expect(agree(one.volume.value, other.volume.value)).toBe(true);
        expect(agree(one.volumeStrength.value, other.volumeStrength.value)).toBe(true);
      }),
    );
  });
});

describe('diluting', () => {
  const twoStrengths = fc
    .tuple(hundredths(1, 100), hundredths(1, 100))
    .map(([a, b]) => ordered(a, b).map(vol) as [Quantity, Quantity]);

  it('stock and water, mixed back, are what was asked for', () => {
    fc.assert(
      fc.property(twoStrengths, amount, reference, ([to, from], make, at) => {
        const { stock, water, made } = must(dilute({ to, make, from }, at));
        const back: Part[] = [{ amount: stock.mass, strength: from }];
        if (water.volume.value.gt(0)) back.push({ amount: water.volume, strength: vol(exact(0)) });
        const mixed = must(mixture(back, at));
        expect(agree(mixed.volumeStrength.value, to.value)).toBe(true);
        expect(agree(mixed.volume.value, made.volume.value)).toBe(true);
        expect(agree(mixed.contraction.value, made.contraction.value)).toBe(true);
        expect(agree(stock.mass.value.plus(water.mass.value), made.mass.value)).toBe(true);
        const wanted = make.unit.symbol === 'mL' ? made.volume : made.mass;
        expect(wanted.value.eq(make.value)).toBe(true);
      }),
    );
  });

  it('using the stock up is the same dilution the other way round', () => {
    fc.assert(
      fc.property(twoStrengths, amount, ([to, from], make) => {
        const forward = must(dilute({ to, make, from }));
        const back = must(useUp({ from, amount: forward.stock.volume, to }));
        expect(agree(back.water.volume.value, forward.water.volume.value)).toBe(true);
        expect(agree(back.made.volume.value, forward.made.volume.value)).toBe(true);
      }),
    );
  });

  it('a weaker target never takes more of the stock', () => {
    fc.assert(
      fc.property(twoStrengths, hundredths(1, 5000), ([low, high], make) => {
        const stock = (to: Quantity) =>
          must(dilute({ to, make: mL(make), from: vol(exact(100)) })).stock.volume.value;
        expect(stock(low).lte(stock(high))).toBe(true);
      }),
    );
  });
});

describe('blending', () => {
  it('reaches a target exactly where it lies between the strengths, and then adds up', () => {
    fc.assert(
      fc.property(
        fc.array(strength(), { minLength: 2, maxLength: 5 }),
        strength(),
        amount,
        (of, target, make) => {
          const wanted = must(toMassStrength(target)).value;
          const each = of.map((s) => must(toMassStrength(s)).value);
          const within = each.some((s) => s.lte(wanted)) && each.some((s) => s.gte(wanted));
          const r = must(blendTo({ of, target, make }));
          expect(r.reachable).toBe(within);
          if (!r.reachable) {
            const nearest = must(toMassStrength(r.nearest)).value;
            const away = nearest.minus(wanted).abs();
            expect(each.every((s) => s.minus(wanted).abs().gte(away.minus('1e-38')))).toBe(true);
            return;
          }
          expect(agree(r.made.massStrength.value, wanted)).toBe(true);
          expect(agree(sum(r.parts.map((p) => p.mass.value)), r.made.mass.value)).toBe(true);
          expect(r.parts.every((p) => p.mass.value.gte(0))).toBe(true);
          const asAsked = make.unit.symbol === 'mL' ? r.made.volume : r.made.mass;
          expect(agree(asAsked.value, make.value)).toBe(true);
        },
      ),
    );
  });
});

describe('fresh plants', () => {
  const plant = hundredths(1, 2000).map(g);
  const moisture = hundredths(1, 95);
  const share = (p: Exact): Quantity => quantity(p, '%');

  it('a wetter plant ends weaker and in more liquid', () => {
    fc.assert(
      fc.property(plant, moisture, moisture, hundredths(10, 3000), strength(1), (herb, a, b, pour, s) => {
        fc.pre(!a.eq(b));
        const [low, high] = ordered(a, b).map(share) as [Quantity, Quantity];
        const fresh = must(
          finalStrength({ plant: herb, moisture: { low, high }, spirit: mL(pour), strength: s }),
        );
        expect(fresh.wettest.massStrength.value.lt(fresh.driest.massStrength.value)).toBe(true);
        expect(fresh.wettest.volumeStrength.value.lt(fresh.driest.volumeStrength.value)).toBe(true);
        expect(fresh.wettest.mass.value.gt(fresh.driest.mass.value)).toBe(true);
        expect(fresh.wettest.volume.value.gt(fresh.driest.volume.value)).toBe(true);
        expect(agree(fresh.wettest.ethanol.value, fresh.driest.ethanol.value)).toBe(true);
      }),
    );
  });

  it('what is said to be needed ends at the target, and needs no more than is in hand', () => {
    fc.assert(
      fc.property(plant, moisture, amount, strength(1, 95), strength(50), (herb, wet, pour, target, from) => {
        const asked = { plant: herb, moisture: share(wet), pour, target, from };
        const { wettest } = must(spiritNeeded(asked));
        const wanted = must(toMassStrength(target)).value;
        if (wettest.reachable) {
          const ends = must(
            finalStrength({
              plant: herb,
              moisture: share(wet),
              spirit: pour,
              strength: wettest.massStrength,
            }),
          ).wettest;
          expect(agree(ends.massStrength.value, wanted)).toBe(true);
          expect(wettest.massStrength.value.lte(must(toMassStrength(from)).value)).toBe(true);
          expect(wettest.massStrength.value.gt(wanted)).toBe(true);
        } else {
          expect(wettest.best.massStrength.value.lt(wanted)).toBe(true);
          if (wettest.enough === null) return;
          const more = must(
            finalStrength({
              plant: herb,
              moisture: share(wet),
              spirit: wettest.enough.mass,
              strength: from,
            }),
          ).wettest;
          expect(more.massStrength.value.minus(wanted).abs().lt('1e-30')).toBe(true);
        }
      }),
    );
  });

  it('what is reachable stays so with a weaker target, a drier plant, more spirit or a stronger one', () => {
    const pair = (min: number, max: number) =>
      fc.tuple(hundredths(min, max), hundredths(min, max)).map(([a, b]) => ordered(a, b));
    fc.assert(
      fc.property(
        plant,
        pair(1, 95),
        pair(50, 3000),
        pair(5, 95),
        pair(50, 100),
        (herb, wet, pour, target, from) => {
          const reaches = (w: Exact, p: Exact, t: Exact, f: Exact): boolean =>
            must(spiritNeeded({ plant: herb, moisture: share(w), pour: mL(p), target: vol(t), from: vol(f) }))
              .wettest.reachable;
          fc.pre(reaches(wet[1], pour[0], target[1], from[0]));
          expect(reaches(wet[1], pour[0], target[0], from[0])).toBe(true);
          expect(reaches(wet[0], pour[0], target[1], from[0])).toBe(true);
          expect(reaches(wet[1], pour[1], target[1], from[0])).toBe(true);
          expect(reaches(wet[1], pour[0], target[1], from[1])).toBe(true);
        },
      ),
    );
  });
});
