import type { Case, FormulaInCase } from '../checking/case.ts';
import { levelFaults, levelTable } from '../checking/level.ts';
import { questionTable } from '../checking/person.ts';
import type { CheckTables } from '../checking/tables.ts';
import { compare } from '../dosing/compare.ts';
import { herbDoses } from '../dosing/equivalents.ts';
import { type Folder, pathOf, readTable } from '../folder/folder.ts';
import { herbsIn } from '../folder/ingredients.ts';
import type { Questions } from '../folder/schema/reference.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import { failedLoading, type Loading, type MadeUp } from './load.ts';
import { loadLegalLimits } from './load-law.ts';
import type { Understood } from './load-person.ts';
import { once } from './once.ts';

export const questionsOf = (folder: Folder): Promise<Loading<Questions>> =>
  once(folder, 'questions', async () => {
    const table = await readTable(folder, 'questions');
    return table.ok ? { ok: true, value: table.value.value } : failedLoading(table.why);
  });

type Limits = Pick<CheckTables, 'intake' | 'effects' | 'legal'>;

/** What the shared tables limit of herbs, whoever takes them. */
export const loadLimits = (folder: Folder): Promise<Loading<Limits>> =>
  once(folder, 'limits', async () => {
    const intake = await readTable(folder, 'intake-limits');
    if (!intake.ok) return failedLoading(intake.why);
    const effects = await readTable(folder, 'additive-effects');
    if (!effects.ok) return failedLoading(effects.why);
    const legal = await loadLegalLimits(folder);
    if (!legal.ok) return legal;
    return {
      ok: true,
      value: { intake: intake.value.value, effects: effects.value.value, legal: legal.value },
    };
  });

/** `ethanol` only where something that is checked holds any. */
export async function loadCheckTables(
  folder: Folder,
  made?: readonly MadeUp[],
): Promise<Loading<CheckTables>> {
  const levels = await readTable(folder, 'levels');
  if (!levels.ok) return failedLoading(levels.why);
  const questions = await questionsOf(folder);
  if (!questions.ok) return questions;
  const uses = await readTable(folder, 'uses');
  if (!uses.ok) return failedLoading(uses.why);
  const withEthanol = made === undefined || made.some((m) => m.batch.ethanol !== null);
  const ethanol = withEthanol ? await readTable(folder, 'ethanol') : null;
  if (ethanol && !ethanol.ok) return failedLoading(ethanol.why);
  const limits = await loadLimits(folder);
  if (!limits.ok) return limits;
  const faults = levelFaults(levels.value.value);
  if (faults.length > 0)
    return failedLoading(
      faults.map((message) => ({ code: 'bad-value', file: pathOf('levels', 'levels'), message })),
    );
  return {
    ok: true,
    value: {
      levels: levels.value.value,
      questions: questions.value,
      uses: new Set(uses.value.value.uses.map((u) => u.id)),
      ethanol: ethanol?.value.value ?? null,
      ...limits.value,
    },
  };
}

/** Tables as they are looked things up in: the same for everyone of a folder. */
function lookedUpIn(tables: CheckTables, folder: Folder): Pick<Case, 'levels' | 'questions'> {
  const before = ready.get(tables) ?? {
    levels: levelTable(tables.levels),
    questions: questionTable(tables.questions, folder.settings.answers),
  };
  ready.set(tables, before);
  return before;
}

const ready = new WeakMap<CheckTables, Pick<Case, 'levels' | 'questions'>>();

/** Everything the rules may look at, for one person (or nobody) and the formulas meant for them. */
export function caseOf(
  made: readonly MadeUp[],
  { person, matching }: Understood,
  tables: CheckTables,
  folder: Folder,
  on: CalendarDate,
): Case {
  const whose = person?.birth ? { birth: person.birth, on } : null;
  const formulas = made.map(({ formula, batch, herbs }): FormulaInCase => {
    const doses = new Map(herbDoses(batch).map((d) => [d.herb, d]));
    return {
      formula,
      batch,
      herbs: herbsIn(formula).map((herb) => {
        const { monograph, near } = herbs.get(herb) ?? { monograph: null, near: [] };
        const dose = doses.get(herb) ?? null;
        return {
          herb,
          monograph,
          near,
          dose,
          compared: monograph && dose ? compare(monograph, dose, whose) : [],
        };
      }),
    };
  });
  return {
    on,
    person,
    formulas,
    ...lookedUpIn(tables, folder),
    matching,
    permittedError: folder.settings.balance.permittedError,
    ethanol: tables.ethanol,
    intake: tables.intake,
    effects: tables.effects,
    legal: tables.legal,
    jurisdiction: folder.settings.jurisdiction,
  };
}
