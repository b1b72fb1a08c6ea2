import type { Conditions } from '../folder/schema/reference.ts';
import { normal } from './normal.ts';

export type Condition = Conditions['conditions'][number];
export type UrgentSign = Conditions['urgent'][number];

/** A condition that a person has, or is said not to have, as it was understood. */
export interface StatedCondition {
  /** Everything that counts: what was named, and all that is broader. For a denial, what was denied. */
  readonly ids: readonly string[];
  /** What the word itself names; only this can be too coarse for a rule on something narrower. */
  readonly named: readonly string[];
  /** What a short code leaves open: K80 may be a blocked bile duct. */
  readonly possible: readonly string[];
  readonly denied: boolean;
  /** True where a denial named the whole term and so speaks for all that is narrower. */
  readonly whole: boolean;
  /** Leading words that were set aside, such as "history of"; they never clear a rule. */
  readonly qualifiers: readonly string[];
  /** Questions to put when no more than this is known. */
  readonly asks: readonly string[];
  /** Signs that belong to a doctor. */
  readonly urgent: readonly string[];
  /** A code given beside the word that no entry holds. */
  readonly notListed?: string;
}

export interface Named {
  readonly conditions: readonly Condition[];
  readonly urgent: readonly UrgentSign[];
}

export interface ConditionIndex {
  readonly byId: ReadonlyMap<string, Condition>;
  readonly urgentById: ReadonlyMap<string, UrgentSign>;
  readonly words: ReadonlyMap<string, Named>;
  readonly broader: ReadonlyMap<string, ReadonlySet<string>>;
  readonly ambiguous: ReadonlyMap<string, readonly string[]>;
  readonly leading: readonly string[];
  readonly denials: readonly string[];
  readonly deniedWholeAfter: ReadonlySet<string>;
  readonly written: readonly string[];
}

export interface ConditionVocabulary {
  readonly table: Conditions;
  readonly index: ConditionIndex;
}

/** The table made ready for look-up; the maps are built on first use, once. */
export function conditionVocabulary(table: Conditions): ConditionVocabulary {
  let made: ConditionIndex | undefined;
  return {
    table,
    get index() {
      made ??= buildIndex(table);
      return made;
    },
  };
}

function buildIndex(table: Conditions): ConditionIndex {
  const byId = new Map(table.conditions.map((c) => [c.id, c]));
  const words = new Map<string, { conditions: Condition[]; urgent: UrgentSign[] }>();
  const at = (word: string) => {
    const key = normal(word);
    const named = words.get(key) ?? { conditions: [], urgent: [] };
    words.set(key, named);
    return named;
  };
  for (const c of table.conditions)
    for (const key of new Set([c.id, c.term, ...(c.also ?? [])].map(normal))) at(key).conditions.push(c);
  for (const u of table.urgent)
    for (const key of new Set([u.id, u.term, ...(u.also ?? [])].map(normal))) at(key).urgent.push(u);
  const longestFirst = (list: readonly string[] | undefined) =>
    (list ?? []).map(normal).sort((a, b) => b.length - a.length);
  return {
    byId,
    urgentById: new Map(table.urgent.map((u) => [u.id, u])),
    words,
    broader: new Map(table.conditions.map((c) => [c.id, broaderThan(c.id, byId)])),
    ambiguous: new Map((table.ambiguous ?? []).map((a) => [normal(a.word), a.could_be])),
    leading: longestFirst(table.leading_words),
    denials: longestFirst(table.denials),
    deniedWholeAfter: new Set((table.denied_whole_after ?? []).map(normal)),
    written: [...table.conditions, ...table.urgent].flatMap((c) => [c.term, ...(c.also ?? [])]),
  };
}

/** All that a condition also counts as, at every remove. */
function broaderThan(id: string, byId: ReadonlyMap<string, Condition>): Set<string> {
  const all = new Set<string>();
  const waiting = [...(byId.get(id)?.broader ?? [])];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (all.has(next)) continue;
    all.add(next);
    waiting.push(...(byId.get(next)?.broader ?? []));
  }
  return all;
}

export function withBroader(index: ConditionIndex, ids: readonly string[]): string[] {
  return [...new Set(ids.flatMap((id) => [id, ...(index.broader.get(id) ?? [])]))];
}
