import { type Exact, exact, one } from './exact.ts';
import type { Cited } from './figure.ts';
import type { Strength } from './parse.ts';
import { type Quantity, quantity } from './quantity.ts';
import { bad, ok, type Result } from './result.ts';
import { gramPerMillilitre } from './units.ts';
import { write } from './write.ts';

/** Read through three public implementations that agree. */
export const GLYCEROL_DENSITY: Cited = {
  key: 'glycerol-density',
  body: 'Experiments in Fluids',
  title: 'Density model for aqueous glycerol solutions',
  ref: '59:75, doi 10.1007/s00348-018-2527-y',
  year: '2018',
  reading: 'restated',
};

const AT = exact(20);
const PI = exact('3.14159265358979323846264338327950288419716939937510582');

/** kg/m3 at 20 C: water and glycerol by the model's own terms. A broken power takes long, and waits until it is needed. */
let waterKnown: Exact | undefined;
function waterDensity(): Exact {
  waterKnown ??= exact(1000).times(one.minus(AT.minus('3.98').div(615).pow('1.71')));
  return waterKnown;
}
const GLYCEROL = exact('1273.3').minus(AT.times('0.6121'));
const SWELL = AT.pow(2).times('1.78e-6').minus(AT.times('1.82e-4')).plus('1.41e-2');

/**
 * Density at 20 C, in g/mL, of glycerol in water with the mass fraction w (0 to 1): rho = k (rw + w (rg - rw) /
 * (w + (rg/rw)(1 - w))), k = 1 + (1.78e-6 t2 - 1.82e-4 t + 1.41e-2) sin(pi w^1.31)^0.81. Valid from 15 to 30 C; its
 * own water is 0.15 kg/m3 light. Errors: a fraction outside 0 to 1.
 */
export function glycerolDensity(w: Exact): Result<Quantity> {
  if (w.lt(0) || w.gt(1)) return bad(`glycerol of ${w.toFixed()} by mass lies outside 0 to 1`);
  const water = waterDensity();
  const shared = w.times(GLYCEROL.minus(water)).div(w.plus(GLYCEROL.div(water).times(one.minus(w))));
  const sine = w.isZero() || w.eq(1) ? exact(0) : PI.times(w.pow('1.31')).sin();
  const k = one.plus(SWELL.times(sine.gt(0) ? sine.pow('0.81') : 0));
  return ok(quantity(k.times(water.plus(shared)).div(1000), gramPerMillilitre));
}

/**
 * The mass fraction of a glycerol strength. By volume (mL of glycerol in 100 mL at 20 C) it is found by halving, for the
 * glycerol in 1 mL rises with the fraction. Errors: a strength that is neither by mass nor by volume.
 */
export function glycerolFraction(strength: Strength): Result<Exact> {
  const { dimension } = strength.unit;
  const share = strength.value.div(100);
  if (dimension === 'share m/m') return ok(share);
  if (dimension !== 'share v/v')
    return bad(`${write(strength)} is not a strength of glycerol: write % v/v or % m/m`);
  let [low, high] = [exact(0), one];
  const wanted = share.times(GLYCEROL).div(1000);
  // 45 halvings are below a billionth of a per cent.
  for (let i = 0; i < 45; i += 1) {
    const middle = low.plus(high).div(2);
    const density = glycerolDensity(middle);
    if (!density.ok) return density;
    if (middle.times(density.value.value).lt(wanted)) low = middle;
    else high = middle;
  }
  return ok(low.plus(high).div(2));
}
