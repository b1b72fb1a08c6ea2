import type { Batch } from '../compounding/compound.ts';
import type { Product } from '../compounding/product.ts';
import { keepingLines } from './keeping.ts';
import { type Line, sentence } from './sheet.ts';

/** What a product is made with, what it comes to and whether it keeps: the facts beside its lines. */

type Fact = { readonly label: string; readonly value: Line };

export function productFacts({ making, keeping }: Batch): Fact[] {
  if (making.kind !== 'product') return [];
  return [
    ...making.added.map(({ says, amount, also }) => ({
      label: says,
      value: also ? sentence`${amount} (${also})` : amount,
    })),
    ...spiritFacts(making),
    ...yieldFacts(making),
    ...(making.strength ? [{ label: 'strength', value: making.strength }] : []),
    ...making.facts,
    ...keepingFacts({ keeping }),
  ];
}

/** Made from what is in the store: volumes before mixing, masses for the balance, what is lost in volume. */
function spiritFacts({ spirit }: Product): Fact[] {
  if (spirit === null) return [];
  const [stock, water] = spirit.poured;
  if (stock === undefined || water === undefined) return [];
  return [
    {
      label: 'made from',
      value: sentence`${stock.volume} (${stock.mass}) of strong spirit, ${stock.strength ?? ''}`,
    },
    { label: '', value: sentence`${water.volume} (${water.mass}) of water` },
    { label: '', value: sentence`together ${spirit.contraction} less than the two volumes` },
  ];
}

function yieldFacts({ yields, makes, base }: Product): Fact[] {
  if (yields === null) return makes === base ? [] : [{ label: 'comes to', value: makes }];
  return [
    { label: 'yields', value: makes.value.unit.dimension === 'count' ? yields : sentence`about ${yields}` },
  ];
}

/** Whether and how long it keeps, a line each. */
export function keepingFacts({ keeping }: Pick<Batch, 'keeping'>): Fact[] {
  return keepingLines(keeping).map((value, i) => ({ label: i === 0 ? 'keeps' : '', value }));
}

/** The ethanol that is taken with it: grams at once and in a day, British units. */
export function ethanolFacts({ ethanol }: Batch): Fact[] {
  if (ethanol === null) return [];
  return [
    {
      label: 'ethanol',
      value: sentence`${ethanol.perDose} in a dose, ${ethanol.perDay} a day (${ethanol.ukUnitsADay} UK units)`,
    },
  ];
}

/** What the course needs beside what there is. */
export function courseFacts({ supply }: Batch): Fact[] {
  const course = supply?.course;
  if (!course) return [];
  return [
    {
      label: 'the course needs',
      value: course.bottle ? sentence`${course.needs}: a bottle of ${course.bottle}` : course.needs,
    },
  ];
}

/** For scripts: what goes in beside the lines, the spirit and its making, yield and strength. */
export function productJson(p: Product): Record<string, unknown> {
  return {
    makes: p.makes,
    yields: p.yields,
    added: p.added.map(({ says, amount, also }) => ({ what: says, amount, ...(also ? { also } : {}) })),
    ...(p.spirit
      ? {
          spirit: {
            stock: p.spirit.poured[0]?.volume ?? null,
            water: p.spirit.poured[1]?.volume ?? null,
            masses: { stock: p.spirit.poured[0]?.mass ?? null, water: p.spirit.poured[1]?.mass ?? null },
            contraction: p.spirit.contraction,
          },
        }
      : {}),
    strength: p.strength,
  };
}
