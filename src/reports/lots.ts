import type { Kept, KeptAs } from '../folder/schema/record.ts';
import { type CalendarDate, compareDates, daysBetween, writeDate } from '../measure/calendar.ts';
import { given } from '../measure/figure.ts';
import { writeMoney } from '../measure/money.ts';
import { expiresOn } from '../recording/draw.ts';
import type { Held } from '../recording/stock.ts';
import { CAUTION } from './caution.ts';
import { lotWords, originWords } from './lot-words.ts';
import { exactly, type Line, type Sheet, words } from './sheet.ts';

/** What is on the shelf, what is left of it, and what goes next. */
export function lotsSheet(held: readonly Held[], on: CalendarDate): Sheet {
  const there = held.filter((h) => h.left.value.gt(0));
  const usedUp = held.filter((h) => !h.left.value.gt(0));
  return {
    title: 'On the shelf',
    subtitle: `as recorded, reckoned on ${writeDate(on)}; what expires first stands first and is drawn first`,
    blocks: [
      there.length === 0
        ? { kind: 'lines', lines: [words('Nothing.')] }
        : {
            kind: 'table',
            columns: [
              { head: 'number' },
              { head: 'of' },
              { head: 'left' },
              { head: 'expires' },
              { head: '' },
            ],
            rows: there.map((h): Line[] => [
              words(h.from.record),
              words(whatWords(h)),
              exactly(given(h.left, `left of ${h.from.record}`)),
              words(expiresOn(h) ? writeDate(expiresOn(h) as CalendarDate) : 'not said'),
              words(stateWords(h, on)),
            ]),
          },
      ...(usedUp.length > 0
        ? [
            {
              kind: 'lines',
              lines: [words(`Used up: ${usedUp.map((h) => h.from.record).join(', ')}.`)],
            } as const,
          ]
        : []),
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words('Next: scruple trace NUMBER for where it came from and went')] },
    ],
  };
}

const whatWords = ({ from }: Held): string =>
  from.kind === 'lot' ? lotWords(from) : `${from.formula}, batch`;

/** Near enough to plan for: common practice, without a source. */
const SOON = 60;

function stateWords(h: Held, on: CalendarDate): string {
  if (h.quarantined) return 'in quarantine';
  const until = expiresOn(h);
  if (until === null) return '';
  if (compareDates(until, on) < 0) return 'expired: not drawn';
  return daysBetween(on, until) <= SOON ? 'soon' : '';
}

/** Keys for scripts: lots[].{number, kind, of, left, expires, state}. */
export function lotsJson(held: readonly Held[], on: CalendarDate): Record<string, unknown> {
  return {
    lots: held.map((h) => ({
      number: h.from.record,
      kind: h.from.kind,
      of: h.from.kind === 'lot' ? (h.from.herb ?? h.from.vehicle ?? 'spirit') : h.from.formula,
      ...(h.from.kind === 'lot' ? { form: h.from.form ?? null, origin: originWords(h.from) } : {}),
      left: h.left,
      expires: expiresOn(h) ? writeDate(expiresOn(h) as CalendarDate) : null,
      state: h.left.value.gt(0) ? stateWords(h, on) || 'in use' : 'used up',
    })),
  };
}

/** What was just recorded. */
export function recordedSheet(record: Kept, held?: Held): Sheet {
  return {
    title: titleOf(record),
    subtitle: `recorded ${writeDate(record.on)} by ${record.by}`,
    blocks: [
      { kind: 'facts', facts: factsOf(record, held) },
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: ${nextOf(record)}`)] },
    ],
  };
}

function titleOf(r: Kept): string {
  switch (r.kind) {
    case 'lot':
      return `Lot ${r.record}: ${lotWords(r)}`;
    case 'adjustment':
      return `Record ${r.record}: ${r.reason}, ${r.of}`;
    case 'correction':
      return `Record ${r.record}: ${r.of} was cancelled`;
    case 'reaction':
      return `Record ${r.record}: a suspected reaction to ${r.of}`;
    case 'batch':
      return `Batch ${r.record}: ${r.title}`;
    case 'dispensing':
      return `Record ${r.record}: ${r.title} for ${r.patient}`;
  }
}

type Fact = { readonly label: string; readonly value: Line };
const fact = (label: string, value: string | undefined): Fact[] =>
  value === undefined ? [] : [{ label, value: words(value) }];

function factsOf(r: Kept, held: Held | undefined): Fact[] {
  return [
    ...(r.kind === 'lot' ? lotFacts(r) : []),
    ...(r.kind === 'adjustment' && r.less ? [{ label: 'went', value: exactly(given(r.less, 'went')) }] : []),
    ...(r.kind === 'correction' || r.kind === 'dispensing' ? fact('because', r.because) : []),
    ...(held ? [{ label: 'left', value: exactly(given(held.left, `left of ${held.from.record}`)) }] : []),
    ...(held?.quarantined ? fact('may be used', 'no: it is in quarantine') : []),
    ...fact('note', r.note),
  ];
}

function lotFacts(r: KeptAs<'lot'>): Fact[] {
  return [
    { label: 'amount', value: exactly(given(r.amount, 'booked in')) },
    ...fact('from', originWords(r)),
    ...fact(
      'expires',
      r.expires ? writeDate(r.expires) : 'not said: it is drawn last; --expires DATE sets a day',
    ),
    ...fact('price', r.price && writeMoney(r.price)),
  ];
}

function nextOf(r: Kept): string {
  if (r.kind === 'adjustment' && r.reason === 'quarantine')
    return `scruple trace ${r.of}, for whom it was handed to`;
  return 'scruple lots';
}

/** Keys for scripts: record, kind, on, by and what the record holds. */
export function recordedJson(record: Kept, held?: Held): Record<string, unknown> {
  const plain = Object.fromEntries(
    Object.entries(record).map(([k, v]) => [
      k,
      k === 'price' && record.kind === 'lot' && record.price ? writeMoney(record.price) : v,
    ]),
  );
  return { ...plain, on: writeDate(record.on), ...datesOf(record), ...(held ? { left: held.left } : {}) };
}

function datesOf(r: Kept): Record<string, string> {
  if (r.kind === 'lot' && r.expires) return { expires: writeDate(r.expires) };
  return {};
}
