import { fileURLToPath } from 'node:url';
import type { FileKind, Holds } from '../../src/folder/kinds.ts';
import { readDocument } from '../../src/folder/read.ts';
import { allergyVocabulary } from '../../src/vocabulary/allergies.ts';
import { conditionVocabulary } from '../../src/vocabulary/conditions.ts';
import type { Found } from '../../src/vocabulary/found.ts';
import { medicineVocabulary } from '../../src/vocabulary/medicines.ts';

/** The shipped tables, read as the program reads them. */

async function table<K extends FileKind>(kind: K): Promise<Holds[K]> {
  const path = fileURLToPath(new URL(`../../monographs/reference/${kind}.yaml`, import.meta.url));
  const read = await readDocument(kind, path, `${kind}.yaml`);
  if (!read.ok) throw new Error(read.why.map((p) => `${p.line}: ${p.message}`).join('\n'));
  return read.value.value;
}

export const medicineTable = await table('medicines');
export const groupTable = await table('medicine-groups');
export const conditionTable = await table('conditions');
export const allergyTable = await table('allergies');

export const medicines = medicineVocabulary(medicineTable, groupTable);
export const conditions = conditionVocabulary(conditionTable);
export const allergies = allergyVocabulary(allergyTable, medicines);

/** The item of a word that is found; anything else fails the test with what became of it. */
export function item<T>(found: Found<T>): T {
  if (found.kind !== 'found') throw new Error(JSON.stringify(found));
  return found.item;
}
