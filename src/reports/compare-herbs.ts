import type { Monograph } from '../folder/schema/monograph.ts';
import { writeDate } from '../measure/calendar.ts';
import { given } from '../measure/figure.ts';
import { compareQuantities, type Quantity, type Range } from '../measure/quantity.ts';
import { writeRange } from '../measure/write.ts';
import { CAUTION } from './caution.ts';
import { barsOf, floorsOf, gatherMonths, interactionsOf, stageOf } from './glance.ts';
import { type Line, type Sheet, words } from './sheet.ts';

/** Several herbs side by side, a row for each thing that they are chosen by. */
export function compareSheet(herbs: readonly Monograph[]): Sheet {
  const row = (label: string, of: (m: Monograph) => Line): Line[] => [words(label), ...herbs.map(of)];
  return {
    title: herbs.map((m) => m.names.common[0] ?? m.id).join(' and '),
    blocks: [
      {
        kind: 'table',
        columns: [{ head: '' }, ...herbs.map((m) => ({ head: m.id, align: 'left' as const }))],
        rows: [
          row('Latin name', (m) => words(m.names.latin)),
          row('family', (m) => words(m.family)),
          row('part', (m) => words(m.part)),
          row('actions', (m) => words((m.actions ?? []).join(', '))),
          row('at once', (m) => span(m, 'at once')),
          row('a day', (m) => span(m, 'a day')),
          row('ages', (m) => words(floorsOf(m))),
          row('pregnancy', (m) => words(stageOf(m, 'pregnancy'))),
          row('breastfeeding', (m) => words(stageOf(m, 'breastfeeding'))),
          row('interactions', (m) => words(interactionsOf(m))),
          row('effects', (m) => words((m.effects ?? []).join(', '))),
          row('gathered', (m) => words(gatherMonths(m))),
          row('signed off', (m) =>
            words(m.checked ? `${m.checked.by} ${writeDate(m.checked.on)}` : 'not yet'),
          ),
        ],
      },
      {
        kind: 'lines',
        lines: [
          words('Doses by mouth in g of the herb, from the lowest to the highest figure of any source.'),
        ],
      },
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words('Next: scruple show NAME, for each source and its reading')] },
    ],
  };
}

function span(m: Monograph, measure: 'at once' | 'a day'): Line {
  const bars = barsOf(m).find((b) => b.measure === measure)?.bars ?? [];
  const pick = (ends: (Quantity | null)[], sign: 1 | -1): Quantity | null =>
    ends.reduce((a, b) => (a === null || (b !== null && compareQuantities(b, a) * sign > 0) ? b : a), null);
  const ranges = bars.map((b) => b.range.value);
  const range: Range = {
    low: pick(
      ranges.map((r) => r.low ?? r.high),
      -1,
    ),
    high: pick(
      ranges.map((r) => r.high ?? r.low),
      1,
    ),
  };
  return range.high === null
    ? words('none read')
    : given(range, `${measure}, of any source (${writeRange(range)})`);
}

/** For scripts: the same by herb. */
export function compareJson(herbs: readonly Monograph[]): Record<string, unknown> {
  return {
    herbs: herbs.map((m) => ({
      herb: m.id,
      latin: m.names.latin,
      family: m.family,
      part: m.part,
      actions: m.actions ?? [],
      doses: barsOf(m).flatMap(({ measure, bars }) =>
        bars.map((b) => ({ measure, for: b.what, range: b.range })),
      ),
      ages: floorsOf(m),
      pregnancy: stageOf(m, 'pregnancy'),
      breastfeeding: stageOf(m, 'breastfeeding'),
      interactions: interactionsOf(m),
      effects: m.effects ?? [],
      months: (m.gather?.months ?? []).map(String),
    })),
  };
}
