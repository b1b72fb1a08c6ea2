import { citeIn } from '../../folder/cite-in.ts';
import type { Caution, Monograph } from '../../folder/schema/monograph.ts';
import type { Case, Rule } from '../case.ts';
import { factsOf } from '../cautions.ts';
import { type Finding, finding } from '../finding.ts';
import { takenAlready as takenBy } from '../person.ts';
import { phraseFor } from '../phrases.ts';
import { keysOf, type Met, meets, type Named, stoppedAmong } from '../when.ts';

export const takenAlready: Rule = {
  name: 'taken-already',
  sentence:
    'What a monograph warns of in a herb that the person takes already, and that is not handed over now, is said to them.',
  fires: "chamomile for someone who takes St John's wort beside warfarin",
  quiet: 'chamomile for someone who takes valerian beside warfarin',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (person === null) return [];
    const handed = new Set(c.formulas.flatMap((f) => f.herbs.map((h) => h.herb)));
    const herbs = new Map(
      takenBy(person)
        .filter((t) => t.stopped === null && !handed.has(t.herb))
        .flatMap((t) => (t.monograph ? [[t.herb, t.monograph] as const] : [])),
    );
    return [...herbs].flatMap(([herb, m]) =>
      (m.cautions ?? [])
        .filter((x) => isOfAnyUse(x) && c.levels.isMoreThanNote(x.says))
        .map((x) => ({ x, met: meets(x.when, person, c) }))
        .filter(({ met }) => met.holds === true)
        .flatMap(({ x, met }) => told(herb, m, x, met, c)),
    );
  },
};

/** Of how it is taken nothing is known: what is said of one preparation, route or use alone may not be meant. */
const isOfAnyUse = ({ when, preparation, route, use }: Caution): boolean =>
  preparation === undefined &&
  use === undefined &&
  (route === undefined || route === 'oral') &&
  keysOf(when).length > 0;

/** One finding a medicine, condition or whatever else met it, so that one more of them changes no other. */
function told(herb: string, m: Monograph, x: Caution, met: Met, c: Case): Finding[] {
  const each: (readonly Named[])[] = met.names.length > 0 ? met.names.map((n) => [n]) : [[]];
  return each.map((names) => {
    const lead = [`taken already: ${herb}`, c.levels.wordsOf(x.says), phraseFor(x.when, names)]
      .filter((w) => w !== '')
      .join(' ');
    return finding({
      rule: 'taken-already',
      herb,
      subject: [x.says, ...keysOf(x.when).sort(), ...names.map((n) => n.name)].join(' '),
      ...c.levels.judged('taken-already-barred'),
      say: [`${lead}: ${x.why}`],
      source: citeIn(m, x),
      facts: { saying: factsOf(m, x), names: names.map((n) => n.name), stopped: stoppedAmong(names) },
    });
  });
}
