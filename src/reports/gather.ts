import { citeIn } from '../folder/cite-in.ts';
import type { GatheringTable } from '../folder/schema/reference.ts';
import { monthBar, monthName } from '../gathering/months.ts';
import type { GatherLine } from '../gathering/plan.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { plus, type Quantity, type Range } from '../measure/quantity.ts';
import { CAUTION } from './caution.ts';
import { citeShort } from './cite.ts';
import { type Block, type Item, type Line, type Sheet, sentence, words } from './sheet.ts';

/** What is to be gathered: for a formula or a herb, the month that is looked at, what is drawn out already. */
export interface Gathered {
  readonly title: string;
  readonly lines: readonly GatherLine[];
  readonly month: number | null;
  readonly notGathered: readonly string[];
  readonly jurisdiction: string | null;
  readonly next: string;
}

/** The gathering sheet: what must not be mistaken first, then the weights, then herb by herb when and how. */
export function gatherSheet(g: Gathered, table: GatheringTable): Sheet {
  return {
    title: g.title,
    blocks: [
      ...doublesBlock(g),
      weightsTable(g),
      ...(g.lines.some((l) => l.plan.estimated && l.fresh && l.dry)
        ? [
            {
              kind: 'lines',
              lines: [
                words(
                  '* reckoned from the yields of such parts in general: weigh a lot of your own, fresh and dry.',
                ),
              ],
            } as const,
          ]
        : []),
      ...(g.notGathered.length > 0
        ? [{ kind: 'lines', lines: [words(`Not gathered here: ${g.notGathered.join(', ')}.`)] } as const]
        : []),
      ...g.lines.map((l) => herbBlock(l)),
      lawBlock(g, table),
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: ${g.next}`)] },
    ],
  };
}

/** Dangerous doubles come before any weight; each mark of the plant is told with its source. */
function doublesBlock({ lines }: Gathered): Block[] {
  const items = lines.flatMap(({ plan: { monograph: m } }): Item[] =>
    (m.gather?.mistaken_for ?? [])
      .filter((d) => d.danger !== undefined)
      .map((d) =>
        words(`${m.id} is mistaken for ${d.name}, ${d.danger}. ${d.tell} (${citeShort(citeIn(m, d))})`),
      ),
  );
  return items.length === 0
    ? []
    : [{ kind: 'section', title: 'First be sure of the plant', blocks: [{ kind: 'list', items }] }];
}

function weightsTable({ lines, month }: Gathered): Block {
  const sum = totalFresh(lines);
  return {
    kind: 'table',
    columns: [
      { head: 'herb' },
      { head: 'dry', align: 'right' },
      { head: 'fresh', align: 'right' },
      { head: 'months' },
      ...(month === null ? [] : [{ head: monthName(month) }]),
    ],
    rows: lines.map(({ plan, dry, fresh }): Line[] => [
      words(plan.monograph.id),
      dry ?? words('as fresh'),
      fresh ? [fresh, ...(plan.estimated && dry ? [words('*')] : [])] : words('not known'),
      words(plan.months ? monthBar(plan.months) : 'not read'),
      ...(month === null
        ? []
        : [words(plan.months === null ? 'not read' : plan.months.has(month) ? 'yes' : 'no')]),
    ]),
    ...(sum && lines.length > 1
      ? { total: [words('in all'), words(''), sum, words(''), ...(month === null ? [] : [words('')])] }
      : {}),
  };
}

/** The fresh weight of all herbs together; null where that of one is not known. */
export function totalFresh(lines: readonly GatherLine[]): Figure<Range> | null {
  const all = lines.flatMap((l) => l.fresh ?? []);
  if (all.length === 0 || all.length < lines.length) return null;
  const end = (which: 'low' | 'high'): Quantity => all.map((f) => f.value[which] as Quantity).reduce(plus);
  return worked(
    { low: end('low'), high: end('high') },
    'fresh herb in all',
    all.map(() => '{}').join(' + '),
    all,
  );
}

function herbBlock({ plan }: GatherLine): Block {
  const { monograph: m, general } = plan;
  const { gather, dry, keep } = m;
  const facts: { label: string; value: Line }[] = [
    ...(gather?.how ? [{ label: 'gather', value: words(gather.how) }] : []),
    ...(general ? [{ label: 'when', value: words(general.when) }] : []),
    ...(gather?.seasons ?? []).map((s, i) => ({
      label: i === 0 ? 'seasons' : '',
      value: words(
        `${monthBar(new Set(s.months))}${s.note ? ` ${s.note}` : ''} (${citeShort(citeIn(m, s))})`,
      ),
    })),
    ...(gather?.leave ? [{ label: 'leave', value: words(gather.leave) }] : []),
    ...(gather?.status ? [{ label: 'protected', value: words(gather.status) }] : []),
    ...plan.rules.map((r, i) => ({ label: i === 0 ? 'spare it' : '', value: words(r) })),
    ...((dry?.temperature ?? general?.temperature)
      ? [{ label: 'dry at', value: words(dry?.temperature ?? general?.temperature ?? '') }]
      : []),
    ...(keep?.for
      ? [{ label: 'keeps', value: given(keep.for, 'keeps for', citeIn(m, keep)) }]
      : general
        ? [{ label: 'keeps', value: given(general.keep, 'keeps for, such parts in general') }]
        : []),
    ...(keep?.how ? [{ label: '', value: words(keep.how) }] : []),
  ];
  const lesser = (gather?.mistaken_for ?? []).filter((d) => d.danger === undefined);
  return {
    kind: 'section',
    title: `${m.id} (${m.names.latin})`,
    blocks: [
      { kind: 'facts', facts },
      ...(lesser.length > 0
        ? [{ kind: 'list', items: lesser.map((d) => words(`not ${d.name}: ${d.tell}`)) } as const]
        : []),
    ],
  };
}

function lawBlock({ jurisdiction }: Gathered, table: GatheringTable): Block {
  const here = table.law.filter(
    (l) => l.jurisdiction === 'any' || jurisdiction === null || l.jurisdiction === jurisdiction,
  );
  return {
    kind: 'section',
    title: 'Leave and law',
    blocks: [
      {
        kind: 'list',
        items: [
          sentence`${table.take.says} (at the most ${given(table.take.share, 'share of a stand', citeIn(table, table.take))}; ${citeShort(citeIn(table, table.take))})`,
          ...here.map((l) =>
            words(
              `${l.jurisdiction === 'any' ? '' : `${l.jurisdiction}: `}${l.says} (${citeShort(citeIn(table, l))})`,
            ),
          ),
        ],
      },
    ],
  };
}

/** Keys that scripts rely on: lines[].{herb, dry, fresh, months}. */
export function gatherJson(g: Gathered): Record<string, unknown> {
  return {
    lines: g.lines.map(({ plan, dry, fresh }) => ({
      herb: plan.monograph.id,
      dry,
      fresh,
      estimated: plan.estimated,
      months: plan.months ? [...plan.months].sort((a, b) => a - b).map(String) : null,
      ...(g.month === null ? {} : { in_season: plan.months ? plan.months.has(g.month) : null }),
      mistaken_for: (plan.monograph.gather?.mistaken_for ?? []).map((d) => ({
        name: d.name,
        danger: d.danger ?? null,
        tell: d.tell,
      })),
    })),
    fresh: totalFresh(g.lines),
    not_gathered: g.notGathered,
  };
}
