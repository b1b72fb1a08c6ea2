import type { Against, Compared, Measure } from '../../dosing/compare.ts';
import { writeAgeBand } from '../../measure/age.ts';
import { one } from '../../measure/exact.ts';
import { compareQuantities, times } from '../../measure/quantity.ts';
import { type Case, type HerbInFormula, herbsOf, type Rule } from '../case.ts';
import { type Finding, finding, type Sentence } from '../finding.ts';
import { isUnderFloor } from './age-floor.ts';

const MEASURES: readonly Measure[] = ['single', 'daily', 'weekly', 'times a day', 'times a week'];
const WORDS: Readonly<Record<Measure, string>> = {
  single: 'in one dose',
  daily: 'a day',
  weekly: 'a week',
  'times a day': 'a day',
  'times a week': 'a week',
};

interface Limit extends Against {
  readonly compared: Compared;
}

export const dose: Rule = {
  name: 'dose',
  sentence:
    'Single, daily and weekly dose and how often, each beside every comparable published figure for this person and use.',
  fires: 'four grams of an herb at once where every source stops at three',
  quiet: 'a dose inside every published range',
  find: (c: Case): Finding[] =>
    herbsOf(c).flatMap((h): Finding[] => {
      if (h.monograph === null) return [];
      if (h.dose === null) return [];
      const comparable = h.compared.filter((x) => x.outcome !== 'not comparable');
      if (comparable.length === 0)
        return isUnderFloor(h.monograph, h.formula, c) ? [] : [withoutComparable(h, c)];
      return MEASURES.flatMap((m) => judge(h, m, comparable, c));
    }),
};

function withoutComparable(h: HerbInFormula, c: Case): Finding {
  const open = h.compared.find((x) => x.because?.includes('cannot be bounded'));
  const why =
    h.monograph?.doses === 'none-read'
      ? 'no dose was read'
      : h.compared.length === 0
        ? 'no dose is published for this age, route or use'
        : [...new Set(h.compared.map((x) => x.because))].slice(0, 2).join('; ');
  return finding({
    rule: 'dose',
    herb: h.herb,
    subject: 'none',
    level: c.levels.ofOutcome('no-comparable-dose'),
    say: [`no published dose of ${h.herb} can be compared with this preparation: ${why ?? ''}`],
    source: open?.cited ?? null,
    facts: { herb: h.herb, why },
  });
}

type Outcome =
  | 'above-safety-limit'
  | 'above-every-maximum'
  | 'above-strictest-maximum'
  | 'above-only-usual-dose'
  | 'above-usual-within-another'
  | 'more-often';

function judge(h: HerbInFormula, measure: Measure, comparable: readonly Compared[], c: Case): Finding[] {
  const limits = comparable.flatMap((compared) =>
    compared.against
      .filter((a) => a.measure === measure && a.published.value.high !== null)
      .map((a): Limit => ({ ...a, compared })),
  );
  const above = limits.filter((l) => l.outcome === 'above');
  const outcome = outcomeOf(limits, above, measure, comparable, c);
  if (outcome === null) return [];
  const strictest = (outcome === 'above-safety-limit' ? above.filter(isSafety) : above).reduce(stricter);
  const covering = limits.filter((l) => l.outcome !== 'above');
  const say: Sentence = [
    `${h.herb}:`,
    strictest.dose,
    `${WORDS[measure]}, and ${strictest.compared.cited.body} gives`,
    strictest.published,
    ...(strictest.implied ? ['(single dose x times)'] : []),
    `${strictest.compared.entry.ages ? `for ${writeAgeBand(strictest.compared.entry.ages)}` : 'for adults'}`,
    ...covering.slice(0, 1).flatMap((l): Sentence => [`; ${l.compared.cited.body} gives`, l.published]),
    ...(outcome === 'above-every-maximum' ? ['; every comparable source is exceeded'] : []),
  ];
  return [
    finding({
      rule: 'dose',
      herb: h.herb,
      subject: measure,
      level: c.levels.ofOutcome(outcome),
      say,
      figures: [strictest.dose, ...limits.map((l) => l.published)],
      source: strictest.compared.cited,
      facts: {
        herb: h.herb,
        measure,
        dose: strictest.dose.value,
        limits: limits.map((l) => ({
          range: l.published.value,
          source: l.compared.cited.key,
          use: l.compared.entry.use,
        })),
        outcome,
      },
    }),
  ];
}

const isSafety = (l: Limit): boolean => l.compared.entry.limit === 'safety';

function stricter(a: Limit, b: Limit): Limit {
  const x = a.published.value.high;
  const y = b.published.value.high;
  if (x === null || y === null || x.unit.dimension !== y.unit.dimension) return a;
  return compareQuantities(y, x) < 0 ? b : a;
}

/** The level's outcome for one measure, by the table of levels; null where nothing is exceeded. */
function outcomeOf(
  limits: readonly Limit[],
  above: readonly Limit[],
  measure: Measure,
  comparable: readonly Compared[],
  c: Case,
): Outcome | null {
  if (above.length === 0) return null;
  if (above.some(isSafety)) return 'above-safety-limit';
  if (measure === 'times a day' && above.every((l) => amountsHold(l.compared))) return 'more-often';
  const customary = limits.filter((l) => !isSafety(l));
  const ranges = customary.filter((l) => !l.usual);
  const often = measure === 'times a day' || measure === 'times a week';
  if (!often && ranges.length > 0 && customary.every((l) => byMoreThanError(l, c)))
    return 'above-every-maximum';
  if (ranges.some((l) => l.outcome === 'above')) return 'above-strictest-maximum';
  return ranges.length > 0 && comparable.length > 1 ? 'above-usual-within-another' : 'above-only-usual-dose';
}

/** Taken more often than printed, but each dose and the day's total inside what the same entry gives. */
function amountsHold(x: Compared): boolean {
  const amounts = x.against.filter((a) => a.measure === 'single' || a.measure === 'daily');
  return amounts.some((a) => a.measure === 'daily') && amounts.every((a) => a.outcome !== 'above');
}

function byMoreThanError(l: Limit, c: Case): boolean {
  const { high } = l.published.value;
  if (l.outcome !== 'above' || high === null) return false;
  return compareQuantities(l.dose.value, times(high, one.plus(c.permittedError.value.div(100)))) > 0;
}
