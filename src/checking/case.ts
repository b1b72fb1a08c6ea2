import type { Batch } from '../compounding/compound.ts';
import type { Compared } from '../dosing/compare.ts';
import type { HerbDose } from '../dosing/equivalents.ts';
import type { Formula } from '../folder/schema/formula.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import type { AdditiveEffects, EthanolTable, IntakeLimits, LegalLimits } from '../folder/schema/reference.ts';
import type { Ternary } from '../measure/age.ts';
import type { CalendarDate } from '../measure/calendar.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { StatedAllergy } from '../vocabulary/allergies.ts';
import type { StatedCondition, UrgentSign } from '../vocabulary/conditions.ts';
import type { TakenMedicine } from '../vocabulary/medicines.ts';
import type { Finding } from './finding.ts';
import type { LevelTable } from './level.ts';
import type { Person, QuestionTable } from './person.ts';

/** How a person's resolved words meet the words that monographs use, and how those are said in plain English. */
export interface Matching {
  readonly medicine: (taken: TakenMedicine, target: string) => Ternary;
  readonly condition: (stated: readonly StatedCondition[], target: string) => Ternary;
  readonly allergy: (stated: readonly StatedAllergy[], target: string) => Ternary;
  readonly conditionTerm: (target: string) => string;
  readonly allergyTerm: (target: string) => string;
  /** Whether the shared tables know a monograph's word; true where the person's answers called for no such table. */
  readonly knows: Readonly<Record<'medicine' | 'condition' | 'allergy', (target: string) => boolean>>;
  /** The signs that belong to a doctor, among what was said of the person. */
  readonly signs: (stated: readonly StatedCondition[]) => readonly UrgentSign[];
  /** The family that a monograph names, as the table of allergies knows it; null where it is not listed. */
  readonly familyNamed: (family: string) => string | null;
}

/** One herb of a formula, with its monograph (null where there is none), its dose and the doses it is compared with. */
export interface HerbInFormula {
  readonly herb: string;
  readonly monograph: Monograph | null;
  readonly near: readonly string[];
  readonly dose: HerbDose | null;
  readonly compared: readonly Compared[];
}

export interface FormulaInCase {
  readonly formula: Formula;
  readonly batch: Batch;
  readonly herbs: readonly HerbInFormula[];
}

/** All that the rules may look at. Nothing in it reads a file or a clock. */
export interface Case {
  readonly on: CalendarDate;
  /** Null: the formula alone is judged. */
  readonly person: Person | null;
  readonly formulas: readonly FormulaInCase[];
  readonly levels: LevelTable;
  readonly questions: QuestionTable;
  readonly matching: Matching;
  readonly permittedError: Quantity;
  readonly intake: IntakeLimits;
  readonly effects: AdditiveEffects;
  readonly legal: LegalLimits;
  /** Whose law counts; null where the practice has not said. */
  readonly jurisdiction: string | null;
  /** Null where nothing that is judged holds ethanol. */
  readonly ethanol: EthanolTable | null;
}

/** A rule: its name, what it looks for, an example that fires and one that does not, and the rule itself. */
export interface Rule {
  readonly name: string;
  readonly sentence: string;
  readonly fires: string;
  readonly quiet: string;
  readonly find: (c: Case) => readonly Finding[];
}

/** The same of a case however many rules ask for it: worked out at the first, and kept with the case. */
export function oncePerCase<T>(make: (c: Case) => T): (c: Case) => T {
  const known = new WeakMap<Case, { readonly made: T }>();
  return (c) => {
    const before = known.get(c) ?? { made: make(c) };
    known.set(c, before);
    return before.made;
  };
}

/** Every herb of every formula in turn. */
export const herbsOf = oncePerCase((c): readonly (HerbInFormula & { readonly formula: Formula })[] =>
  c.formulas.flatMap((f) => f.herbs.map((h) => ({ ...h, formula: f.formula }))),
);
