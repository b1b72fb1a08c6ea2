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
  urgentSigns,
} from '../vocabulary/conditions.ts';
import {
  knownMedicineTarget,
  type MedicineVocabulary,
  medicineMatches,
  medicineVocabulary,
} from '../vocabulary/medicines.ts';
import { failedLoading, type Loading } from './load.ts';
import { once } from './once.ts';

/** How words meet where nobody was named: nothing holds, and no table is read. */
export const NOBODY: Matching = {
  medicine: () => false,
  condition: () => false,
  allergy: () => false,
  conditionTerm: (t) => t,
  allergyTerm: (t) => t,
  knows: { medicine: () => true, condition: () => true, allergy: () => true },
  signs: () => [],
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
  const needsMedicines = needsAllergies || (p.medicines ?? []).length > 0;
  const medicines = needsMedicines ? await medicinesOf(folder) : NONE;
  if (!medicines.ok) return medicines;
  const conditions = (p.conditions ?? []).length > 0 ? await conditionsOf(folder) : NONE;
  if (!conditions.ok) return conditions;
  const allergies = needsAllergies && medicines.value ? await allergiesOf(folder, medicines.value) : NONE;
  if (!allergies.ok) return allergies;
  return {
    ok: true,
    value: { medicines: medicines.value, conditions: conditions.value, allergies: allergies.value },
  };
}

/** All three, whoever is meant. */
export async function allVocabularies(folder: Folder): Promise<Loading<Vocabularies>> {
  const medicines = await medicinesOf(folder);
  if (!medicines.ok) return medicines;
  const conditions = await conditionsOf(folder);
  if (!conditions.ok) return conditions;
  const allergies = await allergiesOf(folder, medicines.value);
  if (!allergies.ok) return allergies;
  return {
    ok: true,
    value: { medicines: medicines.value, conditions: conditions.value, allergies: allergies.value },
  };
}

const NONE = { ok: true, value: null } as const;

export const medicinesOf = (folder: Folder): Promise<Loading<MedicineVocabulary>> =>
  once(folder, 'vocabulary of medicines', async () => {
    const [names, groups] = [
      await readTable(folder, 'medicines'),
      await readTable(folder, 'medicine-groups'),
    ];
    if (!names.ok) return failedLoading(names.why);
    if (!groups.ok) return failedLoading(groups.why);
    return { ok: true, value: medicineVocabulary(names.value.value, groups.value.value) };
  });

const conditionsOf = (folder: Folder): Promise<Loading<ConditionVocabulary>> =>
  once(folder, 'vocabulary of conditions', async () => {
    const table = await readTable(folder, 'conditions');
    return table.ok ? { ok: true, value: conditionVocabulary(table.value.value) } : failedLoading(table.why);
  });

const allergiesOf = (folder: Folder, medicines: MedicineVocabulary): Promise<Loading<AllergyVocabulary>> =>
  once(folder, 'vocabulary of allergies', async () => {
    const table = await readTable(folder, 'allergies');
    return table.ok
      ? { ok: true, value: allergyVocabulary(table.value.value, medicines) }
      : failedLoading(table.why);
  });

/** How this person's words meet those of the monographs. */
export function matchingOf({ medicines, conditions, allergies }: Vocabularies): Matching {
  return {
    medicine: (taken, target) => (medicines ? medicineMatches(medicines, taken, target) : false),
    condition: (stated, target) => (conditions ? conditionHolds(conditions, stated, target) : false),
    allergy: (stated, target) => (allergies ? allergyHolds(allergies, stated, target) : false),
    conditionTerm: (target) => (conditions ? conditionTerm(conditions, target) : target),
    allergyTerm: (target) => (allergies ? allergyTerm(allergies, target) : target),
    knows: {
      medicine: (target) => medicines === null || knownMedicineTarget(medicines, target),
      condition: (target) => conditions === null || knownConditionTarget(conditions, target),
      // A genus of a plant that the tables do not list still meets an allergy to that very plant.
      allergy: (target) =>
        allergies === null || knownAllergyTarget(allergies, target) || /^[A-Z][a-z-]+$/.test(target),
    },
    signs: (stated) => (conditions ? urgentSigns(conditions, stated) : []),
    familyNamed: (family) => (allergies ? familyNamed(allergies, family) : null),
  };
}
