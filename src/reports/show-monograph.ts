import { citeIn } from '../folder/cite-in.ts';
import type { Caution, DoseEntry, Monograph } from '../folder/schema/monograph.ts';
import { writeAgeBand } from '../measure/age.ts';
import { writeDate } from '../measure/calendar.ts';
import { type Figure, given } from '../measure/figure.ts';
import { quantity } from '../measure/quantity.ts';
import { CAUTION } from './caution.ts';
import { cite, citeShort } from './cite.ts';
import { barBlocks, glanceFacts } from './glance.ts';
import { type Block, type Line, type Sheet, sentenceOf, words } from './sheet.ts';

/** One herb for reading: names, published doses, what to beware of, and where it all comes from. */
export function monographSheet(m: Monograph): Sheet {
  return {
    title: m.names.common[0] ?? m.id,
    subtitle: `${m.names.latin}; ${m.part}; ${m.family}`,
    blocks: [
      {
        kind: 'facts',
        facts: [
          { label: 'id', value: words(m.id) },
          { label: 'also', value: words(m.names.common.slice(1).join(', ') || 'no other name') },
          ...(m.actions ? [{ label: 'actions', value: words(m.actions.join(', ')) }] : []),
          {
            label: 'signed off',
            value: words(
              m.checked ? `${m.checked.by} on ${writeDate(m.checked.on)}` : 'not yet by the practitioner',
            ),
          },
        ],
      },
      {
        kind: 'section',
        title: 'At a glance',
        blocks: [{ kind: 'facts', facts: glanceFacts(m) }, ...barBlocks(m)],
      },
      doseBlock(m),
      ...cautionBlocks(m),
      {
        kind: 'section',
        title: 'Sources',
        blocks: [
          {
            kind: 'list',
            items: Object.entries(m.sources).map(([key, s]) =>
              words(
                cite({ key, body: s.body, title: s.title, ref: s.ref, year: s.year, reading: s.reading }),
              ),
            ),
          },
        ],
      },
      { kind: 'caution', text: CAUTION },
    ],
  };
}

function doseBlock(m: Monograph): Block {
  if (m.doses === 'none-read')
    return {
      kind: 'section',
      title: 'Doses',
      blocks: [{ kind: 'lines', lines: [words('No dose was read.')] }],
    };
  return {
    kind: 'section',
    title: 'Doses',
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'preparation' }, { head: 'for' }, { head: 'dose' }, { head: 'source' }],
        rows: m.doses.map((e): Line[] => [
          words(preparation(e)),
          words(forWhom(e)),
          dose(m, e),
          words(citeShort(citeIn(m, e))),
        ]),
      },
    ],
  };
}

function preparation(e: DoseEntry): string {
  const p = e.preparation;
  return [
    p.kind.join(', '),
    ...(p.solvent ? [p.solvent] : []),
    ...(e.route === 'oral' ? [] : [e.route]),
  ].join('; ');
}

function forWhom(e: DoseEntry): string {
  return [e.use?.join(', ') ?? '', e.ages ? writeAgeBand(e.ages) : 'adults']
    .filter((t) => t !== '')
    .join('; ');
}

function dose(m: Monograph, e: DoseEntry): Line {
  const cited = citeIn(m, e);
  const of =
    e.of === undefined || e.of === 'herb' ? [] : [`of ${e.of === 'preparation' ? 'the preparation' : e.of}`];
  const parts: (string | Figure)[] = [
    ...(e.single ? [given(e.single, 'single dose', cited), ...(e.times ? [] : ['at once'])] : []),
    ...(e.times
      ? [
          given(
            {
              low: e.times.low && quantity(e.times.low, '1'),
              high: e.times.high && quantity(e.times.high, '1'),
            },
            'times a day',
            cited,
          ),
          'a day',
        ]
      : []),
    ...(e.daily ? [...(e.single ? [';'] : []), given(e.daily, 'daily dose', cited), 'a day'] : []),
    ...(e.weekly ? [given(e.weekly, 'weekly dose', cited), 'a week'] : []),
    ...(e.times_a_week
      ? [
          'on',
          given(
            {
              low: e.times_a_week.low && quantity(e.times_a_week.low, 'd'),
              high: e.times_a_week.high && quantity(e.times_a_week.high, 'd'),
            },
            'days a week',
            cited,
          ),
          'a week',
        ]
      : []),
    ...(e.concentration ? [given(e.concentration, 'concentration', cited)] : []),
    ...of,
    ...(e.stop_after ? ['; stop after', given(e.stop_after, 'stop after', cited)] : []),
    ...(e.refer_after ? ['; see a doctor after', given(e.refer_after, 'see a doctor after', cited)] : []),
    ...(e.limit === 'safety' ? ['; not to be exceeded'] : []),
  ];
  return sentenceOf(parts);
}

