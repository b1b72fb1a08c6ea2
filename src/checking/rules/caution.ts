import { citeIn } from '../../folder/cite-in.ts';
import type { Case, Rule } from '../case.ts';
import { cautionsWeighed, factsOf, type Weighed } from '../cautions.ts';
import { type Finding, finding } from '../finding.ts';
import { LEVELS } from '../level.ts';
import { phraseFor } from '../phrases.ts';
import { plantAllergy } from '../plant-allergy.ts';
import { keysOf, type Named, stoppedAmong } from '../when.ts';

export const caution: Rule = {
  name: 'caution',
  sentence: "What a monograph warns of is found when the person's answers meet it.",
  fires: 'willow bark for someone on warfarin',
  quiet: 'willow bark for someone on no medicine and with no condition',
  find: (c: Case) => {
    const groups = new Map<string, Said[]>();
    for (const w of cautionsWeighed(c)) {
      for (const s of sayingsOf(w, c)) groups.set(s.subject, [...(groups.get(s.subject) ?? []), s]);
    }
    return [...groups.values()].map((g) => said(g, c));
  },
};

/** A caution and the one medicine, condition, allergy or herb (or one of each) that met it. */
interface Said {
  readonly weighed: Weighed;
  readonly names: readonly Named[];
  readonly sure: boolean;
  readonly asks: readonly string[];
  /** Herb and subject: several sources that warn of the same thing make one finding. */
  readonly subject: string;
}

/**
 * Said when it holds. A note is said even where the answer is open: "if you drive" costs nothing, a question would.
 * An answer that is too coarse is said too, but for an allergy that the rule on allergies asks about anyway.
 */
function sayingsOf(weighed: Weighed, c: Case): Said[] {
  const { met, level, herb, caution: x } = weighed;
  if (met.holds === false) return [];
  const sure = met.holds === true || level === 'note';
  if (!sure && met.open.length > 0) return [];
  return oneOfEach(met.names)
    .map((names): Said => {
      const keys = keysOf(x.when).sort().join('+');
      const subject = `${sure ? '' : 'possible '}${keys} ${names.map((n) => n.name).join('+')}`.trim();
      const asks = sure ? [] : [...new Set([...met.coarse, ...names.flatMap((n) => n.asks)])];
      return { weighed, names, sure, asks, subject: `${herb.herb}/${subject}` };
    })
    .filter((s) => s.sure || !isAskedAnyway(s, c));
}

function isAskedAnyway({ weighed, names }: Said, c: Case): boolean {
  const allergies = names.filter((n) => n.key === 'allergy' && n.asks.length > 0).map((n) => n.name);
  const stated = c.person?.allergies.given ? c.person.allergies.value : [];
  return stated.some(
    (s) => allergies.includes(s.name) && plantAllergy(weighed.monograph, s.item, c) !== null,
  );
}

/** Every way of taking one name of each key; a single empty one where no list is named. */
function oneOfEach(names: readonly Named[]): (readonly Named[])[] {
  const keys = [...new Set(names.map((n) => n.key))].sort();
  return keys.reduce<(readonly Named[])[]>(
    (ways, key) =>
      ways.flatMap((way) => names.filter((n) => n.key === key).map((n): readonly Named[] => [...way, n])),
    [[]],
  );
}

/** The gravest leads, the others are named after it. */
function said(group: readonly Said[], c: Case): Finding {
  const byGravity = group
    .map((s) => ({ ...s, facts: factsOf(s.weighed.monograph, s.weighed.caution) }))
    .sort(
      (a, b) =>
        LEVELS.indexOf(a.weighed.level) - LEVELS.indexOf(b.weighed.level) ||
        c.levels.rankOf(a.weighed.caution.says) - c.levels.rankOf(b.weighed.caution.says) ||
        (a.facts < b.facts ? -1 : 1),
    );
  const [first, ...others] = byGravity as [(typeof byGravity)[number], ...typeof byGravity];
  const { herb, monograph, caution: x, level } = first.weighed;
  const sourceSays = ({ weighed: w }: Said): string =>
    `${citeIn(w.monograph, w.caution).body} says it ${c.levels.wordsOf(w.caution.says)} (${w.caution.why})`;
  // A source that says one thing of two groups of medicines, both met by this one, says it once.
  const also = new Set(others.map(sourceSays));
  also.delete(sourceSays(first));
  const lead = [herb.herb, c.levels.wordsOf(x.says), phraseFor(first.weighed.caution.when, first.names)]
    .filter((w) => w !== '')
    .join(' ');
  const sentence = `${lead}: ${x.why}`;
  const asks = [...new Set(byGravity.flatMap((s) => s.asks))].sort();
  return finding({
    rule: 'caution',
    herb: herb.herb,
    subject: first.subject.slice(herb.herb.length + 1),
    level: first.sure ? level : c.levels.ofOutcome('too-coarse'),
    say: [
      first.sure
        ? `${sentence}${also.size > 0 ? `; also ${[...also].join('; ')}` : ''}`
        : `possible: ${sentence}; ${asks.join(' ')}`,
    ],
    source: citeIn(monograph, x),
    accept: byGravity.every((s) => !s.sure || c.levels.mayAccept(s.weighed.caution.says)),
    facts: {
      sayings: byGravity.map((s) => s.facts),
      names: first.names.map((n) => n.name),
      stopped: stoppedAmong(first.names),
      holds: byGravity.map((s) => s.weighed.met.holds),
    },
  });
}
