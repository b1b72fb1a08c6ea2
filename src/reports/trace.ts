import type { Kept } from '../folder/schema/record.ts';
import { writeDate } from '../measure/calendar.ts';
import { exact } from '../measure/exact.ts';
import { given } from '../measure/figure.ts';
import { write } from '../measure/write.ts';
import type { Changed } from '../recording/changed.ts';
import type { Held } from '../recording/stock.ts';
import { dispensingsIn, type Link } from '../recording/trace.ts';
import { CAUTION } from './caution.ts';
import { lotWords, originWords } from './lot-words.ts';
import { type Block, exactly, type Item, type Line, type Sheet, sentence, words } from './sheet.ts';

export interface Traced {
  readonly start: Kept;
  readonly cancelled: boolean;
  readonly held: Held | null;
  readonly back: readonly Link[];
  readonly on: readonly Link[];
  /** Adjustments and corrections of it. */
  readonly about: readonly Kept[];
}

/** Whom it reached first, then the way there and the way back. */
export function traceSheet(t: Traced): Sheet {
  const reached = dispensingsIn(t.on);
  return {
    title: `${kindWords(t.start)} ${t.start.record}: ${whatWords(t.start)}${t.cancelled ? ' (cancelled)' : ''}`,
    subtitle: `recorded ${writeDate(t.start.on)} by ${t.start.by}`,
    blocks: [
      ...(t.start.kind === 'lot' || t.start.kind === 'batch' ? [reachedBlock(reached)] : []),
      ...(t.held
        ? [
            {
              kind: 'facts',
              facts: [
                { label: 'left', value: exactly(given(t.held.left, 'left')) },
                ...(t.held.quarantined
                  ? [{ label: 'may be used', value: words('no: it is in quarantine') }]
                  : []),
              ],
            } as const,
          ]
        : []),
      ...links('Came from', t.back),
      ...links('Went to', t.on),
      ...(t.about.length > 0
        ? [
            section(
              'Put right by',
              t.about.map((r) => words(`${r.record} ${writeDate(r.on)} ${aboutWords(r)}`)),
            ),
          ]
        : []),
      { kind: 'caution', text: CAUTION },
      ...nextBlock(t),
    ],
  };
}

const section = (title: string, items: readonly Item[]): Block => ({
  kind: 'section',
  title,
  blocks: [{ kind: 'list', items }],
});

function nextBlock({ start, held }: Traced): Block[] {
  if ((start.kind === 'lot' || start.kind === 'batch') && held && !held.quarantined && held.left.value.gt(0))
    return [
      {
        kind: 'lines',
        lines: [words(`To keep it from being used: scruple lots adjust ${start.record} --reason quarantine`)],
      },
    ];
  return [];
}

function reachedBlock(reached: ReturnType<typeof dispensingsIn>): Block {
  if (reached.length === 0) return { kind: 'lines', lines: [words('It was handed to nobody.')] };
  const people = [...new Set(reached.map((r) => r.patient))].sort();
  const count = given(exact(people.length), 'people');
  const how =
    people.length === 1
      ? sentence`It reached ${count} person: ${words(people.join(', '))}.`
      : sentence`It reached ${count} people: ${words(people.join(', '))}.`;
  return { kind: 'lines', lines: [how] };
}

function links(title: string, list: readonly Link[]): Block[] {
  if (list.length === 0) return [];
  const items = (links: readonly Link[], depth: number): Item[] =>
    links.flatMap((l) => [itemOf(l, depth), ...items(l.further, depth + 1)]);
  return [section(title, items(list, 0))];
}

/** A step deeper for each record on the way. */
function itemOf({ record, amount, cancelled }: Link, depth: number): Item {
  const mark = `${'  '.repeat(depth)}-`;
  const said = `${record.record} ${kindWords(record).toLowerCase()}, ${writeDate(record.on)}: ${whatWords(record)}`;
  const line: Line =
    amount === null
      ? words(said)
      : sentence`${words(said)}, ${exactly(given(amount, `of ${record.record}`))}`;
  return { mark, line: cancelled ? [...(Array.isArray(line) ? line : [line]), words('(cancelled)')] : line };
}

