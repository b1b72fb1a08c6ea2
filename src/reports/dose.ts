import type { Case, HerbInFormula } from '../checking/case.ts';
import type { Against, Compared } from '../dosing/compare.ts';
import { writeAgeBand } from '../measure/age.ts';
import { CAUTION } from './caution.ts';
import { cite, citeShort } from './cite.ts';
import { GAUGE_KEY, gaugesOf } from './gauge.ts';
import { personLine } from './person-line.ts';
import { type Block, type Line, type Sheet, sentence, words } from './sheet.ts';
import { takenLine } from './weigh.ts';

/** The dose sheet of one formula for one person: what is taken of each herb, then each herb beside what is published. */
export function doseSheet(c: Case): Sheet {
  const [f] = c.formulas;
  if (f === undefined) throw new Error('a dose sheet without a formula');
  const { batch, herbs, formula } = f;
  const below = herbs.filter(
    (h) =>
      h.compared.some((x) => x.outcome === 'below') &&
      !h.compared.some((x) => x.outcome === 'within' || x.outcome === 'above'),
  );
  return {
    title: `${formula.title}: doses`,
    subtitle: `${formula.formula}, ${formula.preparation.kind}`,
    blocks: [
      { kind: 'lines', lines: [personLine(c)] },
      {
        kind: 'facts',
        facts: [
          { label: 'taken', value: takenLine(batch) },
          ...(batch.supply
            ? [
                {
                  label: 'lasts',
                  value: sentence`${batch.supply.days} from ${batch.total}, with ${batch.supply.over} over`,
                },
              ]
            : []),
        ],
      },
      {
        kind: 'table',
        columns: [{ head: 'herb' }, { head: 'in a dose' }, { head: 'a day' }, { head: 'a week' }],
        rows: herbs.map((h) => [
          words(h.herb),
          ...(h.dose ? [h.dose.single, h.dose.daily, h.dose.weekly] : [words(''), words(''), words('')]),
        ]),
      },
      ...herbs.flatMap((h) => herbBlocks(h)),
      {
        kind: 'lines',
        lines: [
          words(GAUGE_KEY),
          ...(below.length > 0
            ? [words(`Below every published range: ${below.map((h) => h.herb).join(', ')}.`)]
            : []),
        ],
      },
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: scruple check ${formula.formula}`)] },
    ],
  };
}

function herbBlocks(h: HerbInFormula): Block[] {
  if (h.monograph === null)
    return [
      {
        kind: 'section',
        title: h.herb,
        blocks: [
          { kind: 'lines', lines: [words('There is no monograph of this herb: nothing to compare with.')] },
        ],
      },
    ];
  const told = h.compared.filter((x) => x.outcome !== 'not comparable');
  const silent = h.compared.filter((x) => x.outcome === 'not comparable');
  const lines = silentLines(silent);
  const blocks: Block[] = [];
  if (told.length > 0) blocks.push(table(told));
  if (told.length === 0)
    blocks.push({
      kind: 'lines',
      lines: [
        words(
          h.monograph.doses === 'none-read'
            ? 'No dose of this herb was read.'
            : 'No published dose can be compared with this one.',
        ),
      ],
    });
  if (lines.length > 0) blocks.push({ kind: 'list', items: lines });
  blocks.push({
    kind: 'lines',
    lines: [
      words(`Sources: ${[...new Set(told.map((x) => cite(x.cited)))].join('; ') || 'none that applies'}`),
    ],
  });
  return [{ kind: 'section', title: h.herb, blocks }];
}

/** Which figures to show a row for: single and daily, and any other that is exceeded. */
function rowsFor(x: Compared): readonly Against[] {
  const main = x.against.filter(
    (a) => a.measure === 'single' || a.measure === 'daily' || a.outcome === 'above',
  );
  return main.length > 0 ? main : x.against;
}

function table(told: readonly Compared[]): Block {
  const rows = told.flatMap((x) => rowsFor(x).map((a) => ({ x, a })));
  const gauges = new Map(
    (['single', 'daily', 'weekly', 'times a day', 'times a week'] as const).flatMap((m) => {
      const these = rows.filter(
        (r) =>
          r.a.measure === m && r.a.dose.value.unit.dimension === r.a.published.value.high?.unit.dimension,
      );
      const first = these[0];
      return first
        ? gaugesOf(
            first.a.dose,
            these.map((r) => r.a.published),
          ).map((g, i) => [these[i]?.a as Against, g] as const)
        : [];
    }),
  );
  return {
    kind: 'table',
    columns: [
      { head: 'source' },
      { head: 'for' },
      { head: 'published' },
      { head: 'gauge' },
      { head: 'this is' },
    ],
    rows: rows.map(({ x, a }): Line[] => [
      words(citeShort(x.cited)),
      words(forWhom(x)),
      publishedLine(a),
      gauges.get(a) ?? words(''),
      words(a.outcome),
    ]),
  };
}

const MEASURE = {
  single: 'at once',
  daily: 'a day',
  weekly: 'a week',
  'times a day': 'a day',
  'times a week': 'a week',
} as const;

function publishedLine(a: Against): Line {
  return [
    a.published,
    words(`${MEASURE[a.measure]}${a.implied ? ' (single x times)' : a.usual ? ' (usual)' : ''}`),
  ];
}

function forWhom(x: Compared): string {
  return [
    x.entry.use?.join(', ') ?? 'any use',
    x.entry.ages ? writeAgeBand(x.entry.ages) : 'adults',
    ...(x.entry.limit === 'safety' ? ['safety limit'] : []),
  ].join('; ');
}

function silentLines(silent: readonly Compared[]): Line[] {
  const byReason = new Map<string, Set<string>>();
  for (const x of silent) {
    const why = x.because ?? '';
    byReason.set(why, (byReason.get(why) ?? new Set()).add(x.cited.body));
  }
  return [...byReason].map(([why, bodies]) => words(`Not comparable (${[...bodies].join(', ')}): ${why}.`));
}

/** Keys that scripts rely on: lines[].{herb, single, daily, compared[]}, supply. */
export function doseJson(c: Case): Record<string, unknown> {
  const [f] = c.formulas;
  if (f === undefined) throw new Error('a dose without a formula');
  return {
    formula: f.formula.formula,
    patient: c.person?.code ?? null,
    lines: f.herbs.map((h) => ({
      herb: h.herb,
      single: h.dose?.single ?? null,
      daily: h.dose?.daily ?? null,
      weekly: h.dose?.weekly ?? null,
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
    ...(f.batch.supply
      ? {
          supply: {
            days: f.batch.supply.days,
            over: f.batch.supply.over,
            doses: f.batch.supply.doses,
            per_day: f.batch.supply.perDay,
          },
        }
      : {}),
  };
}
