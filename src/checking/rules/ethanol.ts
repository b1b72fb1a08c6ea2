import type { Case, Rule } from '../case.ts';
import { type EthanolWeighed, ethanolWeighed } from '../ethanol.ts';
import { canonical, type Finding, finding, prose, type Sentence } from '../finding.ts';
import { LEVELS } from '../level.ts';
import { phraseFor } from '../phrases.ts';
import { stoppedAmong } from '../when.ts';

export const ethanol: Rule = {
  name: 'ethanol',
  sentence:
    'The ethanol in a dose, by body weight and age, and for whom or with which medicine any of it matters.',
  fires: 'a tincture for someone on disulfiram',
  quiet: 'a tea for someone on disulfiram',
  find: (c: Case): Finding[] => {
    const groups = new Map<string, EthanolWeighed[]>();
    for (const w of ethanolWeighed(c)) {
      const unsure = w.holds === 'unknown' && w.open.length === 0;
      if (w.holds !== true && !unsure) continue;
      const key = `${w.formula} ${subjectOf(w)}`;
      groups.set(key, [...(groups.get(key) ?? []), w]);
    }
    return [...groups.values()].map((group) => said(group, c));
  },
};

/** What it is about: the medicines or conditions by name, else the state, else the amount itself. */
function subjectOf({ met, rule }: EthanolWeighed): string {
  const names = met.names.map((n) => n.name).sort();
  if (names.length > 0) return names.join(' ');
  const [key] = Object.keys(rule.when).filter((k) => k !== 'age' && k !== 'drives');
  return key ?? 'amount';
}

/** Of several rules about one thing the gravest is said. */
function said(group: readonly EthanolWeighed[], c: Case): Finding {
  const [first] = [...group].sort(
    (a, b) =>
      Number(b.holds === true) - Number(a.holds === true) ||
      LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level) ||
      (canonical(factsOf(a)) < canonical(factsOf(b)) ? -1 : 1),
  ) as [EthanolWeighed, ...EthanolWeighed[]];
  const { formula, taken, rule, perKg, met } = first;
  const amount: Sentence = [
    `the ethanol of ${formula}`,
    '(',
    taken.perDose,
    'in a dose',
    ...(perKg ? [',', perKg] : []),
    ')',
  ];
  const sure = first.holds === true;
  const asks = [...new Set([...met.names.flatMap((n) => n.asks), ...met.coarse])].sort();
  const words = `${c.levels.wordsOf(rule.says)} ${phraseFor(rule.when, met.names)}`.trim();
  return finding({
    rule: 'ethanol',
    herb: null,
    subject: `${formula} ${subjectOf(first)}`,
    level: sure ? first.level : c.levels.ofOutcome('too-coarse'),
    say: [
      ...(sure ? [] : ['possible:']),
      ...amount,
      `${words}: ${rule.why}${sure ? '' : `; ${asks.join(' ')}`}`,
    ],
    figures: [taken.perDose, taken.perDay],
    source: first.source,
    accept: c.levels.mayAccept(rule.says),
    facts: {
      rules: group.map(factsOf),
      dose: taken.perDose.value,
      perKg: perKg?.value,
      stopped: stoppedAmong(met.names),
    },
  });
}

const factsOf = ({ rule, holds }: EthanolWeighed): object => ({
  any: rule.any,
  from: rule.from,
  above: rule.above,
  when: rule.when,
  says: rule.says,
  why: prose(rule.why),
  source: rule.source,
  holds,
});
