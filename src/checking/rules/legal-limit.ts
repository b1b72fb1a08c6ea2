import { citeIn } from '../../folder/cite-in.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding, type Sentence } from '../finding.ts';
import { grouped, type HerbHanded, handedOver, isBarred, lawsOf, type Meant } from '../law/meant.ts';
import {
  aboveSaid,
  barredSaid,
  lawOf,
  lawSaid,
  named,
  openSaid,
  otherPartSaid,
  partAskedSaid,
  partsOf,
  takenAlreadySaid,
  useSaid,
} from '../law/say.ts';
import { type Beside, external, internal } from '../law/sides.ts';
import type { Outcome } from '../level.ts';

export const legalLimit: Rule = {
  name: 'legal-limit',
  sentence:
    "What the law of the practice's place bars of a plant, or allows at once, in a day or in a product for external use.",
  fires: '1.5 mL at once of a 1:5 tincture of lobelia in the United Kingdom',
  quiet: '1 mL of it three times a day, where its monograph is in the folder',
  find: (c: Case): Finding[] => {
    const { jurisdiction } = c;
    const handed = handedOver(c).flatMap((herb) => {
      const laws = lawsOf(c, herb);
      return laws.size > 0 ? [{ herb, laws }] : [];
    });
    if (jurisdiction === null) return handed.map(({ laws }) => notChosen(laws, c));
    return [
      ...handed.flatMap(({ herb, laws }) => (laws.has(jurisdiction) ? [] : elsewhere(herb, laws, c))),
      ...judge(
        handed.flatMap(({ laws }) => laws.get(jurisdiction) ?? []),
        c,
      ),
    ];
  },
};

type Laws = ReadonlyMap<string, readonly Meant[]>;

interface More {
  readonly sides?: readonly Beside[];
  readonly facts?: Readonly<Record<string, unknown>>;
}

function found(
  outcome: Outcome,
  m: Meant,
  subject: string,
  say: Sentence,
  c: Case,
  more: More = {},
): Finding {
  const { sides = [], facts = {} } = more;
  return finding({
    rule: 'legal-limit',
    herb: m.herb.herb,
    subject,
    ...c.levels.judged(outcome),
    say,
    figures: sides.flatMap((s) => [
      ...(s.taken ? [s.taken.least ?? s.taken.most] : []),
      ...(s.most ? [s.most] : []),
    ]),
    source: citeIn(c.legal, m.law),
    facts: {
      outcome,
      limit: m.limit.id,
      law: [m.law.id, m.law.as_read],
      use: m.herb.use,
      part: m.named.part,
      sides: sides.map((s) => [
        s.side,
        s.verdict,
        s.taken?.least?.value ?? null,
        s.taken?.most.value ?? null,
        s.most?.value ?? null,
      ]),
      ...facts,
    },
  });
}

/** Without a jurisdiction no law is guessed, and a plant that any law names is asked about. */
function notChosen(laws: Laws, c: Case): Finding {
  const places = [...laws.keys()].sort();
  const first = [...laws.values()].flat()[0] as Meant;
  return found(
    'law-not-chosen',
    first,
    'law',
    [
      `${named(first)}: ${lawOf(...places)} limits it, and whose law counts here is not said: write such as jurisdiction: ${places[0]} into practice.yaml`,
    ],
    c,
    { facts: { places } },
  );
}

/** The practice's own law was not read, or does not name it, and that of another place does. */
function elsewhere({ use }: HerbHanded, laws: Laws, c: Case): Finding[] {
  const all = [...laws.values()].flat() as [Meant, ...Meant[]];
  const places = [...laws.keys()].sort();
  if (!c.legal.laws.some((l) => l.jurisdiction === c.jurisdiction))
    return [
      found(
        'law-not-held',
        all[0],
        'law',
        [
          `${named(all[0])}: ${lawOf(...places)} limits it, and ${lawOf(c.jurisdiction ?? '')} was not read: look up what it says`,
        ],
        c,
        { facts: { places, jurisdiction: c.jurisdiction } },
      ),
    ];
  const barred = all.find((m) => isBarred(m.limit, use) && isSure(m));
  if (barred === undefined) return [];
  const why = `in what was read of ${lawOf(c.jurisdiction ?? '')} nothing names it; elsewhere, ${barred.law.bars ?? 'it is barred'}`;
  return [
    found('prohibited-elsewhere', barred, 'elsewhere', [`${named(barred)}: ${why}`, lawSaid(barred)], c),
  ];
}

