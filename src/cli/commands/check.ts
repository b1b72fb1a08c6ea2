import { EXIT } from '../../checking/level.ts';
import { runCheck } from '../../checking/run.ts';
import { summaryOf } from '../../checking/summary.ts';
import { checkFindingsJson, checkJson, checkSheet } from '../../reports/check.ts';
import { dayOf } from '../day.ts';
import { unknownWords } from '../known-words.ts';
import { loadBatch, loadFolder, type MadeUp } from '../load.ts';
import { caseOf, loadCheckTables } from '../load-case.ts';
import { loadPatients, understand } from '../load-person.ts';
import type { PersonOptions } from '../options.ts';
import { type Answer, answered, failed, misused, type Outcome } from '../outcome.ts';

/** Whether these formulas suit this person: the one command, with `dispense` and `caseload`, whose exit status is a verdict. */
export async function check(ids: readonly string[], options: PersonOptions): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const made: MadeUp[] = [];
  for (const id of new Set(ids)) {
    const one = await loadBatch(folder.value, id, {});
    if (!one.ok) return failed(one.problems);
    made.push(one.value);
  }
  const tables = await loadCheckTables(folder.value, made);
  if (!tables.ok) return failed(tables.problems);
  const patients = await loadPatients(options, on.value);
  if (!patients.ok) return failed(patients.problems);
  const answers: Answer[] = [];
  let exit = 0;
  for (const patient of patients.value) {
    const understood = await understand(patient, folder.value, on.value);
    if (!understood.ok) return failed(understood.problems);
    const unknown = await unknownWords(made, understood.value.matching, tables.value, folder.value);
    if (unknown.length > 0) return failed(unknown);
    const c = caseOf(made, understood.value, tables.value, folder.value, on.value);
    const checked = runCheck(c);
    exit = Math.max(exit, EXIT[checked.verdict]);
    const name = `${made.map((m) => m.formula.formula).join('-')}${patient ? `-${patient.patient}` : ''}`;
    answers.push({
      name,
      sheet: checkSheet(c, checked, summaryOf(c)),
      result: checkJson(c, checked, summaryOf(c)),
      findings: checkFindingsJson(checked),
    });
  }
  return answered(answers, exit);
}
