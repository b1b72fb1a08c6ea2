import { type AdultDose, type AdultFigure, adultDose } from '../dosing/adult-dose.ts';
import { type AgeRule, byShare, type Grown, type Share, shareFor } from '../dosing/age-rules.ts';
import { ADULTS } from '../dosing/applies.ts';
import { citeIn } from '../folder/cite-in.ts';
import type { AgeRules } from '../folder/schema/reference.ts';
import { withinBand } from '../measure/age.ts';
import type { Figure } from '../measure/figure.ts';
import { compareQuantities, type Quantity } from '../measure/quantity.ts';
import { type Case, type HerbInFormula, herbsOf } from './case.ts';
import { cautionsWeighed, type Weighed } from './cautions.ts';
import { floorInWords, floorsFor } from './rules/age-floor.ts';

export interface Reckoned extends Extract<Share, { ok: true }> {
  readonly rule: AgeRule;
}

/** What rules of age come to for one person, whatever the herb. */
export interface RulesForPerson {
  readonly who: Grown;
  readonly named: readonly Reckoned[];
  readonly notFor: readonly { readonly rule: AgeRule; readonly why: string }[];
  /** Of the rules that were not named, the one with the smallest share, where it is smaller than every one named. */
  readonly stricter: Reckoned | null;
}

/** What one rule makes of the adult dose; `above` where the formula gives more than that, at once or in a day. */
export interface ByRule extends Reckoned {
  readonly single: Figure<Quantity> | null;
  readonly daily: Figure<Quantity> | null;
  readonly above: boolean;
}

/** A herb of the formula by rules of age: why none is reckoned, or the adult dose and what each rule makes of it. */
export interface HerbByRules {
  readonly herb: string;
  readonly whyNone: string | null;
  readonly adult: AdultDose;
  readonly rules: readonly ByRule[];
  readonly stricter: ByRule | null;
  /** No source of the monograph states a lowest age, which is not that there is none. */
  readonly noFloorRead: boolean;
}

/** The rules that were named, and every other that could be stricter. Figures in print beside a rule count only by name. */
export function rulesForPerson(named: readonly AgeRule[], table: AgeRules, who: Grown): RulesForPerson {
  const reckon = (rules: readonly AgeRule[]) =>
    rules.map((rule) => ({ rule, made: shareFor(rule, table, who) }));
  const ok = (made: ReturnType<typeof reckon>): Reckoned[] =>
    made
      .flatMap(({ rule, made: m }) => (m.ok ? [{ rule, ...m }] : []))
      .sort((a, b) => compareQuantities(a.share.value, b.share.value));
  const made = reckon(named);
  const ours = ok(made);
  const [other] = ok(reckon(table.rules.filter((r) => r.variant_of === undefined && !named.includes(r))));
  const [least] = ours;
  const isStricter =
    other !== undefined && least !== undefined && compareQuantities(other.share.value, least.share.value) < 0;
  return {
    who,
    named: ours,
    notFor: made.flatMap(({ rule, made: m }) => (m.ok ? [] : [{ rule, why: m.why }])),
    stricter: isStricter ? other : null,
  };
}

/**
 * Rules of age for every herb of the formula. The adult dose is the strictest published top that can be compared with
 * this preparation. A contraindication or a floor of the monograph stops it, and a dose that the monograph has for the
 * age itself goes before it; where the day of birth decides about either, it is asked and nothing is reckoned.
 */
export function byAgeRules(c: Case, rules: RulesForPerson): HerbByRules[] {
  return herbsOf(c).map((h) => {
    const { monograph: m, dose } = h;
    const adult = m && dose ? adultDose(m, dose) : { single: null, daily: null };
    const whyNone = whyNot(h, c, rules.who) ?? (adult.single || adult.daily ? null : NO_ADULT_DOSE);
    return {
      herb: h.herb,
      whyNone,
      adult,
      rules: whyNone === null ? rules.named.map((r) => ofRule(h.herb, r, adult)) : [],
      stricter: whyNone === null && rules.stricter ? ofRule(h.herb, rules.stricter, adult) : null,
      noFloorRead: m !== null && (m.ages ?? []).length === 0,
    };
  });
}

const NO_ADULT_DOSE = 'no adult dose of this preparation is published that could be scaled';

type InHand = ReturnType<typeof herbsOf>[number];

function whyNot(h: InHand, c: Case, who: Grown): string | null {
  if (h.monograph === null) return 'there is no monograph, so that no dose and no lowest age are known';
  const barred = barredBy(h, c);
  if (barred !== undefined)
    return `${citeIn(barred.monograph, barred.caution).body} says it ${c.levels.wordsOf(barred.caution.says)} (${barred.caution.why}): no rule goes against that`;
  const floors = floorsFor(h.monograph, h.formula, c);
  const below = floors.filter((f) => f.reached === false);
  if (below.length > 0) {
    const said = new Set(below.map((f) => floorInWords(h.monograph as NonNullable<typeof h.monograph>, f)));
    return `${[...said].join('; ')}: no rule goes under a lowest age`;
  }
  const open = floors.find((f) => f.reached === 'unknown');
  if (open)
    return `a lowest age (${open.floor.not_under.text}) lies within what is known of the birth date: on which day were they born?`;
  return withinBand(who.birth, ADULTS, who.on) === true ? null : ownDose(h);
}

/** A caution that withholds the herb from this very person. */
function barredBy(h: HerbInFormula, c: Case): Weighed | undefined {
  return cautionsWeighed(c).find(
    (w) => w.herb.herb === h.herb && w.level === 'withhold' && w.met.holds === true,
  );
}

/** A dose that the monograph has for the age itself, which goes before any rule. */
function ownDose({ compared }: HerbInFormula): string | null {
  const own = compared.filter((x) => x.outcome !== 'not comparable');
  if (own.length === 0) return null;
  const bodies = [...new Set(own.flatMap((x) => (x.forAge === true ? [x.cited.body] : [])))];
  if (bodies.length === 0)
    return 'an edge of a published dose lies within what is known of the birth date: on which day were they born?';
  const verb = bodies.length === 1 ? 'has' : 'have';
  return `${bodies.join(' and ')} ${verb} a dose for this very age, which goes before any rule`;
}

function ofRule(herb: string, made: Reckoned, adult: AdultDose): ByRule {
  const of = (figure: AdultFigure | null, measure: string): Figure<Quantity> | null =>
    figure && byShare(figure.top, made.share, `${herb} by ${made.rule.name}, ${measure}`);
  const [single, daily] = [of(adult.single, 'single'), of(adult.daily, 'daily')];
  const isMore = (figure: AdultFigure | null, limit: Figure<Quantity> | null): boolean =>
    figure !== null && limit !== null && compareQuantities(figure.formula.value, limit.value) > 0;
  return { ...made, single, daily, above: isMore(adult.single, single) || isMore(adult.daily, daily) };
}
