import { decide } from '../../checking/deciding.ts';
import { EXIT } from '../../checking/level.ts';
import { runCheck } from '../../checking/run.ts';
import { summaryOf } from '../../checking/summary.ts';
import { pathOf } from '../../folder/folder.ts';
import { checkFindingsJson, checkJson, checkListed, checkSheet } from '../../reports/check.ts';
import { filedCheck, type Origin } from '../../reports/check-filed.ts';
import { toWrite } from '../../reports/to-write.ts';
import { dayOf } from '../day.ts';
import { bound, decisionsTyped } from '../decision-flags.ts';
import { unknownWords } from '../known-words.ts';
import { loadBatch, loadFolder, type MadeUp } from '../load.ts';
import { caseOf, loadCheckTables } from '../load-case.ts';
import { loadPatients, understand } from '../load-person.ts';
import type { DecisionOptions, PersonOptions } from '../options.ts';
import { type Answer, answered, failed, misused, type Outcome, usage } from '../outcome.ts';
import { sheetName } from '../sheet-name.ts';
import { version } from '../version.ts';
import { checkEvery } from './check-every.ts';

/** Whether these formulas suit this person: the one command, with `dispense` and `caseload`, whose exit status is a verdict. */
export async function check(
  ids: readonly string[],
  options: PersonOptions & DecisionOptions & { readonly all?: boolean },
): Promise<Outcome> {
  if (options.all) return checkEvery(ids, options);
  if (ids.length === 0) return misused('which formula? name one, or --all for every formula of the folder');
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  const typed = decisionsTyped(options, on.value);
  if (!typed.ok) return failed(typed.why.map(usage));
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
  if (typed.value.length > 0 && (patients.value.length > 1 || patients.value[0] === null))
    return misused(
      patients.value.length > 1
        ? '--decide is about one person: check them one at a time, or write decisions: into their files'
        : '--decide is about a person: name them with --patient FILE, or say of them what was asked',
    );
  const answers: Answer[] = [];
  let exit = 0;
  for (const patient of patients.value) {
    const understood = await understand(patient, folder.value, on.value);
    if (!understood.ok) return failed(understood.problems);
    const unknown = await unknownWords(made, understood.value.matching, tables.value, folder.value);
    if (unknown.length > 0) return failed(unknown);
    const c = caseOf(made, understood.value, tables.value, folder.value, on.value);
    const found = runCheck(c);
    const decisions = bound(typed.value, found.findings);
    if (!decisions.ok) return failed(decisions.why.map(usage));
    const checked = decide(found, [...(patient?.decisions ?? []), ...decisions.value], on.value);
    exit = Math.max(exit, EXIT[checked.verdict]);
    const summary = summaryOf(c, checked);
    const place = (options.patient ?? options.patients) ? 'file' : 'command line';
    answers.push({
      name: sheetName(made.map((m) => m.formula.formula).join('-'), patient, options),
      listed: checkListed(c, checked),
      sheet: options.markdown
        ? filedCheck(c, checked, summary, {
            practice: folder.value.settings.practice,
            version: version(),
            files: filesOf(made),
          })
        : checkSheet(c, checked, summary, toWrite(c, checked, place, decisions.value)),
      result: checkJson(c, checked, summary),
      findings: checkFindingsJson(checked),
    });
  }
  return answered(answers, exit);
}

/** What the check rests on of the folder, the formulas first. */
function filesOf(made: readonly MadeUp[]): Origin['files'] {
  const formulas = made.map(({ formula, hash }) => [pathOf('formula', formula.formula), hash] as const);
  const monographs = made
    .flatMap(({ herbs }) => [...herbs])
    .map(([herb, { hash }]) => [pathOf('monograph', herb), hash] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1));
  return [...new Map([...formulas, ...monographs])].flatMap(([file, hash]) => (hash ? [{ file, hash }] : []));
}
