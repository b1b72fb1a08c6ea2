import { daysBetween } from '../../measure/calendar.ts';
import { type Figure, given, worked } from '../../measure/figure.ts';
import { plus, type Quantity, quantity } from '../../measure/quantity.ts';
import { day } from '../../measure/units.ts';
import { type Case, herbsOf, type Rule } from '../case.ts';
import { type StatedTime, timesStated } from '../clocks.ts';
import { type Finding, finding } from '../finding.ts';
import { type TakenHerb, takenAlready } from '../person.ts';

type HerbInHand = ReturnType<typeof herbsOf>[number];

export const course: Rule = {
  name: 'course',
  sentence:
    'How long a herb is taken, counted over what was already taken, against when a source says to stop and when to see a doctor.',
  fires: 'five weeks of a herb that its source stops after four',
  quiet: 'a week of it',
  find: (c: Case): Finding[] =>
    herbsOf(c).flatMap((h): Finding[] => {
      if (h.monograph === null || h.dose === null) return [];
      const days = courseOf(h, c);
      const stopped = stop(h, days, c);
      return [...(stopped ?? sinceWhen(h, days, c)), ...refer(h, days, c)];
    }),
};

/** Days in all: those directed now and those already taken; null where the directions set no end. */
function courseOf(h: HerbInHand, c: Case): Figure<Quantity> | null {
  const directed = h.dose?.course ?? null;
  const longest = takenOf(h, c).reduce((most, t) => Math.max(most, daysOf(t, c)), 0);
  if (directed === null || longest === 0) return directed;
  const already = given(quantity(longest, day), `${h.herb} already taken for`);
  return worked(plus(directed.value, already.value), 'days in all', '{} + {}', [directed, already]);
}

/** What the person takes of this herb now, or took until lately. */
function takenOf(h: HerbInHand, c: Case): readonly TakenHerb[] {
  return c.person === null ? [] : takenAlready(c.person).filter((t) => t.herb === h.herb);
}

function daysOf({ since, stopped }: TakenHerb, c: Case): number {
  return since === null ? 0 : Math.max(0, daysBetween(since, stopped ?? c.on));
}

const isSafety = (s: StatedTime): boolean => s.compared.entry.limit === 'safety';

function isBeyond(days: Figure<Quantity> | null, { limit }: StatedTime): boolean {
  return days === null || days.value.value.gt(limit.value.value);
}

/** Beyond a time to stop: a limit for safety before a customary one, then the shortest. Null where none is passed. */
function stop(h: HerbInHand, days: Figure<Quantity> | null, c: Case): Finding[] | null {
  const passed = timesStated(h, 'stop_after').filter((s) => isBeyond(days, s));
  const first = passed.find(isSafety) ?? passed[0];
  if (first === undefined) return null;
  const { compared, limit } = first;
  return [
    finding({
      rule: 'course',
      herb: h.herb,
      subject: `${h.formula.formula} stop`,
      ...c.levels.judged(isSafety(first) ? 'beyond-safety-stop' : 'beyond-stop'),
      say:
        days === null
          ? [`the directions set no end, and ${compared.cited.body} stops ${h.herb} after`, limit]
          : [`${h.herb} is taken for`, days, `in all, and ${compared.cited.body} stops it after`, limit],
      figures: days === null ? [limit] : [days, limit],
      source: compared.cited,
      facts: { days: days?.value ?? null, limit: limit.value, source: compared.cited.key },
    }),
  ];
}

/** Taken already, but nobody said since when: whether the end is passed cannot be told. */
function sinceWhen(h: HerbInHand, days: Figure<Quantity> | null, c: Case): Finding[] {
  const [first] = timesStated(h, 'stop_after');
  if (first === undefined || days === null || takenOf(h, c).every((t) => t.since !== null)) return [];
  const { cited } = first.compared;
  return [
    finding({
      rule: 'course',
      herb: h.herb,
      subject: `${h.formula.formula} since`,
      ...c.levels.judged('too-coarse'),
      say: [
        `${h.herb} is taken already: since when? ${cited.body} stops it after`,
        first.limit,
        ', what was taken before included',
      ],
      figures: [first.limit],
      source: cited,
      facts: { limit: first.limit.value, source: cited.key },
    }),
  ];
}

function refer(h: HerbInHand, days: Figure<Quantity> | null, c: Case): Finding[] {
  const [first] = timesStated(h, 'refer_after');
  if (first === undefined || !isBeyond(days, first)) return [];
  const { compared, limit } = first;
  return [
    finding({
      rule: 'course',
      herb: h.herb,
      subject: `${h.formula.formula} refer`,
      ...c.levels.judged('refer-within-course'),
      say: ['see a doctor after', limit, `of ${h.herb} if there is no improvement`],
      figures: [limit],
      source: compared.cited,
      facts: { limit: limit.value, source: compared.cited.key },
    }),
  ];
}
