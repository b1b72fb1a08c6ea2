import { type Exact, exact, one } from './exact.ts';
import type { Cited } from './figure.ts';
import { type Quantity, quantity } from './quantity.ts';
import { bad, ok, type Result } from './result.ts';
import { gramPerMillilitre } from './units.ts';

/** As a sugar-crystalliser modelling paper and a sedimentation script quote it; that it is ICUMSA's is from memory. */
export const SUCROSE_DENSITY: Cited = {
  key: 'sucrose-density',
  body: 'ICUMSA',
  title: 'Density of sucrose solutions, polynomial in mass fraction and temperature',
  year: '2005',
  reading: 'restated',
};

/** kg/m3 at 20 C: the terms of the mass fraction, from the first power on; the others vanish at this temperature. */
const TERMS = ['385.1761', '135.3705', '40.9299', '-3.9643', '13.4853', '-17.289'];

/** Water at 20 C in kg/m3 by the polynomial's own rational function. */
function water(): Exact {
  const t = exact(20);
  const terms = [
    '999.83952',
    '16.952577',
    '-7.9905127e-3',
    '-46.241757e-6',
    '105.84601e-9',
    '-281.03006e-12',
  ];
  const top = terms.reduceRight((sum, c) => sum.times(t).plus(c), exact(0));
  return top.div(one.plus(t.times('16.887236e-3')));
}
const WATER = water();

/** Density at 20 C, in g/mL, of sucrose in water with the mass fraction w (0 to 1). Errors: a fraction outside. */
export function sucroseDensity(w: Exact): Result<Quantity> {
  if (w.lt(0) || w.gt(1)) return bad(`sucrose of ${w.toFixed()} by mass lies outside 0 to 1`);
  const over = TERMS.reduceRight((sum, c) => sum.plus(c).times(w), exact(0));
  return ok(quantity(WATER.plus(over).div(1000), gramPerMillilitre));
}
