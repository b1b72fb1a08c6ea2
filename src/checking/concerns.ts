import { TEAS } from '../dosing/applies.ts';
import { herbDosedAs, routeOf } from '../dosing/dosed-as.ts';
import type { Formula } from '../folder/schema/formula.ts';
import type { DosedKind } from '../folder/schema/monograph.ts';

/** A fact that its source may limit to some preparations, routes or uses. */
interface Limited {
  readonly source: string;
  readonly preparation?: readonly DosedKind[] | undefined;
  readonly route?: string | undefined;
  readonly use?: readonly string[] | undefined;
}

/** Whether a warning concerns this formula. What is said of one kind of herbal tea counts for every kind. */
export function concerns(fact: Limited, formula: Formula, herb: string): boolean {
  const kinds = herbDosedAs(formula, herb);
  return placeFits(fact, formula) && (names(fact, kinds) || isTeaLike(fact, kinds));
}

/**
 * The facts that concern this formula. What a source bars for one kind of herbal tea counts for every kind, unless it
 * speaks of this kind itself; what it allows counts for that kind alone.
 */
export function concerning<T extends Limited>(
  facts: readonly T[],
  formula: Formula,
  herb: string,
  bars: (fact: T) => boolean,
): T[] {
  const kinds = herbDosedAs(formula, herb);
  const here = facts.filter((f) => placeFits(f, formula));
  const toldApart = (f: T): boolean =>
    here.some((o) => o.source === f.source && o.preparation !== undefined && names(o, kinds));
  return here.filter((f) => names(f, kinds) || (bars(f) && isTeaLike(f, kinds) && !toldApart(f)));
}

/** Where a formula names no use, what is said of any use concerns it. */
function placeFits(fact: Limited, formula: Formula): boolean {
  const routeFits = fact.route === undefined || fact.route === routeOf(formula);
  return routeFits && (fact.use === undefined || formula.use === undefined || fact.use.includes(formula.use));
}

type Kinds = readonly DosedKind[];

function names({ preparation }: Limited, kinds: Kinds): boolean {
  return preparation === undefined || preparation.some((k) => kinds.includes(k));
}

function isTeaLike({ preparation }: Limited, kinds: Kinds): boolean {
  return kinds.some((k) => TEAS.includes(k)) && (preparation ?? []).some((k) => TEAS.includes(k));
}
