import type { Formula, Ingredient } from './schema/formula.ts';

/** The herb, or what carries it: no formula names one of them twice. */
export const keyOf = (i: Ingredient): string => i.herb ?? i.vehicle ?? '';

/** The herbs of a formula by their ids, without what carries them. */
export const herbsIn = (f: Formula): string[] => f.ingredients.flatMap((i) => i.herb ?? []);
