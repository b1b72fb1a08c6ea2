import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Exact, exact } from '../../src/measure/exact.ts';
import { glycerolDensity, glycerolFraction } from '../../src/measure/glycerol.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { value } from '../compounding/formula.ts';

// Each fraction is found by some 45 densities of 60 digits.
const FEW = { numRuns: 15 };

describe('glycerol', () => {
  const percent = fc.integer({ min: 1, max: 9999 }).map((n) => exact(n).div(100));
  const density = (w: Exact): Exact => value(glycerolDensity(w)).value;

  it('a strength by volume and the share by mass lead back to each other by the density', () => {
    fc.assert(
      fc.property(percent, (p) => {
        const w = value(glycerolFraction(quantity(p, '%{v/v}')));
        // mL of glycerol in 100 mL of the mixture = its mass / the density of glycerol
        const back = w
          .times(density(w))
          .div(density(exact(1)))
          .times(100);
        expect(back.minus(p).abs().lt('1e-9')).toBe(true);
        expect(
          value(glycerolFraction(quantity(p, '%{m/m}')))
            .times(100)
            .eq(p),
        ).toBe(true);
      }),
      FEW,
    );
  });

  it('is denser the more of it there is, and by mass is the larger figure', () => {
    fc.assert(
      fc.property(percent, percent, (a, b) => {
        fc.pre(!a.eq(b));
        const [low, high] = a.lt(b) ? [a, b] : [b, a];
        expect(density(high.div(100)).gt(density(low.div(100)))).toBe(true);
        expect(
          value(glycerolFraction(quantity(a, '%{v/v}')))
            .times(100)
            .gt(a),
        ).toBe(true);
      }),
      FEW,
    );
  });
});
