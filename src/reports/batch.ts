import type { Batch } from '../compounding/compound.ts';
import type { Amendment } from '../folder/amend.ts';
import type { KeptAs, RecordedLine } from '../folder/schema/record.ts';
import { writeDate } from '../measure/calendar.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { type Money, writeMoney } from '../measure/money.ts';
import { compareQuantities, plus, type Quantity, ratioOf } from '../measure/quantity.ts';
import { write } from '../measure/write.ts';
import type { Cost } from '../recording/cost.ts';
import { CAUTION } from './caution.ts';
import { madeOf } from './label-facts.ts';
import { type Block, exactly, type Line, type Sheet, words } from './sheet.ts';
import { methodBlock, weighJson } from './weigh.ts';

/** A batch as it was recorded: what was taken of which lot, what came of it, what it cost. */
export function batchSheet(
  batch: Batch,
  record: KeptAs<'batch'>,
  cost: Cost,
  otherwise: readonly Amendment[],
): Sheet {
  return {
    title: `Batch ${record.record}: ${record.title}`,
    subtitle: `${record.formula}, made ${writeDate(record.on)} by ${record.by}`,
    blocks: [
      linesTable(record.lines),
      ...otherwiseBlocks(otherwise),
      {
        kind: 'facts',
        facts: [
          { label: 'makes', value: exactly(given(record.makes, 'made, as recorded')) },
          ...(record.label.strength ? [{ label: 'strength', value: words(record.label.strength) }] : []),
          { label: 'discard after', value: words(writeDate(record.label.discard_after)) },
          ...costFacts(batch, record, cost),
        ],
      },
      methodBlock(batch),
      { kind: 'caution', text: CAUTION },
      {
        kind: 'lines',
        lines: [
          words(`Next: scruple label ${record.record}`),
          words(`or: scruple dispense ${record.formula} --batch ${record.record} --patient FILE`),
        ],
      },
    ],
  };
}

/** Each line with its lots, and where the measure stands after it. */
export function linesTable(lines: readonly RecordedLine[]): Block {
  const rows = lines.flatMap((l): Line[][] => {
    const amount = given(l.amount, `${l.of}, as recorded`);
    const [first, ...more] = l.draws;
    if (!first) return [[words(l.of), exactly(amount), words('none booked in')]];
    if (more.length === 0) return [[words(l.of), exactly(amount), words(first.lot)]];
    return [
      [words(l.of), exactly(amount), words('')],
      ...l.draws.map((d): Line[] => [words(''), exactly(given(d.amount, `of lot ${d.lot}`)), words(d.lot)]),
    ];
  });
  return {
    kind: 'table',
    columns: [{ head: 'of' }, { head: 'amount', align: 'right' }, { head: 'lot' }],
    rows,
    ...(totalOf(lines)
      ? { total: [words('in all'), exactly(totalOf(lines) as Figure<Quantity>), words('')] }
      : {}),
  };
}

/** What all lines come to, where they are measured alike; what they are made with is another measure. */
function totalOf(lines: readonly RecordedLine[]): Figure<Quantity> | null {
  const [first] = lines;
  if (!first || lines.some((l) => l.amount.unit !== first.amount.unit)) return null;
  const figures = lines.map((l) => given(l.amount, `${l.of}, as recorded`));
  return worked(
    lines.map((l) => l.amount).reduce(plus),
    'in all',
    lines.map(() => '{}').join(' + '),
    figures,
  );
}

export function otherwiseBlocks(otherwise: readonly Amendment[]): Block[] {
  if (otherwise.length === 0) return [];
  const said = otherwise.map(
    ({ of, set }) =>
      `${of} ${Object.entries(set ?? {})
        .map(([k, v]) => `${k.replace(/_/g, ' ')} ${v}`)
        .join(', ')}`,
  );
  return [
    {
      kind: 'lines',
      lines: [words(`Reckoned as the lots are, which the formula says otherwise: ${said.join('; ')}.`)],
    },
  ];
}

function costFacts(
  batch: Batch,
  record: KeptAs<'batch'>,
  { sums, without }: Cost,
): { label: string; value: Line }[] {
  if (sums.length === 0) return [];
  const rest = without.length > 0 ? `, without ${without.join(', ')}` : '';
  const bottle = bottleOf(batch);
  const each =
    bottle && compareQuantities(bottle, record.makes) < 0 ? perBottle(sums, bottle, record.makes) : null;
  return [
    { label: 'cost', value: words(`${sums.map(writeMoney).join(', ')}${rest}`) },
    ...(each && bottle
      ? [{ label: 'a bottle', value: words(`${each.map(writeMoney).join(', ')} (${write(bottle)})`) }]
      : []),
  ];
}

/** What one bottle for the course holds. */
export function bottleOf(batch: Batch): Quantity | null {
  const { preparation: p } = batch.formula;
  return ('bottle' in p && p.bottle) || batch.supply?.course?.bottle?.value || null;
}

export const perBottle = (sums: readonly Money[], bottle: Quantity, makes: Quantity): Money[] =>
  sums.map(({ amount, currency }) => ({ amount: amount.times(ratioOf(bottle, makes)), currency }));

/** Keys for scripts: those of weigh, and record, lines[].draws, makes, discard_after, cost. */
export function batchJson(batch: Batch, record: KeptAs<'batch'>): Record<string, unknown> {
  const drawn = record.lines.map((l) => ({ of: l.of, amount: l.amount, draws: l.draws }));
  return {
    ...weighJson(batch),
    record: record.record,
    makes: record.makes,
    made: madeOf(batch),
    drawn,
    discard_after: writeDate(record.label.discard_after),
    cost: (record.cost ?? []).map(writeMoney),
  };
}
