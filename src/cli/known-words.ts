import type { Matching } from '../checking/case.ts';
import type { CheckTables } from '../checking/tables.ts';
import { type Folder, hasId, idsOf, pathOf } from '../folder/folder.ts';
import { herbsIn } from '../folder/ingredients.ts';
import { ownQuestion } from '../folder/own-questions.ts';
import type { Problem } from '../folder/problem.ts';
import type { Known } from '../folder/references.ts';
import type { Formula } from '../folder/schema/formula.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import type { MadeUp } from './load.ts';

type Words = Omit<Known, 'herbs' | 'uses'> & {
  readonly uses: ReadonlySet<string>;
  readonly table: CheckTables['effects'];
};

/**
 * The words of these formulas and of their monographs that no shared table knows: a caution on one would never be
 * found, so that nothing is judged before they are put right. They are looked for in the tables that the person's
 * answers called for; where nothing is amiss, nothing more is read.
 */
export async function unknownWords(
  made: readonly MadeUp[],
  { knows }: Matching,
  { uses, effects: table }: CheckTables,
  folder: Folder,
): Promise<readonly Problem[]> {
  const words: Words = { ...knows, uses, effects: table.effects.map((e) => e.id), table };
  const formulas = made.map((m) => m.formula).filter((f) => f.use !== undefined && !uses.has(f.use));
  const monographs = new Map(
    made
      .flatMap(({ herbs }) => [...herbs.values()])
      .flatMap(({ monograph: m }) => (m && !isUnderstood(m, words, folder) ? [[m.id, m] as const] : [])),
  );
  const astray = table.effects.some((e) => (e.with ?? []).some((w) => !w.medicine.every(words.medicine)));
  return formulas.length + monographs.size === 0 && !astray
    ? []
    : placedProblems(formulas, [...monographs.values()], words, folder);
}

function isUnderstood(m: Monograph, words: Words, folder: Folder): boolean {
  const cautions = m.cautions ?? [];
  const limited = [...cautions, ...(m.ages ?? []), ...(m.doses === 'none-read' ? [] : m.doses)];
  return (
    (m.effects ?? []).every((e) => words.effects.includes(e)) &&
    limited.every(({ use }) => (use ?? []).every((u) => words.uses.has(u))) &&
    cautions.every(
      ({ when }) =>
        (when.medicine ?? []).every(words.medicine) &&
        (when.condition ?? []).every((t) => words.condition(t) && ownQuestion(t) === undefined) &&
        (when.allergy ?? []).every(words.allergy) &&
        (when.taking ?? []).every((h) => hasId(folder, 'monograph', h)),
    )
  );
}

async function placedProblems(
  formulas: readonly Formula[],
  monographs: readonly Monograph[],
  words: Words,
  folder: Folder,
): Promise<readonly Problem[]> {
  const { missingInEffects, missingInFormula, missingInMonograph, placed } = await import(
    '../folder/references.ts'
  );
  const known: Known = { ...words, uses: [...words.uses], herbs: idsOf(folder, 'monograph') };
  const problems: Problem[] = await placed(
    folder,
    pathOf('additive-effects', 'additive-effects'),
    missingInEffects(words.table, known),
  );
  for (const f of formulas) {
    // A herb without a monograph is a finding of the check and no fault of the file.
    const herbs = herbsIn(f);
    problems.push(
      ...(await placed(folder, pathOf('formula', f.formula), missingInFormula(f, { ...known, herbs }))),
    );
  }
  for (const m of monographs) {
    problems.push(...(await placed(folder, pathOf('monograph', m.id), missingInMonograph(m, known))));
  }
  return problems;
}
