import type { Patient } from '../folder/schema/patient.ts';
import type { PersonOptions } from './options.ts';

/** What a sheet is called as a file: by the formula, and by the person's code only where that was asked for. */
export function sheetName(formula: string, patient: Patient | null, { codesInNames }: PersonOptions): string {
  return codesInNames && patient ? `${formula}-${patient.patient}` : formula;
}