const isSure = ({ named: n }: Meant): boolean => n.species && n.part === 'named';
const formulaOf = (m: Meant): string => m.herb.from.formula.formula;

function judge(meant: readonly Meant[], c: Case): Finding[] {
  const surelyBarred = meant.filter((m) => isBarred(m.limit, m.herb.use) && isSure(m));
  // One prohibition of a herb in a formula is enough.
  const barred = surelyBarred.filter((m, i) => surelyBarred.findIndex((o) => o.herb === m.herb) === i);
  const rest = meant.filter((m) => !barred.some((b) => b.herb === m.herb));
  const asked = rest.flatMap((m) => wanting(m, c));
  const told = rest.filter((m) => wanting(m, c).length === 0);
  const used = (use: string): Meant[] => told.filter((m) => m.herb.use === use);
  const sides = [...internal(used('internal'), c), ...external(used('external'), c)];
  return [
    ...barred.map((m) => found('prohibited-by-law', m, `${formulaOf(m)} barred`, barredSaid(m, c), c)),
    ...asked,
    ...besideSaid(sides, c),
    ...used('unclear').flatMap((m) => unclear(m, c)),
  ];
}

/** What is not known of it and would have to be, before it can be held against the law. */
function wanting(m: Meant, c: Case): Finding[] {
  const ask = (subject: string, why: string): Finding[] => [
    found('legal-limit-not-told', m, subject, [`${named(m)}: ${why}`, lawSaid(m)], c),
  ];
  const place = lawOf(m.law.jurisdiction);
  if (!m.named.species) return ask('species', `which species? ${place} names ${m.named.by}`);
  if (m.named.part === 'other') return [found('legal-limit-unbounded', m, 'part', otherPartSaid(m), c)];
  if (isBarred(m.limit, m.herb.use)) return ask('part', `which part? ${place} bars the ${partsOf(m)}`);
  if (m.herb.dose !== null) return [];
  return ask(
    `${formulaOf(m)} directions`,
    `${place} limits how much of it is used, and ${formulaOf(m)} has no directions`,
  );
}

function besideSaid(sides: readonly Beside[], c: Case): Finding[] {
  const which = (verdict: Beside['verdict']): Beside[] => sides.filter((s) => s.verdict === verdict);
  const each = (some: readonly Beside[], make: (s: Beside, m: Meant) => Finding): Finding[] =>
    some.flatMap((s) => s.of.map((m) => make(s, m)));
  const open = grouped(
    which('open'),
    (s) => `${s.of[0].herb.herb} ${s.of[0].limit.counts ?? s.of[0].limit.id}`,
  );
  const partUntold = [...grouped(sides, (s) => s.of[0].limit.id).values()].flatMap(([s, ...more]) =>
    s.of[0].named.part === 'not told' && [s, ...more].every((x) => x.verdict === 'within') ? [s] : [],
  );
  return [
    ...each(which('above'), (s, m) =>
      found('above-legal-limit', m, subjectOf(s, m), aboveSaid(s, m), c, { sides: [s] }),
    ),
    ...each(which('not told'), (s, m) =>
      found('legal-limit-not-told', m, subjectOf(s, m), takenAlreadySaid(s, m), c, { sides: [s] }),
    ),
    ...[...open.values()].map((some) => {
      const [first] = some;
      return found('legal-limit-unbounded', first.of[0], subjectOf(first, first.of[0]), openSaid(some), c, {
        sides: some,
      });
    }),
    ...each(partUntold, (s, m) =>
      found('legal-limit-not-told', m, 'part', partAskedSaid(m), c, { sides: [s] }),
    ),
  ];
}

const subjectOf = (s: Beside, m: Meant): string =>
  `${m.limit.id} ${s.side === 'daily' ? '' : `${formulaOf(m)} `}${s.side}`;

/** Neither surely external use nor surely not: barred or above both ways it is withheld, one way it is for the practitioner. */
function unclear(m: Meant, c: Case): Finding[] {
  const grave = (sides: readonly Beside[]): Beside[] =>
    sides.filter((s) => s.verdict === 'above' || s.verdict === 'barred');
  const ways = [internal([m], c), external([m], c)];
  if (ways.flat().every((s) => s.verdict === 'within')) return [];
  const above = ways.flatMap(grave).filter((s) => s.verdict === 'above');
  if (ways.every((w) => grave(w).length > 0) && above.length > 0) return besideSaid(above, c);
  return [found('legal-limit-unbounded', m, `${formulaOf(m)} use`, useSaid(m), c, { sides: ways.flat() })];
}
