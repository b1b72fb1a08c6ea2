import type { Monograph } from '../folder/schema/monograph.ts';
import type { StatedAllergy } from '../vocabulary/allergies.ts';
import type { Case } from './case.ts';

/** How an allergy stands to a plant: the plant itself, its family, or a known cross-reaction. */
export type PlantAllergy = 'allergy-to-the-herb' | 'same-family' | 'cross-link';

/** The genus of a monograph's plant: the first word of its Latin name, without a hybrid sign. */
export function genusOf(m: Monograph): string {
  return (m.names.latin.replace(/^[x\u00d7]\s+/, '').split(/[\s,]/)[0] ?? '').trim();
}

/** How an allergy stands to the plant of a monograph; null where it has nothing to do with it. */
export function plantAllergy(m: Monograph, item: StatedAllergy, c: Case): PlantAllergy | null {
  const plant = c.matching.allergy([item], genusOf(m));
  if (plant === true) return 'allergy-to-the-herb';
  const family = c.matching.familyNamed(m.family);
  const kin = family === null ? false : c.matching.allergy([item], family);
  if (kin === true) return 'same-family';
  return kin === 'unknown' || plant === 'unknown' ? 'cross-link' : null;
}