function kindWords({ kind }: Kept): string {
  switch (kind) {
    case 'lot':
      return 'Lot';
    case 'batch':
      return 'Batch';
    case 'dispensing':
      return 'Dispensing';
    case 'adjustment':
      return 'Adjustment';
    case 'correction':
      return 'Correction';
    case 'reaction':
      return 'Suspected reaction';
  }
}

function whatWords(r: Kept): string {
  switch (r.kind) {
    case 'lot':
      return `${lotWords(r)}, ${originWords(r)}`;
    case 'batch':
      return r.formula;
    case 'dispensing':
      return `${r.formula} to ${r.patient}`;
    case 'reaction':
      return r.says;
    case 'adjustment':
    case 'correction':
      return `${aboutWords(r)} (of ${r.of})`;
  }
}

function aboutWords(r: Kept): string {
  if (r.kind === 'correction') return `cancelled: ${r.because}`;
  if (r.kind !== 'adjustment') return '';
  const amount = r.less
    ? `, ${write(r.less, 'exact')} went`
    : r.left
      ? `, ${write(r.left, 'exact')} is there`
      : '';
  return `${r.reason}${amount}${r.note ? `: ${r.note}` : ''}`;
}

/** Keys for scripts: record, kind, left, patients[], back[], on[], each link {record, kind, amount, cancelled, further[]}. */
export function traceJson(t: Traced): Record<string, unknown> {
  const link = (l: Link): Record<string, unknown> => ({
    record: l.record.record,
    kind: l.record.kind,
    on: writeDate(l.record.on),
    what: whatWords(l.record),
    ...(l.record.kind === 'dispensing' ? { patient: l.record.patient } : {}),
    amount: l.amount,
    cancelled: l.cancelled,
    further: l.further.map(link),
  });
  return {
    record: t.start.record,
    kind: t.start.kind,
    cancelled: t.cancelled,
    left: t.held?.left ?? null,
    quarantined: t.held?.quarantined ?? false,
    patients: [...new Set(dispensingsIn(t.on).map((r) => r.patient))].sort(),
    back: t.back.map(link),
    on: t.on.map(link),
  };
}

/** The dispensings that a change touches, each with what changed. */
export function changedSheet(changed: readonly Changed[], of: number): Sheet {
  const all = given(exact(of), 'dispensings on record');
  return {
    title: changed.length === 0 ? 'Nothing has changed since' : 'Changed since it was handed over',
    blocks: [
      changed.length === 0
        ? {
            kind: 'lines',
            lines: [
              sentence`Of ${all} dispensings on record, every formula, monograph and limit means what it meant then.`,
            ],
          }
        : {
            kind: 'table',
            columns: [
              { head: 'record' },
              { head: 'on' },
              { head: 'to' },
              { head: 'formula' },
              { head: 'changed since' },
            ],
            rows: changed.map(({ record: r, what }) => [
              words(r.record),
              words(writeDate(r.on)),
              words(r.patient),
              words(r.formula),
              words(what.join(', ')),
            ]),
          },
      { kind: 'caution', text: CAUTION },
      ...(changed.length > 0
        ? [
            {
              kind: 'lines',
              lines: [words('Next: scruple check FORMULA --patient FILE, for each of these people')],
            } as const,
          ]
        : []),
    ],
  };
}

/** Keys for scripts: of, changed[].{record, on, patient, formula, what[]}. */
export function changedJson(changed: readonly Changed[], of: number): Record<string, unknown> {
  return {
    of: String(of),
    changed: changed.map(({ record: r, what }) => ({
      record: r.record,
      on: writeDate(r.on),
      patient: r.patient,
      formula: r.formula,
      what,
    })),
  };
}
