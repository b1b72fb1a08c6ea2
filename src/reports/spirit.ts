import type { MixingFigures } from '../compounding/spirit-figures.ts';
import { given, worked } from '../measure/figure.ts';
import type { Strength } from '../measure/parse.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { Pair } from '../measure/spirit/blend.ts';
import { OIML_R22 } from '../measure/spirit/coefficients.ts';
import type { Found } from '../measure/spirit/hydrometer.ts';
import type { Reference } from '../measure/spirit/reference.ts';
import { gram, millilitre } from '../measure/units.ts';
import { readable, writeNumber } from '../measure/write.ts';
import { CAUTION } from './caution.ts';
import { cite } from './cite.ts';
import { type Block, numberIn, type Sheet, sentence, words } from './sheet.ts';

export type SpiritAnswer =
  | {
      readonly kind: 'mixed';
      readonly figures: MixingFigures;
      readonly nominal: Strength;
      readonly pairs: readonly Pair[];
    }
  | { readonly kind: 'not reachable'; readonly says: string; readonly nearest: Strength }
  | {
      readonly kind: 'read';
      readonly reading: Strength;
      readonly celsius: Quantity;
      readonly found: Found;
      readonly at: string;
    };

/** Spirit and water: what to pour first, by volume and by mass, then what comes of it. */
export function spiritSheet(a: SpiritAnswer, at: Reference): Sheet {
  switch (a.kind) {
    case 'not reachable':
      return {
        title: 'Not reachable',
        blocks: [
          {
            kind: 'lines',
            lines: [
              words(a.says),
              sentence`The nearest that is: ${given(a.nearest, 'nearest strength that can be reached')}`,
            ],
          },
          { kind: 'caution', text: CAUTION },
        ],
      };
    case 'read':
      return readingSheet(a, at);
    case 'mixed':
      return mixedSheet(a, at);
  }
}

function mixedSheet(
  { figures: f, nominal, pairs }: Extract<SpiritAnswer, { kind: 'mixed' }>,
  at: Reference,
): Sheet {
  return {
    title: 'Spirit and water',
    subtitle: `volumes at ${at.says}`,
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'pour' }, { head: 'strength' }, { head: 'mL' }, { head: 'or weigh (g)' }],
        rows: f.poured.map((p) => [
          words(p.says),
          p.strength ?? words(''),
          numberIn(millilitre, p.volume),
          numberIn(gram, p.mass),
        ]),
        total: [
          words('comes to'),
          f.strength.byVolume,
          numberIn(millilitre, f.mixture.volume),
          numberIn(gram, f.mixture.mass),
        ],
      },
      {
        kind: 'facts',
        facts: [
          { label: 'strength', value: sentence`${f.strength.byVolume}, which is ${f.strength.byMass}` },
          {
            label: f.contraction.value.value.lt(0) ? 'swells by' : 'shrinks by',
            value: f.contraction.value.value.lt(0)
              ? worked(
                  { ...f.contraction.value, value: f.contraction.value.value.neg() },
                  'the mixture swells',
                  '-{}',
                  [f.contraction],
                )
              : f.contraction,
          },
        ],
      },
      ...alligationBlocks(pairs),
      {
        kind: 'list',
        items: [
          words(
            'Pour the strong into the weak or the water, let it come to the reference temperature, and only then make up or measure.',
          ),
          sentence`${given(nominal, 'strength in hand')} on a label is nominal; ask for the actual figure of this lot and reckon with that.`,
          words(`Densities: ${cite(OIML_R22)}.`),
        ],
      },
      { kind: 'caution', text: CAUTION },
    ],
  };
}

/** The classical alligation, by mass: what each gets is how far the other lies from the target. */
function alligationBlocks(pairs: readonly Pair[]): Block[] {
  if (pairs.length === 0) return [];
  return [
    {
      kind: 'section',
      title: 'Alligation by mass',
      blocks: [
        {
          kind: 'table',
          columns: [
            { head: 'weaker' },
            { head: 'stronger' },
            { head: 'target' },
            { head: 'parts of weaker' },
            { head: 'parts of stronger' },
          ],
          rows: pairs.map((p) => [
            given(p.weaker, 'weaker spirit'),
            given(p.stronger, 'stronger spirit'),
            given(p.target, 'target'),
            given(p.below, 'stronger above target, by mass: parts of the weaker'),
            given(p.above, 'target above weaker, by mass: parts of the stronger'),
          ]),
        },
      ],
    },
  ];
}

function readingSheet(a: Extract<SpiritAnswer, { kind: 'read' }>, at: Reference): Sheet {
  const reading = given(a.reading, 'reading of the hydrometer');
  const byVolume = worked(
    a.found.volumeStrength,
    `strength at ${at.says}`,
    `{} read at ${a.at}, by the published densities`,
    [reading],
    OIML_R22,
  );
  const byMass = worked(
    a.found.massStrength,
    'strength by mass',
    '{} by the published densities',
    [byVolume],
    OIML_R22,
  );
  return {
    title: `Strength ${writeNumber(readable(a.found.volumeStrength.value))} % v/v at ${at.says}`,
    blocks: [
      {
        kind: 'facts',
        facts: [
          { label: 'read', value: sentence`${reading} at ${words(a.at)}` },
          { label: 'true strength', value: sentence`${byVolume}, which is ${byMass}` },
        ],
      },
      {
        kind: 'list',
        items: [
          words(
            'Only for clean spirit and water: what a tincture has dissolved makes it heavier, and the reading false.',
          ),
          ...(a.found.note ? [words(a.found.note)] : []),
          words(`Densities: ${cite(OIML_R22)}.`),
        ],
      },
      { kind: 'caution', text: CAUTION },
    ],
  };
}

/** Keys that scripts rely on: stock, water, mixture, strength, contraction (mL), masses (g). */
export function spiritJson(a: SpiritAnswer): Record<string, unknown> {
  if (a.kind === 'not reachable') return { reachable: false, nearest: a.nearest, says: a.says };
  if (a.kind === 'read')
    return { strength: a.found.volumeStrength, strength_by_mass: a.found.massStrength, reading: a.reading };
  const { poured, mixture, strength, contraction, ethanol } = a.figures;
  const water = poured.find((p) => p.strength === null);
  const stocks = poured.filter((p) => p.strength !== null);
  return {
    reachable: true,
    stock: stocks[0]?.volume ?? null,
    stocks: stocks.map((p) => ({ strength: p.strength, volume: p.volume, mass: p.mass })),
    water: water?.volume ?? null,
    mixture: mixture.volume,
    strength: strength.byVolume,
    strength_by_mass: strength.byMass,
    contraction,
    masses: { stock: stocks[0]?.mass ?? null, water: water?.mass ?? null, mixture: mixture.mass, ethanol },
  };
}
