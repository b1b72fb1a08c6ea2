import type { Preparation } from '../folder/schema/formula.ts';
import type { Exact } from '../measure/exact.ts';
import { given, isExact, isRange } from '../measure/figure.ts';
import type { SolventRatio } from '../measure/parse.ts';
import type { Quantity } from '../measure/quantity.ts';
import { type Line, sentenceOf, words } from './sheet.ts';

/** What a formula says of its preparation, set out for reading: one pot in a line, else a line for each thing stated. */
export function preparationFacts(p: Preparation): { label: string; value: Line }[] {
  return [...potFact(p), ...Object.entries(p).flatMap(([key, value]) => fact(key, value))];
}

function potFact(p: Preparation): { label: string; value: Line }[] {
  if (!('water' in p)) return [];
  const parts = [
    given(p.herb, 'herb in one pot'),
    'in',
    given(p.water, 'water in one pot'),
    ...(p.make_up_to ? [', made up to', given(p.make_up_to, 'made up to')] : []),
    ...(p.strained ? [', of which', given(p.strained, 'strained volume as measured'), 'strains off'] : []),
  ];
  return [{ label: 'one pot', value: sentenceOf(parts) }];
}

/** Words for what is stated; what is not here is said by the pot, or is no figure. */
const LABELS: Readonly<Record<string, string>> = {
  for: 'for',
  into: 'poured into',
  size: 'size',
  holds: 'one holds',
  density: 'density',
  ratio: 'ratio',
  spirit: 'spirit',
  target: 'to end at',
  from: 'made from',
  glycerol: 'glycerol',
  oil: 'oil',
  marc: 'marc',
  keeps: 'marc keeps',
  macerate: 'to macerate',
  moisten: 'to moisten',
  warm: 'kept warm',
  bottle: 'bottle',
  drops_per_ml: 'the dropper gives',
  by: 'made by',
  sugar: 'sugar',
  honey: 'honey',
  acid: 'acid in the vinegar',
  mould: 'mould',
  base: 'base',
  each: 'herb in each',
  displacement: 'displacement value',
  sieve: 'sieve',
};

function fact(key: string, value: unknown): { label: string; value: Line }[] {
  const label = LABELS[key];
  if (label === undefined || value === undefined) return [];
  if (typeof value === 'string') return [{ label, value: words(value) }];
  if (typeof value !== 'object' || value === null) return [];
  if ('solvent' in value) return [{ label, value: words((value as SolventRatio).text) }];
  const figure = value as Quantity | Exact;
  return isExact(figure) || !isRange(figure) ? [{ label, value: given(figure, label) }] : [];
}
