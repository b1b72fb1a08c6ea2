import { markerOf } from '../../dosing/applies.ts';
import type { Against, Compared, Measure } from '../../dosing/compare.ts';
import { isAmount, publishedRanges } from '../../dosing/published.ts';
import { writeAgeBand } from '../../measure/age.ts';
import { one } from '../../measure/exact.ts';
import { type Figure, worked } from '../../measure/figure.ts';
import {
  comparable,
  compareQuantities,
  inUnit,
  type Quantity,
  rangeUnit,
  times,
} from '../../measure/quantity.ts';
import { type Case, herbsOf, type Rule } from '../case.ts';
import { type Finding, finding, type Sentence } from '../finding.ts';
import { overTheRegimen } from '../over-the-regimen.ts';
import { isUnderFloor } from './age-floor.ts';

const MEASURES: readonly Measure[] = [
  'single',
  'daily',
  'weekly',
  'concentration',
  'times a day',
  'times a week',
];
const WORDS: Readonly<Record<Measure, string>> = {
  single: 'in one dose',
  daily: 'a day',
  weekly: 'a week',
  concentration: 'in the finished preparation',
  'times a day': 'a day',
  'times a week': 'a week',
};

interface Limit extends Against {
  readonly compared: Compared;
}

type HerbInHand = ReturnType<typeof herbsOf>[number];

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
      const told = h.compared.filter((x) => x.outcome !== 'not comparable');
      if (told.length === 0) return isUnderFloor(h.monograph, h.formula, c) ? [] : [withoutComparable(h, c)];
      return [
        ...MEASURES.flatMap((m) => judge(h, m, told, c)),
        ...judge(h, 'daily', overTheRegimen(h, told, c), c, 'over everything taken'),
        ...unbounded(h, c),
      ];
    }),
};

function withoutComparable(h: HerbInHand, c: Case): Finding {
  const why =
    h.monograph?.doses === 'none-read'
      ? 'no dose was read'
      : h.compared.length === 0
        ? 'no dose is published for this age, route or use'
        : [...new Set(h.compared.map((x) => `${x.cited.body}: ${x.because}`))].sort().slice(0, 2).join('; ');
  return finding({
    rule: 'dose',
    herb: h.herb,
    subject: `${h.formula.formula} none`,
    ...c.levels.judged('no-comparable-dose'),
    say: [`no published dose of ${h.herb} can be compared with this preparation: ${why}`],
    source: h.compared.find(isOpen)?.cited ?? null,
    facts: { herb: h.herb, why },
  });
}

/** It counts a constituent, and the herb's content does not bound what a dose holds of it. */
function isOpen(x: Compared): boolean {
  const marker = markerOf(x.entry);
  return marker !== null && (x.because?.startsWith(`it counts ${marker}, `) ?? false);
}

/** One finding a constituent: which figures stand that the dose cannot be held against. */
function unbounded(h: HerbInHand, c: Case): Finding[] {
  const open = h.compared.filter(isOpen);
  const markers = new Set(open.map((x) => markerOf(x.entry) as string));
  return [...markers].map((marker) => {
    const entries = open.filter((x) => markerOf(x.entry) === marker).sort(bySource);
    const [first] = entries as [Compared, ...Compared[]];
    const figures = entries.flatMap((x) =>
      publishedRanges(x.entry, x.cited).filter((p) => isAmount(p.measure)),
    );
    return finding({
      rule: 'dose',
      herb: h.herb,
      subject: `${h.formula.formula} ${marker}`,
      ...c.levels.judged('intake-unbounded'),
      say: [
        `how much ${marker} a dose of ${h.herb} holds cannot be told closely enough for ${first.cited.body}`,
        ...figures.slice(0, 1).flatMap((p): Sentence => ['(', p.range, `${WORDS[p.measure]})`]),
        `; ${first.because?.slice(`it counts ${marker}, and `.length)}`,
      ],
      figures: figures.map((p) => p.range),
      source: first.cited,
      facts: {
        herb: h.herb,
        marker,
        limits: figures.map((p) => ({ measure: p.measure, range: p.range.value })),
        sources: entries.map((x) => x.cited.key),
      },
    });
  });
}

type Outcome =
  | 'above-safety-limit'
  | 'above-every-maximum'
  | 'above-strictest-maximum'
  | 'above-only-usual-dose'
  | 'above-usual-within-another'
  | 'more-often';

