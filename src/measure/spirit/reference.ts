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

/** The curve is worked out when it is first asked for: most of what the program does meets no spirit. */
function reference(says: string, celsius: Exact): Reference {
  let known: Pick<Reference, 'density' | 'water' | 'ethanol'> | undefined;
  const worked = (): Pick<Reference, 'density' | 'water' | 'ethanol'> => {
    if (known) return known;
    const density = densityCurve(celsius);
    known = { density, water: density(zero).value, ethanol: density(one).value };
    return known;
  };
  return {
    says,
    celsius,
    get density() {
      return worked().density;
    },
    get water() {
      return worked().water;
    },
    get ethanol() {
      return worked().ethanol;
    },
  };
}

export const AT_20C: Reference = reference('20 C', exact(20));

/** 60 F is 140/9 C, 15.5556 C; kept to 60 figures, as a decimal of it never ends. */
export const AT_60F: Reference = reference('60 F', exact(140).div(9));
