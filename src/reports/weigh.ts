import type { Batch } from '../compounding/compound.ts';
import type { MethodLine } from '../compounding/making.ts';
import type { WeighedLine } from '../compounding/weighing.ts';
import { keyOf } from '../folder/ingredients.ts';
import { type Figure, worked } from '../measure/figure.ts';
import { plus, type Quantity } from '../measure/quantity.ts';
import { gram, millilitre, percent } from '../measure/units.ts';
import { CAUTION } from './caution.ts';
import { keepingJson } from './keeping.ts';
import { courseFacts, ethanolFacts, keepingFacts, productFacts, productJson } from './product.ts';
import {
  type Block,
  exactly,
  type Item,
  type Line,
  numberIn,
  type Sheet,
  sentence,
  sentenceOf,
  words,
} from './sheet.ts';
import { named } from './show-formula.ts';
import { takenLabel, takenLine } from './taken.ts';

/** The weighing sheet: the figures that matter first, then what it comes to, then how it is made. */
export function weighSheet(batch: Batch, withoutMonograph: readonly string[]): Sheet {
  const { formula } = batch;
  return {
    title: formula.title,
    subtitle: `${formula.formula}${formula.version ? `, version ${formula.version.toFixed()}` : ''}, ${formula.preparation.kind}`,
    blocks: [
      batch.lineUnit === millilitre ? pourTable(batch) : weighTable(batch),
      ...roundedDownBlocks(batch),
      ...tooSmallBlocks(batch),
      { kind: 'facts', facts: batchFacts(batch) },
      ...lessThanAPot(batch),
      methodBlock(batch),
      ...(formula.notes ? [{ kind: 'list', items: formula.notes.map((n) => words(n)) } as const] : []),
      ...(withoutMonograph.length > 0
        ? [
            {
              kind: 'lines',
              lines: [
                words(
                  `No monograph: ${withoutMonograph.join(', ')}. Nothing is known here of what it does or for whom it is safe.`,
                ),
              ],
            } as const,
          ]
        : []),
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(nextStep(batch))] },
    ],
  };
}

function nextStep({ formula: { formula, directions } }: Batch): string {
  return directions
    ? `Next: scruple dose ${formula}`
    : `Next: add directions: to formulas/${formula}.yaml, then scruple dose ${formula}`;
}

function weighTable(batch: Batch): Block {
  return {
    kind: 'table',
    columns: [{ head: 'herb' }, { head: 'weigh (g)' }, { head: 'exact (g)' }, { head: 'rounded by (%)' }],
    rows: batch.lines.map((l) => [
      words(labelOf(batch, l.key)),
      numberIn(gram, l.weigh, 'exact'),
      numberIn(gram, l.exact),
      numberIn(percent, l.error),
    ]),
    total: [words('in all'), numberIn(gram, batch.total, 'exact'), numberIn(gram, batch.size), words('')],
  };
}

/** The pouring sheet: one after the other into one measure, each up to its fill line. */
function pourTable(batch: Batch): Block {
  return {
    kind: 'table',
    columns: [
      { head: 'liquid' },
      { head: 'pour (mL)' },
      { head: 'fill to (mL)' },
      { head: 'exact (mL)' },
      { head: 'rounded by (%)' },
    ],
    rows: fillLines(batch).map(({ line: l, fill }) => [
      words(labelOf(batch, l.key)),
      numberIn(millilitre, l.weigh, 'exact'),
      numberIn(millilitre, fill, 'exact'),
      numberIn(millilitre, l.exact),
      numberIn(percent, l.error),
    ]),
    total: [
      words('in all'),
      numberIn(millilitre, batch.total, 'exact'),
      words(''),
      numberIn(millilitre, batch.size),
      words(''),
    ],
  };
}

/** Where the measure stands after each line is poured. */
export function fillLines({ lines }: Batch): { line: WeighedLine; fill: Figure<Quantity> }[] {
  let before: Figure<Quantity> | null = null;
  return lines.map((line) => {
    const fill: Figure<Quantity> = before
      ? worked(plus(before.value, line.weigh.value), `fill line after ${line.key}`, '{} + {}', [
          before,
          line.weigh,
        ])
      : line.weigh;
    before = fill;
    return { line, fill };
  });
}

export function labelOf(batch: Batch, key: string): string {
  const ingredient = batch.formula.ingredients.find((i) => keyOf(i) === key);
  return ingredient ? named(ingredient) : key;
}

/** Of what the law limits there is never more than the exact share; the others make up for it, if there are any. */
function roundedDownBlocks({ lines }: Batch): Block[] {
  const down = lines.filter((l) => l.roundedDown);
  if (down.length === 0) return [];
  const why = `Rounded down, as the law limits how much there may be of it: ${down.map((l) => l.key).join(', ')}.`;
  const smaller = down.length === lines.length ? ' The batch comes out smaller by as much.' : '';
  return [{ kind: 'lines', lines: [words(`${why}${smaller}`)] }];
}

