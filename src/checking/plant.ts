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
  const wanted = normal(latin);
  const names = monograph ? latinForms(monograph.names.latin) : [herb];
  return names.map(normal).some((name) => name === wanted || name.startsWith(`${wanted} `));
}
