import type { Formula } from '../folder/schema/formula.ts';

/** Kinds that are made with honey or sugar by themselves. */
const MADE_WITH: Readonly<Record<string, readonly string[]>> = {
  honey: ['honey'],
  oxymel: ['honey'],
  syrup: ['syrup'],
};

/** Whether a formula is made with one of these, as its kind, as a vehicle, or in the form of one of its herbs. */
export function holdsVehicle({ preparation, ingredients }: Formula, vehicles: readonly string[]): boolean {
  const named = [
    ...(MADE_WITH[preparation.kind] ?? []),
    ...ingredients.flatMap((i) => [i.vehicle ?? '', ...(MADE_WITH[i.form ?? ''] ?? [])]),
  ];
  return named.some((v) => vehicles.includes(v));
}
