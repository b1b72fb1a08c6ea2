import { byAgeRules } from '../../checking/by-age-rule.ts';
import { ageRuleBlocks, ageRulesJson } from '../../reports/age-rules.ts';
import { doseJson, doseListed, doseSheet } from '../../reports/dose.ts';
import { ageRulesAsked, rulesForCase } from '../age-rules-asked.ts';
import { dayOf } from '../day.ts';
import { loadBatch, loadFolder } from '../load.ts';
import { caseOf, loadCheckTables } from '../load-case.ts';
import { loadPatients, patientFiles, understand } from '../load-person.ts';
import type { BatchOptions, PersonOptions } from '../options.ts';
import { type Answer, answered, failed, misused, type Outcome } from '../outcome.ts';
import { describesPerson } from '../person-flags.ts';
import { sheetName } from '../sheet-name.ts';

/** What a person takes of each herb per dose, day and week, beside every published entry that applies. */
export async function dose(
  [id = '']: readonly string[],
  options: PersonOptions & BatchOptions & { readonly ageRule?: readonly string[] },
): Promise<Outcome> {
  const on = dayOf(options);
  if (!on.ok) return misused(on.why);
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  const made = await loadBatch(folder.value, id, options);
  if (!made.ok) return failed(made.problems);
  if (made.value.formula.directions === undefined)
    return misused(`${id} has no directions, so a dose has no size: add directions: to formulas/${id}.yaml`);
  const tables = await loadCheckTables(folder.value, [made.value]);
  if (!tables.ok) return failed(tables.problems);
  const files = patientFiles(options);
  if (!files.ok) return failed(files.problems);
  const patients = await loadPatients(options, on.value);
  if (!patients.ok) return failed(patients.problems);
  const asked = options.ageRule ? await ageRulesAsked(folder.value, options.ageRule) : null;
  if (asked && !asked.ok) return failed(asked.problems);
  const answers: Answer[] = [];
  for (const [i, patient] of patients.value.entries()) {
    const understood = await understand(patient, folder.value, on.value);
    if (!understood.ok) return failed(understood.problems);
    const c = caseOf([made.value], understood.value, tables.value, folder.value, on.value);
    const rules = asked && rulesForCase(c, asked.value);
    if (rules && !rules.ok) return misused(rules.why);
    const ruled = asked &&
      rules && { ...asked.value, person: rules.value, herbs: byAgeRules(c, rules.value) };
    answers.push({
      name: sheetName(id, patient, options),
      listed: doseListed(c),
      sheet: doseSheet(c, nextCheck(id, files.value[i], options), ruled ? ageRuleBlocks(ruled) : []),
      result: { ...doseJson(c), ...(ruled ? ageRulesJson(ruled) : {}) },
    });
  }
  return answered(answers);
}

/** The check of the same formula for the same person, as it is typed; a sheet names no other person's file. */
function nextCheck(id: string, file: string | undefined, options: PersonOptions): string {
  if (file === undefined && describesPerson(options)) return `scruple check ${id}, with the same answers`;
  return `scruple check ${id} --patient ${file === undefined || file === '-' ? 'FILE' : shellWord(file)}`;
}

function shellWord(text: string): string {
  return /^[\w./-]+$/.test(text) ? text : `'${text.replace(/'/g, "'\\''")}'`;
}
