import type { Case } from '../case.ts';
import type { Sentence } from '../finding.ts';
import { allowed, type Side } from './amounts.ts';
import { grouped, type Meant } from './meant.ts';
import type { Beside } from './sides.ts';

/** What is said of a herb and the law; which text of the law was read stands in every sentence. */

const PLACES: Readonly<Record<string, string>> = {
  UK: 'the United Kingdom',
  IE: 'Ireland',
  EU: 'the European Union',
  US: 'the United States',
  CA: 'Canada',
  AU: 'Australia',
  NZ: 'New Zealand',
};

/** `the law of Canada`, of one place or several. */
export const lawOf = (...places: readonly string[]): string =>
  `the law ${places.map((p) => `of ${PLACES[p] ?? 'this place'}`).join(' and ')}`;

const itsLaw = ({ law }: Meant): string => lawOf(law.jurisdiction);

/** The herb, and what the law calls it where it goes by another name. */
export function named({ herb: { herb }, named: { printed }, limit: l }: Meant): string {
  const lawful = l.common?.[0] ?? l.latin?.[0] ?? l.genera?.[0];
  return printed || lawful === undefined ? herb : `${herb}, read as the law's ${lawful}`;
}

export const lawSaid = ({ law }: Meant): string =>
  `(${law.name}; read in ${law.as_read}: look up what is in force)`;

export const partsOf = ({ limit: { parts = [] } }: Meant): string => parts.join(' or ');

/** By which part's figures it was judged, where the part in hand is not one that the law names. */
function partSaid(m: Meant): string[] {
  const { part } = m.named;
  if (part === 'named') return [];
  return [
    `; its part is ${part === 'near' ? "not the law's own word" : 'not said'}, and the figures of the ${partsOf(m)} count${m.strictest ? ', the strictest' : ''}`,
  ];
}

const end = (m: Meant): string[] => [
  ...partSaid(m),
  ...(m.limit.says === undefined ? [] : [`; ${m.limit.says}`]),
  lawSaid(m),
];

export function barredSaid(m: Meant, c: Case): Sentence {
  const { barred = [] } = m.limit;
  const external = allowed(m, 'external', c);
  const but: Sentence =
    barred.length === 2
      ? []
      : external
        ? ['; external use is allowed up to', external, 'in the product']
        : [`; ${barred[0] === 'internal' ? 'external' : 'internal'} use is exempt`];
  return [`${named(m)}: ${m.law.bars ?? 'barred by law'}`, ...but, ...end(m)];
}

const IN: Readonly<Record<Side, string>> = {
  single: 'in one dose',
  daily: 'a day',
  external: 'in the product',
};

export function aboveSaid({ side, taken, most, several }: Beside, m: Meant): Sentence {
  const { counts } = m.limit;
  return [
    `${named(m)}:`,
    ...(taken?.least ? [taken.least] : []),
    `${counts === undefined ? '' : `of ${counts} at the least `}${IN[side]}${several ? ' over all that holds it' : ''}, and ${itsLaw(m)} allows`,
    ...(most ? [most] : []),
    ...end(m),
  ];
}

/** Figures of the law that an amount of one herb could not be held against, each text in the order of the table. */
export function openSaid(sides: readonly Beside[]): Sentence {
  const [first] = sides as [Beside, ...Beside[]];
  const [m] = first.of;
  const texts = [...grouped(sides, (s) => s.of[0].limit.id).values()];
  const [own = [], ...others] = texts.map((some) => figuresOf(some));
  if (own.length === 0) return [`${named(m)}: ${itsLaw(m)} has no figure for this age`, ...end(m)];
  const { counts } = m.limit;
  const what =
    counts !== undefined
      ? `how much ${counts} it holds`
      : `how much of it is ${first.side === 'external' ? 'in the product' : 'taken'}`;
  return [
    `${named(m)}: ${what} cannot be told; ${itsLaw(m)} allows`,
    ...own,
    ...others.flatMap((figures, i): Sentence => [`; ${texts[i + 1]?.[0].of[0].law.name} gives`, ...figures]),
    ...end(m),
  ];
}

const figuresOf = (sides: readonly Beside[]): Sentence =>
  sides.flatMap((s, i): Sentence => (s.most ? [...(i > 0 ? ['and'] : []), s.most, IN[s.side]] : []));

export const otherPartSaid = (m: Meant): Sentence => [
  `${named(m)}: ${itsLaw(m)} has figures for the ${partsOf(m)}, and none for another part`,
  lawSaid(m),
];

export const partAskedSaid = (m: Meant): Sentence => [
  `${named(m)}: which part? It is within the figures of the ${partsOf(m)}${m.strictest ? ', the strictest' : ''}`,
  lawSaid(m),
];

export const takenAlreadySaid = ({ most }: Beside, m: Meant): Sentence => [
  `${named(m)}: how much of it is taken already in a day? ${itsLaw(m)} allows`,
  ...(most ? [most] : []),
  'a day in all',
  lawSaid(m),
];

export const useSaid = (m: Meant): Sentence => [
  `${named(m)}: ${itsLaw(m)} tells external use from what the body takes up, and which this is must be decided: external use is for local action where absorption is unlikely`,
  lawSaid(m),
];
