import { decide } from '../../checking/deciding.ts';
import { EXIT } from '../../checking/level.ts';
import { runCheck } from '../../checking/run.ts';
import { summaryOf } from '../../checking/summary.ts';
import { idsOf } from '../../folder/folder.ts';
import type { Problem } from '../../folder/problem.ts';
import { checkFindingsJson, checkJson, checkSheet } from '../../reports/check.ts';
import { everyFormulaSheet } from '../../reports/check-every.ts';
import { dayOf } from '../day.ts';
import { unknownWords } from '../known-words.ts';
import { loadBatch, loadFolder, type MadeUp } from '../load.ts';
import { caseOf, loadCheckTables } from '../load-case.ts';
import { understand } from '../load-person.ts';
import type { DecisionOptions, PersonOptions } from '../options.ts';
import { type Answer, answered, failed, misused, type Outcome } from '../outcome.ts';
import { describesPerson } from '../person-flags.ts';

/** Every formula of the folder, each by itself and without a person; a fault of any file is told before anything is judged. */
export async function checkEvery(
  ids: readonly string[],
  options: PersonOptions & DecisionOptions,
): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  if (ids.length > 0)
    return misused(`--all is every formula: leave out ${ids.join(', ')}, or leave out --all`);
  if (
    (options.patient ?? []).length > 0 ||
    options.patients !== undefined ||
    describesPerson(options) ||
    options.outputDir !== undefined
  )
    return misused('--all is without a person: name the formulas that are meant for this one');
  if (options.decide) return misused('--decide is about a person, and --all is without one');
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const made: MadeUp[] = [];
  const problems: Problem[] = [];
  for (const id of idsOf(folder.value, 'formula')) {
    const one = await loadBatch(folder.value, id, {});
    if (one.ok) made.push(one.value);
    else problems.push(...one.problems);
  }
  if (problems.length > 0) return failed(problems);
  if (made.length === 0) return misused('the folder has no formulas yet');
  const tables = await loadCheckTables(folder.value, made);
  if (!tables.ok) return failed(tables.problems);
  const nobody = await understand(null, folder.value, on.value);
  if (!nobody.ok) return failed(nobody.problems);
  const unknown = await unknownWords(made, nobody.value.matching, tables.value, folder.value);
  if (unknown.length > 0) return failed(unknown);
  const judged = made.map((m) => {
    const c = caseOf([m], nobody.value, tables.value, folder.value, on.value);
    return { c, checked: decide(runCheck(c), [], on.value) };
  });
  const exit = Math.max(...judged.map(({ checked }) => EXIT[checked.verdict]));
  if (!options.json)
    return answered([{ name: 'every-formula', sheet: everyFormulaSheet(judged), result: null }], exit);
  const answers = judged.map(({ c, checked }): Answer => {
    const summary = summaryOf(c, checked);
    return {
      name: c.formulas.map((f) => f.formula.formula).join('-'),
      sheet: checkSheet(c, checked, summary, []),
      result: checkJson(c, checked, summary),
      findings: checkFindingsJson(checked),
    };
  });
  return answered(answers, exit);
}
