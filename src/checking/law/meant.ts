import { routeOf } from '../../dosing/dosed-as.ts';
import type { Formula } from '../../folder/schema/formula.ts';
import type { LegalLimits } from '../../folder/schema/reference.ts';
import { compareQuantities, type Quantity } from '../../measure/quantity.ts';
import { normal } from '../../vocabulary/normal.ts';
import type { Case, FormulaInCase, HerbInFormula } from '../case.ts';
import { type Limit, type Named, namedBy } from './names.ts';

/** What is handed over, beside what the law says of it. */

export type Law = LegalLimits['laws'][number];
export type Use = LegalLimits['routes'][number]['use'];

export interface HerbHanded extends HerbInFormula {
  readonly from: FormulaInCase;
  readonly use: Use;
}

/** One entry of the law for one herb of one formula. */
export interface Meant {
  readonly herb: HerbHanded;
  readonly limit: Limit;
  readonly law: Law;
  readonly named: Named;
  /** True where other parts have figures too, and these are the lowest. */
  readonly strictest: boolean;
}

/** Every herb of what is handed over; a formula that is named twice is handed over once. */
export function handedOver(c: Case): HerbHanded[] {
  const formulas = [...new Map(c.formulas.map((f) => [f.formula.formula, f])).values()];
  return formulas.flatMap((from) =>
    from.herbs.map((h) => ({ ...h, from, use: useOf(c.legal, from.formula) })),
  );
}

function useOf({ routes }: LegalLimits, formula: Formula): Use {
  const route = routeOf(formula);
  const { preparation: p } = formula;
  const row = routes.find(
    (r) => r.route === route && (r.for === undefined || (p.kind === 'wash' && p.for === r.for)),
  );
  return row?.use ?? 'unclear';
}

/** Every entry of every law that speaks of this herb in this form and use, by jurisdiction. */
export function lawsOf({ legal }: Pick<Case, 'legal'>, herb: HerbHanded): Map<string, Meant[]> {
  const found = namedBy(legal, herb.herb, herb.monograph)
    .filter(({ limit }) => restricts(limit, herb.use))
    .filter(({ limit }) => limit.except !== 'powder' || !isPowdered(herb))
    .map(
      (named): Meant => ({
        herb,
        named,
        limit: named.limit,
        law: lawOf(legal, named.limit),
        strictest: false,
      }),
    );
  return grouped(partsSettled(found), (m) => m.law.jurisdiction);
}

function lawOf({ laws }: LegalLimits, limit: Limit): Law {
  const law = laws.find((l) => l.id === limit.law);
  if (!law) throw new Error(`the law ${limit.law} is not in the table`);
  return law;
}

/** Of what cannot be said to be one way of use, whether both are barred. */
export function isBarred({ barred = [] }: Limit, use: Use): boolean {
  return use === 'unclear' ? barred.length === 2 : barred.includes(use);
}

/** Whether it says anything of this way of use. */
function restricts(l: Limit, use: Use): boolean {
  const internal = isBarred(l, 'internal') || l.single !== undefined || l.daily !== undefined;
  const external = isBarred(l, 'external') || l.external !== undefined;
  return use === 'internal' ? internal : use === 'external' ? external : internal || external;
}

function isPowdered({ herb, from: { formula } }: HerbHanded): boolean {
  const ingredient = formula.ingredients.find((i) => i.herb === herb);
  return (
    ingredient?.form === 'powder' ||
    ['powder', 'capsule'].includes(formula.preparation.kind) ||
    normal(herb)
      .split(' ')
      .some((w) => w === 'powder' || w === 'powdered')
  );
}

/**
 * Where a law has figures for several parts and none of them is the one in hand, the strictest count. A part beside
 * those that a law bars is free of it; a part beside those that it gives an amount for has none.
 */
function partsSettled(found: readonly Meant[]): Meant[] {
  return [...grouped(found, (m) => `${m.law.id} ${m.limit.counts ?? ''}`).values()].flatMap((group) => {
    const named = group.filter((m) => m.named.part === 'named');
    if (named.length > 0) return named;
    const may = group.filter((m) => m.named.part !== 'other');
    const [strictest] = [...may].sort(stricterFirst);
    if (strictest) return [{ ...strictest, strictest: may.length > 1 }];
    return group.filter((m) => !isBarred(m.limit, 'unclear')).slice(0, 1);
  });
}

const stricterFirst = (a: Meant, b: Meant): number =>
  bySize(a.limit.single, b.limit.single) || bySize(a.limit.daily, b.limit.daily);

const bySize = (a: Quantity | undefined, b: Quantity | undefined): number =>
  a && b ? compareQuantities(a, b) : 0;

export function grouped<T>(items: readonly T[], by: (item: T) => string): Map<string, [T, ...T[]]> {
  const groups = new Map<string, [T, ...T[]]>();
  for (const item of items) {
    const group = groups.get(by(item));
    if (group) group.push(item);
    else groups.set(by(item), [item]);
  }
  return groups;
}
