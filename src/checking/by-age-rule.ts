import { type AgeRule, byShare, type Grown, shareFor } from '../dosing/age-rules.ts';
import { markerOf } from '../dosing/applies.ts';
import { compare, type Measure } from '../dosing/compare.ts';
import type { AgeRules } from '../folder/schema/reference.ts';
import { withinBand } from '../measure/age.ts';
import { type Figure, given } from '../measure/figure.ts';
import { compareQuantities, type Quantity } from '../measure/quantity.ts';
import { type Case, type HerbInFormula, herbsOf } from './case.ts';
import { isUnderFloor } from './rules/age-floor.ts';

/** What one rule makes of the adult dose; `above` where the formula gives more than that. */
export interface ByRule {
  readonly rule: AgeRule;
  readonly share: Figure<Quantity>;
  readonly capped: boolean;
  readonly single: Figure<Quantity> | null;
  readonly daily: Figure<Quantity> | null;
  readonly above: boolean;
}

/** A herb of the formula by rules of age: why none is reckoned, or the adult dose and what each rule makes of it. */
export interface HerbByRules {
  readonly herb: string;
  readonly whyNone: string | null;
  readonly adult: { readonly single: Figure<Quantity> | null; readonly daily: Figure<Quantity> | null };
  readonly rules: readonly ByRule[];
  readonly notFor: readonly { readonly rule: AgeRule; readonly why: string }[];
}

/**
 * Rules of age for every herb of the formula. The adult dose is the strictest published top that can be compared with
 * this preparation. A floor of the monograph stops it, and a dose that the monograph has for the age goes before it.
 */
export function byAgeRules(c: Case, rules: readonly AgeRule[], table: AgeRules, who: Grown): HerbByRules[] {
  return herbsOf(c).map((h) => {
    const adult = { single: adultTop(h, 'single'), daily: adultTop(h, 'daily') };
    const whyNone = whyNot(h, c, who) ?? (adult.single || adult.daily ? null : NO_ADULT_DOSE);
    const none = { herb: h.herb, adult, rules: [], notFor: [] };
    if (whyNone !== null) return { ...none, whyNone };
    const shares = rules.map((rule) => ({ rule, made: shareFor(rule, table, who) }));
    return {
      ...none,
      whyNone,
      rules: shares.flatMap(({ rule, made }) => (made.ok ? [ofRule(h, rule, made, adult)] : [])),
      notFor: shares.flatMap(({ rule, made }) => (made.ok ? [] : [{ rule, why: made.why }])),
    };
  });
}

const NO_ADULT_DOSE = 'no adult dose of this preparation is published that could be scaled';
const ADULTHOOD = { from: { months: 18 * 12, text: '18 years' }, under: null };

type InHand = ReturnType<typeof herbsOf>[number];

function whyNot(h: InHand, c: Case, who: Grown): string | null {
  if (h.monograph === null) return 'there is no monograph, so that no dose and no lowest age are known';
  if (isUnderFloor(h.monograph, h.formula, c))
    return 'a source of its monograph gives a lowest age that is not reached: no rule goes under it';
  const isAdult = withinBand(who.birth, ADULTHOOD, who.on) === true;
  const own = h.compared.filter((x) => x.outcome !== 'not comparable' && x.forAge === true);
  return !isAdult && own.length > 0
    ? `${[...new Set(own.map((x) => x.cited.body))].join(' and ')} has a dose for this very age, which goes before any rule`
    : null;
}

/** The strictest top of what is published for adults of this preparation. */
function adultTop({ monograph, dose }: HerbInFormula, measure: Measure): Figure<Quantity> | null {
  if (monograph === null || dose === null) return null;
  const tops = compare(monograph, dose, null)
    .filter((x) => markerOf(x.entry) === null)
    .flatMap((x) =>
      x.against.flatMap(({ measure: m, published: { value, step } }) =>
        m === measure && value.high
          ? [
              given(
                value.high,
                `adult dose of ${dose.herb}, ${measure}: ${x.cited.body}`,
                step.source ?? x.cited,
              ),
            ]
          : [],
      ),
    );
  return tops.reduce<Figure<Quantity> | null>(
    (a, b) => (a === null || compareQuantities(b.value, a.value) < 0 ? b : a),
    null,
  );
}

function ofRule(
  { herb, dose }: HerbInFormula,
  rule: AgeRule,
  { share, capped }: { readonly share: Figure<Quantity>; readonly capped: boolean },
  adult: HerbByRules['adult'],
): ByRule {
  const made = (measure: 'single' | 'daily'): Figure<Quantity> | null => {
    const top = adult[measure];
    return top && byShare(top, share, `${herb} by ${rule.name}, ${measure}`);
  };
  const [single, daily] = [made('single'), made('daily')];
  const isAbove = (limit: Figure<Quantity> | null, taken: Figure<Quantity> | undefined): boolean =>
    limit !== null &&
    taken !== undefined &&
    taken.value.unit.dimension === limit.value.unit.dimension &&
    compareQuantities(taken.value, limit.value) > 0;
  const above = isAbove(single, dose?.amounts?.single) || isAbove(daily, dose?.amounts?.daily);
  return { rule, share, capped, single, daily, above };
}