function judge(h: HerbInHand, measure: Measure, told: readonly Compared[], c: Case, over = ''): Finding[] {
  if (!told.some((x) => x.against.some((a) => a.measure === measure && a.outcome === 'above'))) return [];
  const limits = told
    .flatMap((compared) =>
      compared.against
        .filter((a) => a.measure === measure && a.published.value.high !== null)
        .map((a): Limit => ({ ...a, compared })),
    )
    .sort(byLimit);
  const above = limits.filter((l) => l.outcome === 'above');
  const outcome = outcomeOf(limits, above, measure, c);
  if (outcome === null) return [];
  const [strictest] = (outcome === 'above-safety-limit' ? above.filter(isSafety) : above) as [
    Limit,
    ...Limit[],
  ];
  const covering = limits.filter((l) => l.outcome !== 'above' && !isSafety(l));
  const { entry, cited } = strictest.compared;
  const say: Sentence = [
    `${h.herb}:`,
    asPrinted(strictest),
    `${ofWhat(entry)}${WORDS[measure]}${over === '' ? '' : `, ${over}`}, and ${cited.body} gives`,
    strictest.published,
    ...(strictest.implied ? ['(single dose x times)'] : []),
    ...(isSafety(strictest) ? ['as a limit not to be exceeded'] : []),
    entry.ages ? `for ${writeAgeBand(entry.ages)}` : 'for adults',
    ...covering.slice(0, 1).flatMap((l): Sentence => [`; ${l.compared.cited.body} gives`, l.published]),
    ...(outcome === 'above-every-maximum' ? ['; every comparable source is exceeded'] : []),
  ];
  return [
    finding({
      rule: 'dose',
      herb: h.herb,
      subject: over === '' ? `${h.formula.formula} ${measure}` : `${over} ${measure}`,
      ...c.levels.judged(outcome),
      say,
      figures: [strictest.dose, ...limits.map((l) => l.published)],
      source: cited,
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

/** The dose in the unit that the source prints, so that the two are read side by side. */
function asPrinted({ dose: taken, published }: Limit): Figure<Quantity> {
  const unit = rangeUnit(published.value);
  return unit === taken.value.unit
    ? taken
    : worked(inUnit(taken.value, unit), taken.step.says, '{}', [taken]);
}

const ofWhat = (entry: Compared['entry']): string => {
  const marker = markerOf(entry);
  return marker === null ? '' : `of ${marker} at the least `;
};

const isSafety = (l: Limit): boolean => l.compared.entry.limit === 'safety';

const bySource = (a: Compared, b: Compared): number =>
  a.cited.key < b.cited.key ? -1 : a.cited.key > b.cited.key ? 1 : 0;

/** The strictest first, what counts the herb before what counts a constituent, equal limits by their source. */
function byLimit(a: Limit, b: Limit): number {
  const marked = (l: Limit): number => (markerOf(l.compared.entry) === null ? 0 : 1);
  const [x, y] = [a.published.value.high, b.published.value.high];
  const apart = x && y && comparable(x.unit, y.unit) ? compareQuantities(x, y) : 0;
  return marked(a) - marked(b) || apart || bySource(a.compared, b.compared);
}

/** The level's outcome for one measure, by the table of levels; null where nothing is exceeded. */
function outcomeOf(
  limits: readonly Limit[],
  above: readonly Limit[],
  measure: Measure,
  c: Case,
): Outcome | null {
  if (above.length === 0) return null;
  if (above.some(isSafety)) return 'above-safety-limit';
  if (measure === 'times a day' && above.every((l) => amountsHold(l.compared))) return 'more-often';
  const customary = limits.filter((l) => !isSafety(l));
  const ranges = customary.filter((l) => !l.usual);
  if (isAmount(measure) && ranges.length > 0 && customary.every((l) => byMoreThanError(l, c)))
    return 'above-every-maximum';
  if (ranges.some((l) => l.outcome === 'above')) return 'above-strictest-maximum';
  // Only usual doses are exceeded: another source's figure may still cover the dose.
  return customary.some((l) => l.outcome !== 'above')
    ? 'above-usual-within-another'
    : 'above-only-usual-dose';
}

/** Taken more often than printed, but each dose and the day's total inside what the same entry gives. */
function amountsHold(x: Compared): boolean {
  const amounts = x.against.filter((a) => a.measure === 'single' || a.measure === 'daily');
  return amounts.some((a) => a.measure === 'daily') && amounts.every((a) => a.outcome !== 'above');
}

/** Beyond what an error of weighing may explain; where even the least that a herb holds is too much, weighing does not. */
function byMoreThanError(l: Limit, c: Case): boolean {
  const { high } = l.published.value;
  if (l.outcome !== 'above' || high === null) return false;
  if (markerOf(l.compared.entry) !== null) return true;
  return compareQuantities(l.dose.value, times(high, one.plus(c.permittedError.value.div(100)))) > 0;
}
