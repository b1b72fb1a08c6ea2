import type { Batch } from '../compounding/compound.ts';
import type { MethodLine } from '../compounding/making.ts';
import { gram, percent } from '../measure/units.ts';
import { CAUTION } from './caution.ts';
import {
  type Block,
  exactly,
  type Line,
  numberIn,
  type Sheet,
  sentence,
  sentenceOf,
  words,
} from './sheet.ts';

/** The weighing sheet: the figure that matters first, then how it is made, then how long it lasts. */
export function weighSheet(batch: Batch, withoutMonograph: readonly string[]): Sheet {
  const { formula } = batch;
  return {
    title: formula.title,
    subtitle: `${formula.formula}${formula.version ? `, version ${formula.version.toFixed()}` : ''}, ${formula.preparation.kind}`,
    blocks: [
      weighTable(batch),
      ...tooSmallBlocks(batch),
      ...methodBlocks(batch),
      { kind: 'facts', facts: supplyFacts(batch) },
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
      { kind: 'lines', lines: [words(`Next: scruple dose ${formula.formula}`)] },
    ],
  };
}

function weighTable(batch: Batch): Block {
  return {
    kind: 'table',
    columns: [{ head: 'herb' }, { head: 'weigh (g)' }, { head: 'exact (g)' }, { head: 'error (%)' }],
    rows: batch.lines.map((l) => [
      words(labelOf(batch, l.key)),
      numberIn(gram, l.weigh, 'exact'),
      numberIn(gram, l.exact),
      numberIn(percent, l.error),
    ]),
    total: [words('in all'), numberIn(gram, batch.total, 'exact'), numberIn(gram, batch.size), words('')],
  };
}

function labelOf(batch: Batch, herb: string): string {
  const form = batch.formula.ingredients.find((i) => i.herb === herb)?.form;
  return form && form !== 'dried' ? `${herb} (${form})` : herb;
}

/** Below the least weighable quantity the balance errs by more than is permitted: say so, and how to help it. */
function tooSmallBlocks(batch: Batch): Block[] {
  const lines = batch.lines.flatMap((l): Line[] => {
    if (!l.tooSmall) return [];
    return [
      sentence`${l.key} is below ${l.tooSmall.least}, the least that this balance weighs within the permitted error: make a larger batch, or triturate.`,
      ...triturationLine(batch, l.key),
    ];
  });
  return lines.length > 0 ? [{ kind: 'lines', lines }] : [];
}

function triturationLine(batch: Batch, key: string): Line[] {
  const t = batch.lines.find((l) => l.key === key)?.tooSmall?.trituration;
  if (!t || batch.formula.preparation.kind !== 'powder') return [];
  return [
    sentence`Trituration: mix ${t.weigh} of it with ${t.diluent} of the other powders and take ${t.aliquot} of the mixture.`,
  ];
}

function methodBlocks(batch: Batch): Block[] {
  const { making } = batch;
  const title = making.kind === 'pot' ? 'One pot' : 'Method';
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
  return [
    {
      kind: 'section',
      title,
      blocks: [
        ...(facts.length > 0 ? [{ kind: 'facts', facts } as const] : []),
        { kind: 'list', items: making.method.map(methodLine) },
      ],
    },
  ];
}

export function methodLine(line: MethodLine): Line {
  return sentenceOf(line);
}

function supplyFacts(batch: Batch): { label: string; value: Line }[] {
  const { supply, taking, pots, water } = batch;
  return [
    ...(pots ? [{ label: 'pots in the batch', value: pots }] : []),
    ...(water ? [{ label: 'water for all of it', value: water }] : []),
    ...(taking ? [{ label: 'taken', value: takenLine(batch) }] : []),
    ...(supply
      ? [
          { label: 'lasts', value: sentence`${supply.days}, with ${supply.over} over` },
          { label: 'doses', value: supply.doses },
        ]
      : []),
  ];
}

export function takenLine({ taking, formula }: Batch): Line {
  if (taking === null) return words('the formula gives no directions');
  const when = formula.directions?.when;
  return [
    taking.dose,
    ...(taking.timesLeast === taking.timesMost
      ? [sentence`${taking.timesMost} a day`]
      : [sentence`${taking.timesLeast} to ${taking.timesMost} a day`]),
    ...(taking.course ? [sentence`for ${taking.course}`] : []),
    ...(when ? [words(`(${when})`)] : []),
  ];
}

/** Keys that scripts rely on: lines[].{herb, exact, weigh}, total, water, doses. */
export function weighJson(batch: Batch): Record<string, unknown> {
  const { making, supply } = batch;
  return {
    formula: batch.formula.formula,
    lines: batch.lines.map((l) => ({
      herb: l.key,
      exact: l.exact,
      weigh: l.weigh,
      error: l.error,
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
    ...(supply
      ? { doses: supply.doses, supply: { per_day: supply.perDay, days: supply.days, over: supply.over } }
      : {}),
  };
}
