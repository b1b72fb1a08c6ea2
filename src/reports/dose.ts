import type { Case, FormulaInCase } from '../checking/case.ts';
import { type Clock, timesStated } from '../checking/clocks.ts';
import type { Making } from '../compounding/making.ts';
import { writeAgeBand } from '../measure/age.ts';
import { compareQuantities } from '../measure/quantity.ts';
import { CAUTION } from './caution.ts';
import { hasImplied, herbSection, IMPLIED_KEY, standing } from './dose-table.ts';
import { GAUGE_KEY } from './gauge.ts';
import { personLine } from './person-line.ts';
import { courseFacts, ethanolFacts, keepingFacts } from './product.ts';
import { type Block, exactly, type Line, type Sheet, sentence, words } from './sheet.ts';
import { takenLabel, takenLine } from './taken.ts';
import { lastsLine } from './weigh.ts';

/** The dose sheet of one formula for one person: what is taken of each herb, then each herb beside what is published. */
export function doseSheet(c: Case, next: string, more: readonly Block[] = []): Sheet {
  const f = theFormula(c);
  const { herbs, formula } = f;
  return {
    title: `${formula.title}: doses`,
    subtitle: `${formula.formula}, ${formula.preparation.kind}`,
    blocks: [
      { kind: 'lines', lines: [personLine(c)] },
      { kind: 'facts', facts: doseFacts(f) },
      {
        kind: 'table',
        columns: [
          { head: 'herb' },
          { head: 'in a dose' },
          { head: 'a day' },
          { head: 'a week' },
          { head: 'published doses' },
        ],
        rows: herbs.map((h) => [
          words(h.herb),
          ...(h.dose?.amounts
            ? [h.dose.amounts.single, h.dose.amounts.daily, h.dose.amounts.weekly]
            : [words(''), words(''), words('')]),
          words(standing(h)),
        ]),
      },
      ...driedBlock(f),
      ...clockBlocks(f),
      ...herbs.map(herbSection),
      ...more,
      ...keys(f),
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: ${next}`)] },
    ],
  };
}

/** Fresh herb as the dried herb that it comes to, at the most: what doses of dried herb are set beside. */
function driedBlock({ herbs }: FormulaInCase): Block[] {
  const facts = herbs.flatMap((h) =>
    h.dose?.dried
      ? [
          {
            label: `${h.herb}, as dried`,
            value: sentence`${h.dose.dried.single} in a dose, ${h.dose.dried.daily} a day`,
          },
        ]
      : [],
  );
  return facts.length > 0 ? [{ kind: 'facts', facts }] : [];
}

/** What an index says of the sheet: for whom, how much, for how long. */
export function doseListed(c: Case): { readonly head: string; readonly value: Line }[] {
  const { batch } = theFormula(c);
  return [
    { head: 'person', value: words(c.person?.code ?? 'nobody in particular') },
    { head: takenLabel(batch), value: takenLine(batch) },
    { head: 'lasts', value: batch.supply ? lastsLine(batch) : words('') },
  ];
}

/** The two clocks: the earliest time at which a source of any of the herbs sends to a doctor, and at which one stops. */
function clockBlocks(f: FormulaInCase): Block[] {
  const earliest = (clock: Clock): Line[] => {
    const stated = f.herbs.flatMap((h) =>
      timesStated({ ...h, formula: f.formula }, clock)
        .slice(0, 1)
        .map((s) => ({ herb: h.herb, limit: s.limit })),
    );
    const [first] = stated.sort((a, b) => compareQuantities(a.limit.value, b.limit.value));
    return first ? [sentence`after ${first.limit} (${first.herb})`] : [];
  };
  const facts = [
    ...earliest('refer_after').map((value) => ({ label: 'see a doctor if no better', value })),
    ...earliest('stop_after').map((value) => ({ label: 'stop', value })),
  ];
  return facts.length > 0 ? [{ kind: 'facts', facts }] : [];
}

function theFormula(c: Case): FormulaInCase {
  const [f] = c.formulas;
  if (f === undefined) throw new Error('a dose without a formula');
  return f;
}

function doseFacts({ batch }: FormulaInCase): { label: string; value: Line }[] {
  const { making, taking, supply } = batch;
  return [
    { label: takenLabel(batch), value: takenLine(batch) },
    ...(taking && making.kind === 'pot'
      ? [
          { label: 'in a dose', value: sentence`${taking.herb} of herb` },
          { label: 'one pot', value: potLine(making.pot) },
        ]
      : []),
    ...(making.kind === 'product' && making.strength ? [{ label: 'strength', value: making.strength }] : []),
    ...(supply ? [{ label: 'lasts', value: lastsLine(batch) }] : []),
    ...courseFacts(batch),
    ...ethanolFacts(batch),
    ...keepingFacts(batch),
  ];
}

/** Every dose of a tea hangs on what strains off, so a strained volume that was only reckoned is called an estimate. */
function potLine({ herb, water, strained, estimated }: Extract<Making, { kind: 'pot' }>['pot']): Line {
  return estimated
    ? sentence`${exactly(herb)} in ${water}, strains to about ${strained} (an estimate: measure it once)`
    : sentence`${exactly(herb)} in ${water}, strained ${strained}`;
}

/** What the marks of the tables mean; without a table there is nothing to explain. */
function keys({ herbs }: FormulaInCase): Block[] {
  const drawn = herbs.some((h) => h.compared.some((x) => x.outcome !== 'not comparable'));
  if (!drawn) return [];
  return [
    {
      kind: 'lines',
      lines: [words(GAUGE_KEY), ...(hasImplied(herbs) ? [words(IMPLIED_KEY)] : [])],
    },
  ];
}

/** Keys that scripts rely on: lines[].{herb, single, daily, compared[]}, supply. */
export function doseJson(c: Case): Record<string, unknown> {
  const f = theFormula(c);
  return {
    formula: f.formula.formula,
    patient: c.person?.code ?? null,
    lines: f.herbs.map((h) => ({
      herb: h.herb,
      single: h.dose?.amounts?.single ?? null,
      ...(h.dose?.dried ? { dried: { single: h.dose.dried.single, daily: h.dose.dried.daily } } : {}),
      daily: h.dose?.amounts?.daily ?? null,
      weekly: h.dose?.amounts?.weekly ?? null,
      compared: h.compared.map((x) => ({
        source: x.cited.key,
        body: x.cited.body,
        reading: x.cited.reading,
        use: x.entry.use ?? null,
        preparation: x.entry.preparation.kind,
        ages: x.entry.ages ? writeAgeBand(x.entry.ages) : null,
        limit: x.entry.limit ?? 'customary',
        outcome: x.outcome,
        because: x.because,
        against: x.against.map((a) => ({
          measure: a.measure,
          dose: a.dose,
          published: a.published,
          outcome: a.outcome,
          usual: a.usual,
          implied: a.implied,
        })),
      })),
    })),
    ...(f.batch.ethanol
      ? {
          ethanol: {
            per_dose: f.batch.ethanol.perDose,
            per_day: f.batch.ethanol.perDay,
            uk_units_a_day: f.batch.ethanol.ukUnitsADay,
          },
        }
      : {}),
    ...(f.batch.supply
      ? {
          supply: {
            days: f.batch.supply.days,
            over: f.batch.supply.over,
            doses: f.batch.supply.doses,
            per_day: f.batch.supply.perDay,
            ...(f.batch.supply.course
              ? { course: f.batch.supply.course.needs, bottle: f.batch.supply.course.bottle }
              : {}),
          },
        }
      : {}),
  };
}