function cautionBlocks(m: Monograph): Block[] {
  const rows: Line[][] = [
    ...(m.ages ?? []).map((a) => [
      words('age'),
      words(
        `not under ${a.not_under.text}${a.preparation ? ` (${a.preparation.join(', ')})` : ''}: ${a.because.replace(/-/g, ' ')}`,
      ),
      words(citeShort(citeIn(m, a))),
    ]),
    ...(['pregnancy', 'breastfeeding'] as const).flatMap((k) =>
      (m[k] ?? []).map((s) => [
        words(k),
        words(
          `${s.says.replace(/-/g, ' ')}${s.preparation ? ` (${s.preparation.join(', ')})` : ''}${s.note ? `: ${s.note}` : ''}`,
        ),
        words(citeShort(citeIn(m, s))),
      ]),
    ),
    ...(m.cautions ?? []).map((c) => [
      words(subject(c)),
      words(`${c.says.replace(/-/g, ' ')}: ${c.why}`),
      words(citeShort(citeIn(m, c))),
    ]),
  ];
  const interactions = typeof m.interactions === 'string' ? m.interactions : m.interactions.says;
  return [
    {
      kind: 'section',
      title: 'Beware',
      blocks: [
        ...(rows.length > 0
          ? [
              {
                kind: 'table',
                columns: [{ head: 'when' }, { head: 'what is said' }, { head: 'source' }],
                rows,
              } as const,
            ]
          : []),
        {
          kind: 'lines',
          lines: [
            words(`Interactions: ${INTERACTIONS[interactions]}.`),
            ...(m.pregnancy ? [] : [words('Nothing was read about pregnancy.')]),
            ...(m.breastfeeding ? [] : [words('Nothing was read about breastfeeding.')]),
          ],
        },
      ],
    },
  ];
}

const INTERACTIONS = {
  'not-read': 'not read, which does not mean that there are none',
  'none-known': 'none known to the source',
  'no-data': 'the source has no data',
  listed: 'as listed above',
} as const;

function subject(c: Caution): string {
  const w = c.when;
  const named = [
    ...(w.medicine ?? []),
    ...(w.condition ?? []),
    ...(w.allergy ?? []),
    ...(w.taking ?? []),
  ].map((t) => t.replace(/_/g, ' '));
  const kind = Object.keys(w)
    .filter((k) => w[k as keyof typeof w] !== undefined)
    .map((k) => k.replace(/_/g, ' '));
  return kind.length === 0
    ? 'always'
    : named.length > 0
      ? `${kind.join(' and ')}: ${named.join(', ')}`
      : kind.join(' and ');
}

export function monographJson(m: Monograph): Record<string, unknown> {
  const { checked, ages, gather, ...rest } = m;
  return {
    ...rest,
    checked: checked && { by: checked.by, on: writeDate(checked.on) },
    ages: (ages ?? []).map((a) => ({ ...a, not_under: a.not_under.text })),
    doses:
      m.doses === 'none-read'
        ? m.doses
        : m.doses.map((e) => ({ ...e, ages: e.ages ? writeAgeBand(e.ages) : null })),
    cautions: (m.cautions ?? []).map((c) => ({
      ...c,
      when: { ...c.when, ...(c.when.age ? { age: writeAgeBand(c.when.age) } : {}) },
    })),
    ...(gather
      ? {
          gather: {
            ...gather,
            months: (gather.months ?? []).map(String),
            seasons: (gather.seasons ?? []).map((x) => ({ ...x, months: x.months.map(String) })),
          },
        }
      : {}),
  };
}
