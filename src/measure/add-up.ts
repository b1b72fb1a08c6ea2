import { type Figure, worked } from './figure.ts';
import { plus, type Quantity } from './quantity.ts';

/** Figures of one dimension added up, in the unit of the first. Throws where there are none. */
export function addUp(figures: readonly Figure<Quantity>[], says: string): Figure<Quantity> {
  const total = figures.map((f) => f.value).reduce((a, b) => plus(a, b));
  return worked(total, says, figures.map(() => '{}').join(' + '), figures);
}
