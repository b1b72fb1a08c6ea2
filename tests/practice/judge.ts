import { fileURLToPath } from 'node:url';
import { type Checked, runCheck } from '../../src/checking/run.ts';
import { loadBatch } from '../../src/cli/load.ts';
import { caseOf, loadCheckTables } from '../../src/cli/load-case.ts';
import { understand } from '../../src/cli/load-person.ts';
import { openFolder } from '../../src/folder/folder.ts';
import { readDocument } from '../../src/folder/read.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { must } from '../must.ts';

/** The practice's own patients and formulas, judged where they lie and by the way that the program goes. */

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const PATIENTS = fileURLToPath(new URL('./patients/', import.meta.url));

const folder = must(await openFolder(ROOT, ROOT));
const tables = must(await loadCheckTables(folder));

export async function judgePatient(code: string, formula: string, on: string): Promise<Checked> {
  const day = must(parseDate(on));
  const patient = must(await readDocument('patient', `${PATIENTS}${code}.yaml`, `${code}.yaml`)).value;
  const understood = must(await understand(patient, folder, day));
  return runCheck(caseOf([must(await loadBatch(folder, formula, {}))], understood, tables, folder, day));
}
