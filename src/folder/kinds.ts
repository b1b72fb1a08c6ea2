import type { Measures } from '../measure/parse.ts';
import type { Formula } from './schema/formula.ts';
import type { Monograph } from './schema/monograph.ts';
import type { Patient } from './schema/patient.ts';
import type { Practice } from './schema/practice.ts';
import type { Kept } from './schema/record.ts';
import type * as Reference from './schema/reference.ts';

/** The kinds of file, what each holds once it is read, and the key that must repeat the file's name. */
export interface Holds {
  monograph: Monograph;
  formula: Formula;
  patient: Patient;
  practice: Practice;
  record: Kept;
  medicines: Reference.Medicines;
  'medicine-groups': Reference.MedicineGroups;
  conditions: Reference.Conditions;
  allergies: Reference.Allergies;
  uses: Reference.Uses;
  levels: Reference.Levels;
  questions: Reference.Questions;
  water: Reference.Water;
  vehicles: Reference.Vehicles;
  keeping: Reference.KeepingTable;
  making: Reference.MakingTable;
  ethanol: Reference.EthanolTable;
  gathering: Reference.GatheringTable;
  'intake-limits': Reference.IntakeLimits;
  'additive-effects': Reference.AdditiveEffects;
  'age-rules': Reference.AgeRules;
  'legal-limits': Reference.LegalLimits;
}

export type FileKind = keyof Holds;

export const ID_KEY: Partial<Record<FileKind, string>> = {
  monograph: 'id',
  formula: 'formula',
  record: 'record',
};

export const REFERENCE_KINDS = [
  'medicines',
  'medicine-groups',
  'conditions',
  'allergies',
  'uses',
  'levels',
  'questions',
  'water',
  'vehicles',
  'keeping',
  'making',
  'ethanol',
  'gathering',
  'intake-limits',
  'additive-effects',
  'age-rules',
  'legal-limits',
] as const satisfies readonly FileKind[];

/**
 * The zod schema of a kind, loaded only when a file has to be validated. A practitioner's own additions to a shared
 * table hold whichever of its keys they add to.
 */
export async function schemaOf(
  kind: FileKind,
  measures: Measures,
  own = false,
): Promise<import('zod').ZodType> {
  switch (kind) {
    case 'monograph':
      return (await import('./schema/monograph.ts')).monograph;
    case 'formula':
      return (await import('./schema/formula.ts')).formulaSchema(measures);
    case 'patient':
      return (await import('./schema/patient.ts')).patient;
    case 'practice':
      return (await import('./schema/practice.ts')).practice;
    case 'record':
      return (await import('./schema/record.ts')).record;
    default:
      return (await import('./schema/reference.ts')).referenceSchema(kind, own);
  }
}
