import { type Exact, exact, one, zero } from '../exact.ts';
import { type Curve, densityCurve } from './density.ts';

/**
 * The temperature that volumes and % v/v hold at. A strength by volume without it is not one figure: 20 C in Europe
 * (Directive 76/766/EEC), 60 F in the United States (27 CFR 30) and in old pharmacopoeias.
 */
export interface Reference {
  readonly says: string;
  readonly celsius: Exact;
  /** Density in kg/m3 against mass fraction, and its two ends. */
  readonly density: Curve;
  readonly water: Exact;
  readonly ethanol: Exact;
}

function reference(says: string, celsius: Exact): Reference {
  const density = densityCurve(celsius);
  return { says, celsius, density, water: density(zero).value, ethanol: density(one).value };
}

export const AT_20C: Reference = reference('20 C', exact(20));

/** 60 F is 140/9 C, 15.5556 C; kept to 60 figures, as a decimal of it never ends. */
export const AT_60F: Reference = reference('60 F', exact(140).div(9));
