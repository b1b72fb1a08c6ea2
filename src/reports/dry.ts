import { citeIn } from '../folder/cite-in.ts';
import type { GatheringTable } from '../folder/schema/reference.ts';
import type { PartPlan } from '../gathering/plan.ts';
import { type CalendarDate, writeDate } from '../measure/calendar.ts';
import { type Figure, given } from '../measure/figure.ts';
import type { Quantity, Range } from '../measure/quantity.ts';
import { CAUTION } from './caution.ts';
import { type Line, type Sheet, sentence, words } from './sheet.ts';

/** A lot that is drying: what it weighs fresh, when it is done, or what moisture it really had. */
export interface Drying {
  readonly plan: PartPlan;
  readonly fresh: Figure<Quantity>;
  readonly kept: Figure<Quantity>;
  readonly moisture: Figure<Range> | Figure<Quantity> | null;
  readonly done: Figure<Range> | Figure<Quantity> | null;
  readonly lost: Figure<Range> | null;
  /** Weighed already: what the lot came to. */
  readonly weighed: boolean;
  readonly until: { readonly from: CalendarDate; readonly to: CalendarDate } | null;
}

export function drySheet(d: Drying, table: GatheringTable): Sheet {
  const { plan } = d;
  const { monograph: m, general } = plan;
  const facts: { label: string; value: Line }[] = [
    ...(d.done
      ? [{ label: d.weighed ? 'dry' : 'done at', value: sentence`${d.done} (${d.kept} of water left)` }]
      : [
          {
            label: 'done at',
            value: words(
              'not known: no moisture of the fresh herb was read; weigh it daily until two weights agree',
            ),
          },
        ]),
    { label: 'fresh', value: d.fresh },
    ...(d.moisture
      ? [
          {
            label: d.weighed ? 'moisture it had' : 'moisture taken',
            value:
              d.weighed || !plan.estimated
                ? d.moisture
                : sentence`${d.moisture}, an estimate from such parts in general`,
          },
        ]
      : []),
    ...(d.lost ? [{ label: 'water to lose', value: d.lost }] : []),
    ...((m.dry?.temperature ?? general?.temperature)
      ? [{ label: 'temperature', value: words(m.dry?.temperature ?? general?.temperature ?? '') }]
      : []),
    ...(m.dry?.days
      ? [{ label: 'takes', value: given(m.dry.days, 'days of drying', citeIn(m, m.dry)) }]
      : general
        ? [
            {
              label: 'takes',
              value: sentence`${given(general.days, 'days of drying, such parts in general')} in the air`,
            },
          ]
        : []),
    ...(m.dry?.how ? [{ label: 'how', value: words(m.dry.how) }] : []),
    { label: 'done when', value: words(table.done_when.says) },
    ...(d.until
      ? [
          {
            label: 'keeps',
            value: words(
              d.until.from === d.until.to
                ? `until ${writeDate(d.until.to)}`
                : `until ${writeDate(d.until.from)}; at the latest ${writeDate(d.until.to)}`,
            ),
          },
        ]
      : []),
    ...(m.keep?.how ? [{ label: '', value: words(m.keep.how) }] : []),
  ];
  return {
    title: `Drying ${m.names.common[0] ?? m.id}`,
    subtitle: `${m.id}; ${m.part}`,
    blocks: [
      { kind: 'facts', facts },
      {
        kind: 'lines',
        lines: [
          sentence`Above ${given(table.moulds_above.amount, 'moisture at which it may mould', citeIn(table, table.moulds_above))} of water it may mould in store.`,
          ...(d.weighed
            ? [
                words(
                  'To reckon with your own figure, write it into the monograph: dry: {fresh_moisture: ...}.',
                ),
              ]
            : [words('Weigh the lot when it is dry, and add --dried to learn the moisture that it had.')]),
        ],
      },
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: scruple gather ${m.id} --dry with what you want`)] },
    ],
  };
}

export function dryJson(d: Drying): Record<string, unknown> {
  return {
    herb: d.plan.monograph.id,
    fresh: d.fresh,
    moisture: d.moisture,
    estimated: d.plan.estimated && !d.weighed,
    left: d.kept,
    done: d.done,
    water: d.lost,
    keeps_until: d.until ? { from: writeDate(d.until.from), to: writeDate(d.until.to) } : null,
  };
}
