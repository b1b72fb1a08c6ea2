import { citeIn } from '../../folder/cite-in.ts';
import type { Formula } from '../../folder/schema/formula.ts';
import type { AgeFloor, Monograph } from '../../folder/schema/monograph.ts';
import { hasReached, type Ternary } from '../../measure/age.ts';
import { type Case, type HerbInFormula, herbsOf, type Rule } from '../case.ts';
import { concerning } from '../concerns.ts';
import { type Finding, finding } from '../finding.ts';
import { LEVELS, type Level, type Outcome } from '../level.ts';
import { ageInWords, type Person } from '../person.ts';

const NO_DATA = 'no-data';

export const ageFloor: Rule = {
  name: 'age-floor',
  sentence:
    'Under an age that a source states: withheld when every source that states one agrees and gives more than want of data, else a decision.',
  fires: 'willow bark at 15, which no source gives under 18',
  quiet: 'chamomile tea at 3, which its sources give from 6 months and from 2 years',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (person === null || person.birth === null) return [];
    return herbsOf(c).flatMap((h): Finding[] => {
      if (h.monograph === null) return [];
      const floors = floorsFor(h.monograph, h.formula, c);
      return [...under(h, h.monograph, floors, person, c), ...straddled(h, h.monograph, floors, c)];
    });
  },
};

export interface Floor {
  readonly floor: AgeFloor;
  readonly reached: Ternary;
}

/** The floors that concern this preparation, route and use, each with whether the person has reached it. */
export function floorsFor(m: Monograph, formula: Formula, c: Case): Floor[] {
  const birth = c.person?.birth;
  if (!birth) return [];
  return concerning(m.ages ?? [], formula, m.id, () => true).map((floor) => ({
    floor,
    reached: hasReached(birth, floor.not_under.months, c.on),
  }));
}

/** Whether the person is under a floor for this herb, so that a missing dose for the age need not be said twice. */
export function isUnderFloor(m: Monograph, formula: Formula, c: Case): boolean {
  return floorsFor(m, formula, c).some((f) => f.reached === false);
}

/** What being under these floors of all that concern the formula comes to; null where the person is under none. */
function outcomeUnder(below: readonly Floor[], floors: readonly Floor[]): Outcome | null {
  if (below.length === 0) return null;
  const sources = (list: readonly Floor[]): number => new Set(list.map((f) => f.floor.source)).size;
  const onlyNoData = below.every((f) => f.floor.because === NO_DATA);
  const every = sources(below) === sources(floors) && !onlyNoData;
  return every ? 'under-every-floor' : 'under-a-floor';
}

function levelUnder(below: readonly Floor[], floors: readonly Floor[], c: Case): Level | null {
  const outcome = outcomeUnder(below, floors);
  return outcome && c.levels.ofOutcome(outcome);
}

/** What a decision rests on; notes are left out, for they are prose. */
function factsOf({ floor: { not_under, because, source, preparation, route, use } }: Floor): object {
  return { months: not_under.months, because, source, preparation, route, use };
}

const inOrder = (a: Floor, b: Floor): number =>
  b.floor.not_under.months - a.floor.not_under.months || (a.floor.source < b.floor.source ? -1 : 1);

/** `EMA/HMPC: not under 12 years (no data)` */
export const floorInWords = (m: Monograph, { floor }: Floor): string =>
  `${citeIn(m, floor).body}: not under ${floor.not_under.text} (${floor.because.replace(/-/g, ' ')})`;

function under(h: HerbInFormula, m: Monograph, floors: readonly Floor[], person: Person, c: Case): Finding[] {
  const below = floors.filter((f) => f.reached === false).sort(inOrder);
  const [strictest] = below;
  const outcome = outcomeUnder(below, floors);
  if (strictest === undefined || outcome === null) return [];
  const words = below.map((f) => floorInWords(m, f));
  const barring = new Set(below.map((f) => f.floor.source));
  const others = floors
    .filter((f) => f.reached === true && !barring.has(f.floor.source))
    .sort(inOrder)
    .map(({ floor }) => `${citeIn(m, floor).body}: from ${floor.not_under.text}`);
  const besides = others.length > 0 ? `; but ${[...new Set(others)].join('; ')}` : '';
  return [
    finding({
      rule: 'age-floor',
      herb: h.herb,
      subject: 'age',
      ...c.levels.judged(outcome),
      say: [
        `the person is ${ageInWords(person)} old, too young for ${h.herb}: ${[...new Set(words)].join('; ')}${besides}`,
      ],
      source: citeIn(m, strictest.floor),
      facts: { floors: floors.map(factsOf), under: below.map(factsOf) },
    }),
  ];
}

/** An age limit within what is known of the birth date is asked about, wherever the day could change the level. */
function straddled(h: HerbInFormula, m: Monograph, floors: readonly Floor[], c: Case): Finding[] {
  const sure = levelUnder(
    floors.filter((f) => f.reached === false),
    floors,
    c,
  );
  const atMost = levelUnder(
    floors.filter((f) => f.reached !== true),
    floors,
    c,
  );
  const bands = h.compared.some((x) => x.forAge === 'unknown');
  if (isGravest(sure) || (sure === atMost && !bands)) return [];
  const [open] = floors.filter((f) => f.reached === 'unknown').sort(inOrder);
  return [
    finding({
      rule: 'age-floor',
      herb: h.herb,
      subject: 'birth',
      ...c.levels.judged('age-straddles'),
      say: [
        `an age limit of ${h.herb}${open ? ` (${open.floor.not_under.text})` : ''} falls within what is known of the birth date: on which day were they born?`,
      ],
      source: open ? citeIn(m, open.floor) : null,
      facts: { floors: floors.map(factsOf), birth: c.person?.birth },
    }),
  ];
}

const isGravest = (level: Level | null): boolean => level === LEVELS[0];