/** Below the least weighable quantity the balance errs by more than is permitted: say so, and how to help it. */
function tooSmallBlocks(batch: Batch): Block[] {
  const small = batch.lines.filter((l) => l.tooSmall !== undefined);
  const least = small[0]?.tooSmall?.least;
  if (least === undefined) return [];
  const poured = batch.lineUnit === millilitre;
  const lines: Line[] = [
    sentence`Below ${least}, the least that this ${poured ? 'cylinder measures' : 'balance weighs'} within the permitted error: ${small.map((l) => l.key).join(', ')}.`,
  ];
  const triturations = ['powder', 'capsule'].includes(batch.formula.preparation.kind)
    ? small.flatMap(triturationLine)
    : [];
  return [
    {
      kind: 'lines',
      lines: [
        ...lines,
        words(
          triturations.length > 0
            ? 'Make a larger batch, use a finer balance, or triturate:'
            : poured
              ? 'Make a larger batch, or use a smaller cylinder or a syringe.'
              : 'Make a larger batch, or use a finer balance.',
        ),
      ],
    },
    { kind: 'list', items: triturations },
  ];
}

function triturationLine({ key, tooSmall }: Batch['lines'][number]): Line[] {
  const t = tooSmall?.trituration;
  if (!t) return [];
  return [
    sentence`mix ${t.weigh} of ${key} with ${t.diluent} of the other powders, of the ${t.mixture} take ${t.aliquot} in place of ${key}, and weigh as much less of the others as it brings with it`,
  ];
}

/** What the batch comes to: how many pots or doses, the water for them, how it is taken and how long it lasts. */
function batchFacts(batch: Batch): { label: string; value: Line }[] {
  const { supply, formula, pots, water } = batch;
  const made = [...(pots ? [pots] : []), ...(supply ? [supply.doses] : [])].filter((f) =>
    f.value.value.gt(0),
  );
  return [
    ...(made.length > 0 ? [{ label: 'makes', value: joined(made) }] : []),
    ...(water ? [{ label: 'water', value: sentence`${water} in all` }] : []),
    ...productFacts(batch),
    ...(formula.directions ? [{ label: takenLabel(batch), value: takenLine(batch) }] : []),
    ...(supply ? [{ label: 'lasts', value: lastsLine(batch) }] : []),
    ...courseFacts(batch),
    ...ethanolFacts(batch),
    ...(batch.making.kind === 'pot' ? keepingFacts(batch) : []),
  ];
}

function joined(figures: readonly Line[]): Line {
  return figures.flatMap((f, i) => [...(i === 0 ? [] : [words('or')]), f].flat());
}

/** Full days and what is left after them; a batch that is short of a day says so. */
export function lastsLine({ supply }: Batch): Line {
  if (supply === null) return words('');
  if (supply.days.value.value.isZero()) return sentence`less than a day: a day takes ${supply.perDay}`;
  return supply.over.value.value.isZero()
    ? sentence`${supply.days}, with nothing over`
    : sentence`${supply.days} from ${supply.inHand}, with ${supply.over} over`;
}

function lessThanAPot({ pots, making, total }: Batch): Block[] {
  if (making.kind !== 'pot' || !pots?.value.value.isZero()) return [];
  return [
    {
      kind: 'lines',
      lines: [
        sentence`${exactly(total)} is less than the ${making.pot.herb} of one pot: weigh more, or use less water.`,
      ],
    },
  ];
}

/** One pot, or the powder, step by step; what a formula notes on an ingredient belongs to the making. */
export function methodBlock({ making, formula }: Batch): Block {
  const facts =
    making.kind === 'pot'
      ? [
          { label: 'herb', value: exactly(making.pot.herb) },
          { label: 'water', value: making.pot.water },
          {
            label: making.pot.estimated
              ? 'strains to about'
              : making.pot.makeUpTo
                ? 'made up to'
                : 'strains to',
            value: making.pot.strained,
          },
        ]
      : [];
  const notes = formula.ingredients.flatMap((i): Item[] =>
    i.note === undefined ? [] : [words(`${keyOf(i)}: ${i.note}`)],
  );
  return {
    kind: 'section',
    title: making.kind === 'pot' ? 'One pot' : 'Method',
    blocks: [
      ...(facts.length > 0 ? [{ kind: 'facts', facts } as const] : []),
      { kind: 'list', items: [...making.method.map(methodLine), ...notes] },
    ],
  };
}

export function methodLine(line: MethodLine): Line {
  return sentenceOf(line);
}

/** Keys that scripts rely on: lines[].{herb, exact, weigh}, total, water, doses. */
export function weighJson(batch: Batch): Record<string, unknown> {
  const { making, supply } = batch;
  return {
    formula: batch.formula.formula,
    lines: (batch.lineUnit === millilitre
      ? fillLines(batch)
      : batch.lines.map((line) => ({ line, fill: null }))
    ).map(({ line: l, fill }) => ({
      herb: l.key,
      exact: l.exact,
      weigh: l.weigh,
      error: l.error,
      ...(fill ? { fill } : {}),
      ...(l.roundedDown ? { rounded_down: true } : {}),
      ...(l.tooSmall ? { least_weighable: l.tooSmall.least } : {}),
    })),
    total: batch.total,
    ...(batch.water ? { water: batch.water, pots: batch.pots } : {}),
    ...(making.kind === 'pot'
      ? {
          pot: {
            herb: making.pot.herb,
            water: making.pot.water,
            strained: making.pot.strained,
            estimated: making.pot.estimated,
          },
        }
      : {}),
    ...(making.kind === 'product' ? productJson(making) : {}),
    keeping: keepingJson(batch.keeping),
    ...(supply
      ? { doses: supply.doses, supply: { per_day: supply.perDay, days: supply.days, over: supply.over } }
      : {}),
  };
}
