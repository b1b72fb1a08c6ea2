import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'yaml';
import { type Checked, runCheck } from '../../src/checking/run.ts';
import { loadBench, loadFormula, loadMonographs } from '../../src/cli/load.ts';
import { caseOf, loadCheckTables } from '../../src/cli/load-case.ts';
import { understand } from '../../src/cli/load-person.ts';
import { compound } from '../../src/compounding/compound.ts';
import { idsOf, openFolder } from '../../src/folder/folder.ts';
import { readText } from '../../src/folder/read.ts';
import type { Formula } from '../../src/folder/schema/formula.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { exact } from '../../src/measure/exact.ts';
import { times } from '../../src/measure/quantity.ts';
import { yaml } from '../checking/judge.ts';
import { must } from '../must.ts';

/** The shipped library in memory, and the check of any formula of its herbs for any person. */

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const folder = must(await openFolder(ROOT, ROOT));
const tables = must(await loadCheckTables(folder));
const day = must(parseDate('2026-05-02'));
export const HERBS = idsOf(folder, 'monograph');
const herbs = must(await loadMonographs(folder, HERBS));
const bench = must(await loadBench(folder, herbs));

export const SHIPPED: readonly Formula[] = await Promise.all(
  idsOf(folder, 'formula').map(async (id) => must(await loadFormula(folder, id)).value),
);

export const formulaOf = async (text: string): Promise<Formula> =>
  must(await readText('formula', text, 'formula', null, 'x')).value;

export type Answers = Readonly<Record<string, string | undefined>>;

export async function judge(formula: Formula, person: Answers): Promise<Checked> {
  const batch = must(compound(formula, { by: 'formula' }, bench));
  const patient = must(await readText('patient', yaml(person), 'patient', null, 'x')).value;
  const understood = must(await understand(patient, folder, day));
  return runCheck(caseOf([{ folder, formula, herbs, batch }], understood, tables, folder, day));
}

/** The same formula with so many times as much taken at once. */
export function taking(formula: Formula, factor: string): Formula {
  const { directions } = formula;
  const take = directions?.take;
  if (!directions || !take) return formula;
  const more =
    take.kind === 'measured'
      ? { ...take, amount: times(take.amount, exact(factor)) }
      : { ...take, share: take.share.times(factor) };
  return { ...formula, directions: { ...directions, take: more } };
}

/** A line of a reference table: the word that stands for it, its other words and its codes. */
export interface Line {
  readonly id?: string;
  readonly name?: string;
  readonly term?: string;
  readonly also?: readonly string[];
  readonly atc?: readonly string[];
}

export function lines(table: string, list: string): readonly Line[] {
  return parse(readFileSync(new URL(`../../monographs/reference/${table}.yaml`, import.meta.url), 'utf8'))[
    list
  ];
}

export const wordOf = ({ name, term }: Line): string => (name ?? term) as string;
