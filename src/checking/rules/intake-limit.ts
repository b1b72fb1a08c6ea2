import { compareQuantities } from '../../measure/quantity.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding, type Sentence } from '../finding.ts';
import {
  holds,
  isAbove,
  isForThem,
  type Limit,
  type MayTake,
  mayTake,
  type Side,
  sideOf,
  takenOf,
} from '../intake.ts';
import { type Portion, regimen } from '../regimen.ts';

export const intakeLimit: Rule = {
  name: 'intake-limit',
  sentence:
    'A constituent with a limit is added up over everything taken by mouth; where its content is not known closely enough, that is said.',
  fires: 'liquorice tea with more than 100 mg of glycyrrhizin a day, though inside its own dose range',
  quiet: 'liquorice in a gargle',
  find: (c: Case): Finding[] => {
    const bySubject = new Map<string, [Limit, ...Limit[]]>();
    for (const limit of c.intake.limits.filter((l) => isForThem(l, c))) {
      const key = `${limit.id} ${sideOf(limit)}`;
      const known = bySubject.get(key);
      if (known) known.push(limit);
      else bySubject.set(key, [limit]);
    }
    return [...bySubject.values()].flatMap((limits) => judge(limits, c));
  },
};

/** Limits of one constituent: the strictest counts, and what another source allows is said beside it. */
function judge(limits: readonly [Limit, ...Limit[]], c: Case): Finding[] {
  const holding = regimen(c).filter((p) => limits.some((l) => holds(p, l)));
  if (!holding.some((p) => p.given)) return [];
  const allowed = limits
    .flatMap((l) => mayTake(l, c) ?? [])
    .sort((a, b) => compareQuantities(a.most.value, b.most.value) || (a.source.key < b.source.key ? -1 : 1));
  const [first] = limits;
  const side = sideOf(first);
  // A single amount is that of one formula; in a day everything is added up.
  const parts =
    side === 'daily'
      ? [holding]
      : [...new Set(holding.filter((p) => p.given).map((p) => p.from))].map((from) =>
          holding.filter((p) => p.from === from),
        );
  return parts.flatMap((portions) => told(first, portions, side, allowed, c));
}

const WHEN: Readonly<Record<Side, string>> = { single: 'at once', daily: 'a day' };

function told(
  limit: Limit,
  portions: readonly Portion[],
  side: Side,
  allowed: readonly MayTake[],
  c: Case,
): Finding[] {
  const [strictest] = allowed;
  if (strictest === undefined) return [];
  const taken = takenOf(limit, portions, side);
  // At the high end of the stated content; where that end is open, what is stated may be above all the same.
  const counted = taken.most ?? taken.highestStated;
  const above = counted !== null && isAbove(counted, strictest);
  if (!above && taken.most !== null) return [];
  const when = WHEN[side];
  const gives = (m: MayTake): Sentence => [`${m.source.body} gives`, m.most, `${when} at the most`];
  const others = allowed.slice(1).flatMap((m): Sentence => [';', ...gives(m)]);
  const lead: Sentence =
    above && counted
      ? [
          `${limit.id}:`,
          counted,
          `${when} ${taken.most ? 'at the most' : 'or more'}${side === 'daily' ? ', over everything taken,' : ''} and`,
        ]
      : taken.least
        ? [`${limit.id}:`, taken.least, `${when} or more, and how much more cannot be told;`]
        : [`how much ${limit.id} is taken ${side === 'daily' ? 'in a day' : when} cannot be told;`];
  const figures = [counted, taken.least, ...allowed.map((m) => m.most)].filter((f) => f !== null);
  const herbs = [...new Set(portions.filter((p) => p.given).map((p) => p.herb))].sort();
  return herbs.map((herb) =>
    finding({
      rule: 'intake-limit',
      herb,
      subject: side === 'daily' ? limit.id : `${limit.id} ${side}`,
      ...c.levels.judged(above ? 'above-intake-limit' : 'intake-unbounded'),
      say: [...lead, ...gives(strictest), ...others],
      figures,
      source: strictest.source,
      facts: {
        limits: allowed.map((m) => [m.source.key, m.most.value, m.limit.strict ?? false]),
        counts: limit.counts,
        taken: portions.map((p) => [p.herb, p.from, p[side]?.value ?? null]),
        least: taken.least?.value ?? null,
        most: counted?.value ?? null,
      },
    }),
  );
}

/** Limits that go by a weight which was not given, with the herbs that they are about. */
export function weightAskedFor(c: Case): string[] {
  if (c.person === null || c.person.weight !== null) return [];
  const portions = regimen(c).filter((p) => p.given);
  return c.intake.limits.flatMap((limit) =>
    limit.daily_per_kg && isForThem(limit, c)
      ? portions.filter((p) => holds(p, limit)).map((p) => p.herb)
      : [],
  );
}
