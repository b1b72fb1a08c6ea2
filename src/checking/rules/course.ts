import type { Compared } from '../../dosing/compare.ts';
import { daysBetween } from '../../measure/calendar.ts';
import { type Figure, given, worked } from '../../measure/figure.ts';
import { inUnit, plus, type Quantity, quantity } from '../../measure/quantity.ts';
import { day } from '../../measure/units.ts';
import { type Case, type HerbInFormula, herbsOf, type Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';

export const course: Rule = {
  name: 'course',
  sentence:
    'How long a herb is taken, counted over what was already taken, against when a source says to stop and when to see a doctor.',
  fires: 'five weeks of a herb that its source stops after four',
  quiet: 'a week of it',
  find: (c: Case): Finding[] =>
    herbsOf(c).flatMap((h): Finding[] => {
      if (h.monograph === null || h.dose === null) return [];
      const entries = h.compared.filter((x) => x.outcome !== 'not comparable');
      const days = courseOf(h, c);
      return [...stop(h, entries, days, c), ...refer(h, entries, days, c)];
    }),
};

/** Days in all: those directed now and those already taken; null where the directions set no end. */
function courseOf(h: HerbInFormula & { formula: { formula: string } }, c: Case): Figure<Quantity> | null {
  const directed = h.dose?.course ?? null;
  const before = c.person?.taking.given
    ? c.person.taking.value.filter((t) => t.herb === h.herb && t.since !== null && t.stopped === null)
    : [];
  const longest = before.reduce((most, t) => Math.max(most, t.since ? daysBetween(t.since, c.on) : 0), 0);
  if (directed === null || longest <= 0) return directed;
  const already = given(quantity(longest, day), `${h.herb} already taken for`);
  return worked(plus(directed.value, already.value), 'days in all', '{} + {}', [directed, already]);
}

type Clock = 'stop_after' | 'refer_after';

function earliest(
  entries: readonly Compared[],
  clock: Clock,
): { compared: Compared; limit: Figure<Quantity> } | null {
  const stated = entries.flatMap((compared) => {
    const limit = compared.entry[clock];
    return limit
      ? [
          {
            compared,
            limit: given(
              inUnit(limit, day),
              clock === 'stop_after' ? 'stop after, as published' : 'see a doctor after, as published',
              compared.cited,
            ),
          },
        ]
      : [];
  });
  return stated.length === 0
    ? null
    : stated.reduce((a, b) => (b.limit.value.value.lt(a.limit.value.value) ? b : a));
}

function isBeyond(days: Figure<Quantity> | null, limit: Figure<Quantity>): boolean {
  return days === null || days.value.value.gt(limit.value.value);
}

function stop(
  h: HerbInFormula,
  entries: readonly Compared[],
  days: Figure<Quantity> | null,
  c: Case,
): Finding[] {
  const first = earliest(entries, 'stop_after');
  if (first === null || !isBeyond(days, first.limit)) return [];
  const { compared, limit } = first;
  return [
    finding({
      rule: 'course',
      herb: h.herb,
      subject: 'stop',
      level: c.levels.ofOutcome(compared.entry.limit === 'safety' ? 'beyond-safety-stop' : 'beyond-stop'),
      say:
        days === null
          ? [`the directions set no end, and ${compared.cited.body} stops ${h.herb} after`, limit]
          : [`${h.herb} is taken for`, days, `, and ${compared.cited.body} stops it after`, limit],
      figures: days === null ? [limit] : [days, limit],
      source: compared.cited,
      facts: { days: days?.value ?? null, limit: limit.value, source: compared.cited.key },
    }),
  ];
}

function refer(
  h: HerbInFormula,
  entries: readonly Compared[],
  days: Figure<Quantity> | null,
  c: Case,
): Finding[] {
  const first = earliest(entries, 'refer_after');
  if (first === null || !isBeyond(days, first.limit)) return [];
  const { compared, limit } = first;
  return [
    finding({
      rule: 'course',
      herb: h.herb,
      subject: 'refer',
      level: c.levels.ofOutcome('refer-within-course'),
      say: [`see a doctor after`, limit, `of ${h.herb} if there is no improvement`],
      figures: [limit],
      source: compared.cited,
      facts: { limit: limit.value, source: compared.cited.key },
    }),
  ];
}
