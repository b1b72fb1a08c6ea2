import type { Matching } from '../checking/case.ts';
import { type Folder, readTable } from '../folder/folder.ts';
import type { Patient } from '../folder/schema/patient.ts';
import {
  type AllergyVocabulary,
  allergyHolds,
  allergyTerm,
  allergyVocabulary,
  familyNamed,
  knownAllergyTarget,
} from '../vocabulary/allergies.ts';
import {
  type ConditionVocabulary,
  conditionHolds,
  conditionTerm,
  conditionVocabulary,
  knownConditionTarget,
} from '../vocabulary/conditions.ts';
import {
  knownMedicineTarget,
  type MedicineVocabulary,
  medicineMatches,
  medicineTerm,
  medicineVocabulary,
} from '../vocabulary/medicines.ts';
import { failedLoading, type Loading } from './load.ts';

/** How words meet where nobody was named: nothing holds, and no table is read. */
export const NOBODY: Matching = {
  medicine: () => false,
  condition: () => false,
  allergy: () => false,
  medicineTerm: (t) => t,
  conditionTerm: (t) => t,
  allergyTerm: (t) => t,
  knows: { medicine: () => true, condition: () => true, allergy: () => true },
  familyNamed: () => null,
};

/** The tables that a person's words need; null for those that no word of theirs needs. */
export interface Vocabularies {
  readonly medicines: MedicineVocabulary | null;
  readonly conditions: ConditionVocabulary | null;
  readonly allergies: AllergyVocabulary | null;
}

export async function loadVocabularies(p: Patient, folder: Folder): Promise<Loading<Vocabularies>> {
  const needsAllergies = (p.allergies ?? []).length > 0;
  let medicines: MedicineVocabulary | null = null;
  if ((p.medicines ?? []).length > 0 || needsAllergies) {
    const [names, groups] = [
      await readTable(folder, 'medicines'),
      await readTable(folder, 'medicine-groups'),
    ];
    if (!names.ok) return failedLoading(names.why);
    if (!groups.ok) return failedLoading(groups.why);
    medicines = medicineVocabulary(names.value.value, groups.value.value);
  }
  let conditions: ConditionVocabulary | null = null;
  if ((p.conditions ?? []).length > 0) {
    const table = await readTable(folder, 'conditions');
    if (!table.ok) return failedLoading(table.why);
    conditions = conditionVocabulary(table.value.value);
  }
  let allergies: AllergyVocabulary | null = null;
  if (needsAllergies && medicines) {
    const table = await readTable(folder, 'allergies');
    if (!table.ok) return failedLoading(table.why);
    allergies = allergyVocabulary(table.value.value, medicines);
  }
  return { ok: true, value: { medicines, conditions, allergies } };
}

/** How this person's words meet those of the monographs. */
export function matchingOf({ medicines, conditions, allergies }: Vocabularies): Matching {
  return {
    medicine: (taken, target) => (medicines ? medicineMatches(medicines, taken, target) : false),
    condition: (stated, target) => (conditions ? conditionHolds(conditions, stated, target) : false),
    allergy: (stated, target) => (allergies ? allergyHolds(allergies, stated, target) : false),
    medicineTerm: (target) => (medicines ? medicineTerm(medicines, target) : target),
    conditionTerm: (target) => (conditions ? conditionTerm(conditions, target) : target),
    allergyTerm: (target) => (allergies ? allergyTerm(allergies, target) : target),
    knows: {
      medicine: (target) => medicines === null || knownMedicineTarget(medicines, target),
      condition: (target) => conditions === null || knownConditionTarget(conditions, target),
      // A genus of a plant that the tables do not list still meets an allergy to that very plant.
      allergy: (target) =>
        allergies === null || knownAllergyTarget(allergies, target) || /^[A-Z][a-z-]+$/.test(target),
    },
    familyNamed: (family) => (allergies ? familyNamed(allergies, family) : null),
  };
}
