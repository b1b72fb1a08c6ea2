import { latinForms } from '../folder/latin-name.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import { normal } from '../vocabulary/normal.ts';

/** A herb as it stands in a case: with its monograph, or by the word that was written for it. */
interface Named {
  readonly herb: string;
  readonly monograph: Monograph | null;
}

/**
 * Whether a herb is of a species, or of a genus for all of its species. A herb without a monograph is known by the
 * Latin name that it is written by, with or without the part: `lobelia-inflata`, `Atropa belladonna root`.
 */
export function isPlant({ herb, monograph }: Named, latin: string): boolean {
  const wanted = wantedOf(latin);
  const names = monograph ? namesOf(monograph) : [normal(herb)];
  return names.some((name) => name === wanted || name.startsWith(`${wanted} `));
}

/** The plants of the tables, a few hundred names. */
const normalNames = new Map<string, string>();

function wantedOf(latin: string): string {
  const before = normalNames.get(latin) ?? normal(latin);
  normalNames.set(latin, before);
  return before;
}

/** A herb is held against every plant of a table, and its names are worked out once. */
function namesOf(monograph: Monograph): readonly string[] {
  const names = known.get(monograph) ?? latinForms(monograph.names.latin).map(normal);
  known.set(monograph, names);
  return names;
}

const known = new WeakMap<Monograph, readonly string[]>();
