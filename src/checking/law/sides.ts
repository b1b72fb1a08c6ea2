import type { Figure } from '../../measure/figure.ts';
import type { Quantity } from '../../measure/quantity.ts';
import type { Case } from '../case.ts';
import { regimen } from '../regimen.ts';
import { added, allowed, beside, type Counted, counted, type Side, strengthOf } from './amounts.ts';
import { grouped, isBarred, type Meant } from './meant.ts';
import { namedBy } from './names.ts';

/** Each figure of the law beside what it counts, over all that it counts together. */

export interface Beside {
  readonly side: Side;
  /** The herbs of what is handed over that it counts, of one limit. */
  readonly of: readonly [Meant, ...Meant[]];
  /** Null where the law has none for this age. */
  readonly most: Figure<Quantity> | null;
  /** Null where it cannot be told. */
  readonly taken: Counted | null;
  /** Whether more than one thing that is used holds it. */
  readonly several: boolean;
  /** `barred`: the law leaves no amount. `not told`: what is taken besides was not said. */
  readonly verdict: 'above' | 'within' | 'open' | 'barred' | 'not told';
}

type Some = readonly [Meant, ...Meant[]];

/** What is put on: the plant in each formula. */
export function external(meant: readonly Meant[], c: Case): Beside[] {
  return byFormula(meant).flatMap((of): Beside[] => {
    const [{ limit }] = of;
    const side = { side: 'external', of, several: of.length > 1 } as const;
    const most = allowed(of[0], 'external', c);
    if (isBarred(limit, 'external')) return [{ ...side, most, taken: null, verdict: 'barred' }];
    if (most === null) return [];
    const each = of.flatMap((m) => strengthOf(m.herb) ?? []);
    // A constituent is never more than the plant that holds it; how much less, its content in a product does not say.
    const taken =
      each.length === of.length
        ? added(
            each.map((f) => ({ least: limit.counts === undefined ? f : null, most: f })),
            'of the plant in the product',
          )
        : null;
    return [{ ...side, most, taken, verdict: taken ? beside(taken, most.value) : 'open' }];
  });
}

/** What is taken: in one dose of each formula, and in a day over everything. */
export function internal(meant: readonly Meant[], c: Case): Beside[] {
  const barred = byFormula(meant.filter((m) => isBarred(m.limit, 'internal')));
  const free = meant.filter((m) => !isBarred(m.limit, 'internal'));
  return [
    ...barred.map(
      (of): Beside => ({ side: 'single', of, several: false, most: null, taken: null, verdict: 'barred' }),
    ),
    ...byFormula(free).flatMap((of) => single(of, c)),
    ...[...grouped(free, (m) => m.limit.id).values()].flatMap((of) => daily(of, c)),
  ];
}

const byFormula = (meant: readonly Meant[]): Some[] => [
  ...grouped(meant, (m) => `${m.limit.id} ${m.herb.from.formula.formula}`).values(),
];

function single(of: Some, c: Case): Beside[] {
  if (of[0].limit.single === undefined) return [];
  const each = of.map((m) => countedIn(m, 'single'));
  return [held('single', of, each, false, c)];
}

function daily(of: Some, c: Case): Beside[] {
  const [{ limit }] = of;
  if (limit.daily === undefined) return [];
  const already = regimen(c).filter(
    (p) =>
      !p.given && namedBy(c.legal, p.herb, p.monograph).some((n) => n.limit === limit && n.part !== 'other'),
  );
  const known = already.flatMap((p) => (p.daily ? [counted(limit, p.monograph, p.daily)] : []));
  const each = [...of.map((m) => countedIn(m, 'daily')), ...known];
  return [held('daily', of, each, known.length < already.length, c)];
}

function countedIn({ limit, herb }: Meant, side: 'single' | 'daily'): Counted | null {
  const amount = herb.dose?.amounts?.[side];
  return amount ? counted(limit, herb.monograph, amount) : null;
}

function held(
  side: 'single' | 'daily',
  of: Some,
  each: readonly (Counted | null)[],
  more: boolean,
  c: Case,
): Beside {
  const most = allowed(of[0], side, c);
  const known = each.filter((x) => x !== null);
  const says = `${of[0].herb.herb} ${side === 'daily' ? 'in a day' : 'in one dose'}, over all that holds it`;
  const taken = added(known, says);
  const so = { side, of, several: each.length > 1, most, taken };
  if (most === null || taken === null) return { ...so, verdict: 'open' };
  const verdict = beside(taken, most.value);
  if (verdict === 'above') return { ...so, verdict };
  if (known.length < each.length) return { ...so, taken: null, verdict: 'open' };
  return { ...so, verdict: more ? 'not told' : verdict };
}
