import type { Formula } from '../../folder/schema/formula.ts';
import { type Caution, citeIn, type Monograph } from '../../folder/schema/monograph.ts';
import type { Case, HerbInFormula, Rule } from '../case.ts';
import { herbsOf } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { LEVELS, type Level } from '../level.ts';
import { type Met, meets } from '../when.ts';
import { plantOutcome } from './allergy.ts';

/** A caution of a monograph beside what became of it for this person. */
export interface Weighed {
  readonly herb: HerbInFormula;
  readonly monograph: Monograph;
  readonly caution: Caution;
  readonly level: Level;
  readonly met: Met;
}

export const caution: Rule = {
  name: 'caution',
  sentence: "What a monograph warns of is found when the person's answers meet it.",
  fires: 'willow bark for someone on warfarin',
  quiet: 'willow bark for someone on no medicine and with no condition',
  find: (c: Case) => {
    const groups = new Map<string, Weighed[]>();
    for (const w of cautionsWeighed(c)) {
      if (!isSaid(w, c)) continue;
      const key = `${w.herb.herb}/${subjectOf(w)}/${w.met.holds === true || w.level === 'note'}`;
      groups.set(key, [...(groups.get(key) ?? []), w]);
    }
    return [...groups.values()].map((g) => said(g, c));
  },
};

/**
 * Said when it holds. A note is said even where the answer is open: "if you drive" costs nothing, a question would.
 * An answer that is too coarse is said too, but for an allergy that the rule on allergies asks about anyway.
 */
function isSaid(w: Weighed, c: Case): boolean {
  if (w.met.holds !== 'unknown') return w.met.holds;
  if (w.level === 'note') return true;
  if (w.met.open.length > 0 || w.met.coarse.length === 0) return false;
  const stated = c.person?.allergies.given
    ? c.person.allergies.value.filter((s) => w.met.names.includes(s.name))
    : [];
  return (
    w.caution.when.allergy === undefined ||
    !stated.every((s) => plantOutcome(w.monograph, s.item, c) !== null)
  );
}

/** Every caution that concerns these preparations, weighed for the person; without a person only what the formula itself settles. */
export function cautionsWeighed(c: Case): Weighed[] {
  return herbsOf(c).flatMap((herb): Weighed[] => {
    const { monograph } = herb;
    if (monograph === null) return [];
    return (monograph.cautions ?? [])
      .filter((x) => concerns(x, herb.formula))
      .flatMap((x): Weighed[] => {
        const level = c.levels.ofSaying(x.says);
        if (level === null) return [];
        const met = c.person ? meets(x.when, c.person, c) : withoutPerson(x, c);
        return [{ herb, monograph, caution: x, level, met }];
      });
  });
}

function concerns(x: Caution, formula: Formula): boolean {
  const kindFits = x.preparation === undefined || x.preparation.includes(formula.preparation.kind);
  const routeFits = x.route === undefined || x.route === (formula.route ?? 'oral');
  const useFits = x.use === undefined || formula.use === undefined || x.use.includes(formula.use);
  return kindFits && routeFits && useFits;
}

function withoutPerson(x: Caution, c: Case): Met {
  const quiet: Met = { holds: false, open: [], coarse: [], names: [] };
  const keys = Object.keys(x.when).filter((k) => x.when[k as keyof Caution['when']] !== undefined);
  if (keys.length === 0) return { ...quiet, holds: true };
  if (keys.length !== 1 || x.when.taking === undefined) return quiet;
  const here = x.when.taking.filter((h) => c.formulas.some((f) => f.herbs.some((g) => g.herb === h)));
  return here.length > 0 ? { holds: true, open: [], coarse: [], names: here } : quiet;
}

const PHRASE: readonly [keyof Caution['when'], (names: string) => string][] = [
  ['medicine', (n) => `with ${n}`],
  ['condition', (n) => `in ${n}`],
  ['allergy', (n) => `with an allergy to ${n}`],
  ['taking', (n) => `together with ${n}`],
  ['pregnant', () => 'in pregnancy'],
  ['breastfeeding', () => 'while breastfeeding'],
  ['trying_to_conceive', () => 'when trying to conceive'],
  ['surgery_within', () => 'before the planned operation'],
  ['drives', () => 'for someone who drives'],
  ['avoids_alcohol', () => 'for someone who avoids alcohol'],
  ['fluid_restricted', () => 'for someone told to limit fluids'],
  ['age', () => 'at this age'],
  ['sex', () => 'for this person'],
];

function phraseOf(w: Weighed): string {
  const names = w.met.names.join(', ');
  return PHRASE.filter(([k]) => w.caution.when[k] !== undefined)
    .map(([, say]) => say(names))
    .join(' ');
}

function subjectOf(w: Weighed): string {
  const keys = Object.keys(w.caution.when)
    .filter((k) => w.caution.when[k as keyof Caution['when']] !== undefined)
    .sort();
  return `${keys.join('+')} ${[...w.met.names].sort().join('+')}`.trim();
}

/** Several sources on one subject make one finding: the gravest leads, the others are named after it. */
function said(group: readonly Weighed[], c: Case): Finding {
  const [first, ...others] = [...group].sort((a, b) => LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level)) as [
    Weighed,
    ...Weighed[],
  ];
  const sure = first.met.holds === true || first.level === 'note';
  const cited = citeIn(first.monograph, first.caution);
  const also = others.map(
    (o) =>
      `${citeIn(o.monograph, o.caution).body} says it ${c.levels.wordsOf(o.caution.says)} (${o.caution.why})`,
  );
  const sentence = `${[first.herb.herb, c.levels.wordsOf(first.caution.says), phraseOf(first)].filter((w) => w !== '').join(' ')}: ${first.caution.why}`;
  return finding({
    rule: 'caution',
    herb: first.herb.herb,
    subject: subjectOf(first),
    level: sure ? first.level : c.levels.ofOutcome('too-coarse'),
    say: [
      sure
        ? `${sentence}${also.length > 0 ? `; also ${[...new Set(also)].join('; ')}` : ''}`
        : `possible: ${sentence}; ${first.met.coarse.join(' ')}`,
    ],
    source: cited,
    facts: {
      sayings: group.map((w) => ({ ...w.caution, source: citeIn(w.monograph, w.caution).key })),
      names: [...first.met.names].sort(),
      holds: first.met.holds,
    },
  });
}
