import { type Exact, exact } from '../../../src/measure/exact.ts';
import { parseQuantity, parseRatio } from '../../../src/measure/parse.ts';
import type { Quantity } from '../../../src/measure/quantity.ts';
import { must } from '../../must.ts';

/** Figures for the tests of spirit, written as a person writes them. */

export const q = (text: string): Quantity => must(parseQuantity(text));
export const ratio = (text: string) => must(parseRatio(text));
export const vol = (percent: string): Quantity => q(`${percent} % v/v`);
export const mass = (percent: string): Quantity => q(`${percent} % m/m`);

/** How far a figure is from a printed one. */
export const off = (figure: Exact | Quantity, printed: string): number =>
  ('unit' in figure ? figure.value : figure).minus(exact(printed)).abs().toNumber();

/** The temperature in degrees C of one in degrees F. */
export const fahrenheit = (degrees: string): Exact => exact(degrees).minus(32).times(5).div(9);
