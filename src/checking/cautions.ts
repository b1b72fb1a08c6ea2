import { citeIn } from '../folder/cite-in.ts';
import type { Formula } from '../folder/schema/formula.ts';
import type { Caution, Monograph } from '../folder/schema/monograph.ts';
import { type Case, type HerbInFormula, herbsOf, oncePerCase } from './case.ts';
import { concerns } from './concerns.ts';
import { canonical, prose } from './finding.ts';
import type { Level, LevelTable } from './level.ts';
import { keysOf, type Met, meets, type Named } from './when.ts';

/** A caution of a monograph beside what became of it for this person. */
export interface Weighed {
  readonly herb: HerbInFormula;
  readonly monograph: Monograph;
  readonly caution: Caution;
  readonly level: Level;
  readonly met: Met;
}

/**
 * Every caution that concerns these preparations, weighed for the person; without a person only what the formula
 * itself settles. A herb that stands in two formulas is warned of once.
 */
export const cautionsWeighed = oncePerCase<readonly Weighed[]>(weigh);

function weigh(c: Case): Weighed[] {
  const weighed = new Map<string, Weighed>();
  for (const herb of herbsOf(c)) {
    const { monograph } = herb;
    if (monograph === null) continue;
    for (const { caution, level, key } of concernedIn(herb.formula, herb.herb, monograph, c)) {
      if (weighed.has(key)) continue;
      const met = c.person ? meets(caution.when, c.person, c) : withoutPerson(caution, c);
      weighed.set(key, { herb, monograph, caution, level, met });
    }
  }
  return [...weighed.values()];
}

interface Concerned {
  readonly caution: Caution;
  readonly level: Level;
  readonly key: string;
}

/** Which cautions of a herb concern a formula, whoever takes it: looked for once. */
function concernedIn(
  formula: Formula,
  herb: string,
  monograph: Monograph,
  { levels }: Case,
): readonly Concerned[] {
  const of = concerned.get(formula) ?? new WeakMap<Monograph, { levels: LevelTable; found: Concerned[] }>();
  concerned.set(formula, of);
  const before = of.get(monograph);
  if (before?.levels === levels) return before.found;
  const found = (monograph.cautions ?? []).flatMap((caution): Concerned[] => {
    const level = concerns(caution, formula, herb) ? levels.ofSaying(caution.says) : null;
    return level === null ? [] : [{ caution, level, key: `${herb} ${factsOf(monograph, caution)}` }];
  });
  of.set(monograph, { levels, found });
  return found;
}

const concerned = new WeakMap<Formula, WeakMap<Monograph, { levels: LevelTable; found: Concerned[] }>>();

/** What a decision about a caution rests on: everything that it says, and none of its commas. */
export function factsOf(m: Monograph, caution: Caution): string {
  const known = factsKnown.get(caution);
  if (known !== undefined) return known;
  const { when, says, why, preparation, route, use, source } = caution;
  const facts = { when, says, why: prose(why), preparation, route, use, source: citeIn(m, { source }).key };
  const text = canonical(facts);
  factsKnown.set(caution, text);
  return text;
}

/** A caution is the same for everyone who is asked about, and is put into words once. */
const factsKnown = new WeakMap<Caution, string>();

function withoutPerson(x: Caution, c: Case): Met {
  const quiet: Met = { holds: false, open: [], coarse: [], names: [] };
  const keys = keysOf(x.when);
  if (keys.length === 0) return { ...quiet, holds: true };
  if (keys.length !== 1 || x.when.taking === undefined) return quiet;
  const here = x.when.taking.filter((h) => c.formulas.some((f) => f.herbs.some((g) => g.herb === h)));
  const names = here.map((h): Named => ({ key: 'taking', name: h, said: h, asks: [] }));
  return here.length > 0 ? { ...quiet, holds: true, names } : quiet;
}
