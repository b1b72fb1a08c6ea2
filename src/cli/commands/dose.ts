import { byAgeRules } from '../../checking/by-age-rule.ts';
import type { AgeRule } from '../../dosing/age-rules.ts';
import { type Folder, readTable } from '../../folder/folder.ts';
import type { AgeRules } from '../../folder/schema/reference.ts';
import { nearest } from '../../measure/nearest.ts';
import { ageRuleBlocks, ageRulesJson } from '../../reports/age-rules.ts';
import { doseJson, doseSheet } from '../../reports/dose.ts';
import { dayOf } from '../day.ts';
import { failedLoading, type Loading, loadBatch, loadFolder } from '../load.ts';
import { caseOf, loadCheckTables } from '../load-case.ts';
import { loadPatients, understand } from '../load-person.ts';
import type { BatchOptions, PersonOptions } from '../options.ts';
import { type Answer, answered, failed, misused, type Outcome, usage } from '../outcome.ts';
import { describesPerson } from '../person-flags.ts';

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
  const patients = await loadPatients(options, on.value);
  if (!patients.ok) return failed(patients.problems);
  const named = options.ageRule ? await ageRulesNamed(folder.value, options.ageRule) : null;
  if (named && !named.ok) return failed(named.problems);
  const answers: Answer[] = [];
  for (const [i, patient] of patients.value.entries()) {
    const understood = await understand(patient, folder.value, on.value);
    if (!understood.ok) return failed(understood.problems);
    const c = caseOf([made.value], understood.value, tables.value, folder.value, on.value);
    if (named && !c.person?.birth)
      return misused(
        '--age-rule is for a person of some age: say --age, or --patient FILE with born: or age:',
      );
    const ruled =
      named && c.person?.birth
        ? {
            table: named.value.table,
            herbs: byAgeRules(c, named.value.rules, named.value.table, {
              birth: c.person.birth,
              on: on.value,
              weight: c.person.weight,
              height: c.person.source.height ?? null,
            }),
          }
        : null;
    answers.push({
      name: `${id}${patient ? `-${patient.patient}` : ''}`,
      sheet: doseSheet(
        c,
        nextCheck(id, options.patient?.[i], options),
        ruled ? ageRuleBlocks(ruled.herbs, ruled.table) : [],
      ),
      result: { ...doseJson(c), ...(ruled ? { age_rules: ageRulesJson(ruled.herbs) } : {}) },
    });
  }
  return answered(answers);
}

/** The rules that are named, in the order of the table; `all` names every one. */
async function ageRulesNamed(
  folder: Folder,
  names: readonly string[],
): Promise<Loading<{ readonly table: AgeRules; readonly rules: readonly AgeRule[] }>> {
  const read = await readTable(folder, 'age-rules');
  if (!read.ok) return failedLoading(read.why);
  const table = read.value.value;
  const ids = table.rules.map((r) => r.id);
  const wrong = names.filter((n) => n !== 'all' && !ids.includes(n));
  if (wrong.length > 0)
    return failedLoading(
      wrong.map((n) => {
        const near = nearest(n, ids);
        const hint = near.length > 0 ? `did you mean ${near.join(' or ')}? ` : '';
        return usage(`--age-rule "${n}" is no rule: ${hint}there are all, ${ids.join(', ')}`);
      }),
    );
  const rules = table.rules.filter((r) => names.includes('all') || names.includes(r.id));
  return { ok: true, value: { table, rules } };
}

/** The check of the same formula for the same person, as it is typed; a sheet names no other person's file. */
function nextCheck(id: string, file: string | undefined, options: PersonOptions): string {
  if (file === undefined && describesPerson(options)) return `scruple check ${id}, with the same answers`;
  return `scruple check ${id} --patient ${file === undefined || file === '-' ? 'FILE' : shellWord(file)}`;
}

function shellWord(text: string): string {
  return /^[\w./-]+$/.test(text) ? text : `'${text.replace(/'/g, "'\\''")}'`;
}
