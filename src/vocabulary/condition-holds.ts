import type { Ternary } from '../measure/age.ts';
import type { ConditionVocabulary, StatedCondition, UrgentSign } from './condition-index.ts';

/**
 * Whether a person has what a rule speaks of: the id of a condition or of an urgent sign. Unknown where what was said
 * is broader than the rule ("heart disease" beside heart failure), where a short code leaves it open, or where it is
 * to be asked for. A denial settles what would be unknown; it never outweighs what was said to be present.
 */
export function conditionHolds(
  v: ConditionVocabulary,
  stated: readonly StatedCondition[],
  target: string,
): Ternary {
  if (!knownConditionTarget(v, target)) throw new Error(`"${target}" is no condition or sign in the table`);
  if (stated.length === 0) return false;
  const present = stated.filter((s) => !s.denied);
  if (isPresent(present, target)) return true;
  const together = togetherHolds(v, stated, target);
  if (together === true) return true;
  if (isDenied(v, stated, target)) return false;
  return together === 'unknown' || isLeftOpen(v, present, target) ? 'unknown' : false;
}

export function knownConditionTarget(v: ConditionVocabulary, target: string): boolean {
  return v.index.byId.has(target) || v.index.urgentById.has(target);
}

/** How the target of a rule is said in plain English. */
export function conditionTerm(v: ConditionVocabulary, target: string): string {
  const entry = v.index.byId.get(target) ?? v.index.urgentById.get(target);
  if (!entry) throw new Error(`"${target}" is no condition or sign in the table`);
  return entry.term;
}

/** The signs among what was said that belong to a doctor, those included that only two answers together make. */
export function urgentSigns(v: ConditionVocabulary, stated: readonly StatedCondition[]): UrgentSign[] {
  if (stated.length === 0) return [];
  const present = stated.filter((s) => !s.denied);
  return v.table.urgent.filter((u) => isPresent(present, u.id) || togetherHolds(v, stated, u.id) === true);
}

function isPresent(present: readonly StatedCondition[], id: string): boolean {
  return present.some((s) => s.ids.includes(id) || s.urgent.includes(id));
}

/** A state made of two: met by both, open where one half was said and the other was not denied. */
function togetherHolds(v: ConditionVocabulary, stated: readonly StatedCondition[], target: string): Ternary {
  const halves = (v.index.byId.get(target) ?? v.index.urgentById.get(target))?.together;
  if (!halves) return false;
  const present = stated.filter((s) => !s.denied);
  const said = [halves.any_of, halves.along_with].map((ids) => ids.some((id) => isPresent(present, id)));
  if (said.every(Boolean)) return true;
  const absent = [halves.any_of, halves.along_with].some((ids) => ids.every((id) => isDenied(v, stated, id)));
  return said.some(Boolean) && !absent ? 'unknown' : false;
}

function isDenied(v: ConditionVocabulary, stated: readonly StatedCondition[], target: string): boolean {
  const above = v.index.broader.get(target);
  return stated.some((s) => s.denied && s.whole && s.named.some((id) => id === target || above?.has(id)));
}

function isLeftOpen(v: ConditionVocabulary, present: readonly StatedCondition[], target: string): boolean {
  const condition = v.index.byId.get(target);
  if (!condition) return false;
  const above = v.index.broader.get(target) ?? new Set<string>();
  return present.some((s) => {
    if (s.possible.includes(target) || (condition.implied_by ?? []).some((id) => s.ids.includes(id)))
      return true;
    if (condition.only_if_named) return false;
    // A code says which disease it is, unless the rule is on a state that has no code, such as a trimester.
    const coarse = s.named.length === 0 && condition.icd10 === undefined ? s.ids : s.named;
    return coarse.some((id) => above.has(id));
  });
}
