import { type Exact, exact, sum } from '../../measure/exact.ts';
import type { Formula, Ingredient } from './formula.ts';
import type { Readable, Told } from './rules.ts';

/** What must hold between the keys of a formula. */

type Read = Readable<Formula>;

const AMOUNTS = ['parts', 'percent', 'amount', 'make_up_to'] as const;

export function ingredientRules(i: Readable<Ingredient>, { has, wrong }: Told): void {
  const herb = i.herb ?? 'this herb';
  const given = AMOUNTS.filter((k) => has(k));
  if (given.length === 0 && has('herb'))
    wrong(['herb'], `how much of ${herb}? write parts, percent, amount or make_up_to`);
  if (given.length > 1) wrong([given[1] ?? 'herb'], `${herb} has ${given.join(' and ')}: keep one`);
  if (i.amount?.unit.dimension === 'volume' && !has('density'))
    wrong(
      ['amount'],
      `${herb} is measured by volume in a formula made by mass: add its density, such as density: 0.92 g/mL`,
    );
}

export function formulaRules(f: Read, told: Told): void {
  if (f.ingredients !== undefined) {
    noHerbTwice(f.ingredients, told);
    amountsFit(f, f.ingredients.length, told);
  }
  potRules(f, told);
  stageRules(f, told);
  takeRules(f, told);
}

function noHerbTwice(ingredients: NonNullable<Read['ingredients']>, { wrong }: Told): void {
  const seen = new Map<string, number>();
  ingredients.forEach((ingredient, i) => {
    const herb = ingredient?.herb;
    if (herb === undefined) return;
    const first = seen.get(herb);
    if (first !== undefined)
      wrong(
        ['ingredients', i, 'herb'],
        `${herb} is already ingredient ${first + 1}: put both amounts in one line`,
      );
    seen.set(herb, first ?? i);
  });
}

/** Whether parts, percents and amounts can share one batch between them. */
function amountsFit(f: Read, count: number, { has, wrong }: Told): void {
  const withKey = (key: (typeof AMOUNTS)[number]): number[] =>
    Array.from({ length: count }, (_, i) => i).filter((i) => has('ingredients', i, key));
  const [parts, percents, amounts, rest] = AMOUNTS.map(withKey) as [number[], number[], number[], number[]];
  const [firstRest] = rest;
  const [firstAmount] = amounts;
  if (rest.length > 1)
    wrong(
      ['ingredients', rest[rest.length - 1] ?? 0, 'make_up_to'],
      'only one ingredient can make up to the total: keep one make_up_to',
    );
  if (firstRest !== undefined && parts.length > 0)
    wrong(
      ['ingredients', firstRest, 'make_up_to'],
      'parts already share out all that is left, so nothing is left to make up: use one or the other',
    );
  if (firstAmount !== undefined && amounts.length < count && rest.length === 0 && !has('makes'))
    wrong(
      ['ingredients', firstAmount, 'amount'],
      'an amount beside parts or percents belongs to a batch of a size: add makes:, such as makes: 100 g',
    );
  const read = percents.map((i) => f.ingredients?.[i]?.percent).filter((p): p is Exact => p !== undefined);
  const total = sum(read);
  const shown = total.toSignificantDigits(10).toFixed();
  if (total.minus(100).gt(SLACK))
    wrong(['ingredients'], `the percents add up to ${shown} %, more than 100 %`);
  else if (
    parts.length + amounts.length + rest.length === 0 &&
    read.length === count &&
    total.minus(100).lt(SLACK.neg())
  )
    wrong(
      ['ingredients'],
      `the percents add up to ${shown} %, not 100 %: let one ingredient take the rest with parts: 1`,
    );
}

/** Three times 33 1/3 is 100, though a third does not end. */
const SLACK = exact('1e-40');

function potRules({ preparation: p }: Read, { has, wrong }: Told): void {
  const inPot = (key: string): boolean => has('preparation', key);
  if (p?.kind === 'decoction' && !inPot('stages') && !inPot('boil'))
    wrong(['preparation', 'kind'], 'a decoction needs boil:, such as boil: 20 min, or stages:');
  if (p !== undefined && p.kind !== 'powder' && inPot('strained') && inPot('make_up_to'))
    wrong(['preparation', 'strained'], 'give strained: or make_up_to:, not both');
}

function stageRules(f: Read, { wrong }: Told): void {
  const p = f.preparation;
  if (p?.kind !== 'decoction' || p.stages === undefined || f.ingredients === undefined) return;
  const herbs = f.ingredients.map((i) => i?.herb);
  const allRead = !herbs.includes(undefined);
  const placed = new Set<string>();
  p.stages.forEach((stage, s) => {
    stage?.herbs?.forEach((herb, h) => {
      if (herb === undefined) return;
      const path = ['preparation', 'stages', s, 'herbs', h];
      if (allRead && !herbs.includes(herb))
        wrong(path, `"${herb}" is not among the ingredients`, {
          word: herb,
          nearTo: herbs.filter((x) => x !== undefined),
        });
      else if (placed.has(herb)) wrong(path, `"${herb}" is already in a stage: keep one`);
      placed.add(herb);
    });
  });
  if (p.stages.some((s) => s?.herbs === undefined || s.herbs.includes(undefined))) return;
  for (const herb of new Set(herbs))
    if (herb !== undefined && !placed.has(herb))
      wrong(['preparation', 'stages'], `${herb} is in no stage: add it to the herbs of one`);
}

function takeRules(f: Read, { has, wrong }: Told): void {
  const kind = f.preparation?.kind;
  const take = f.directions?.take;
  const path = ['directions', 'take'];
  if (kind !== undefined && take?.kind === 'measured') {
    const dimension = take.amount?.unit.dimension;
    if (kind === 'powder' && dimension !== 'mass')
      wrong(
        path,
        'a powder is taken by mass: write such as 2 g, or define a measure of this powder under measures:',
      );
    if (kind !== 'powder' && dimension !== 'volume')
      wrong(path, 'this is drunk by volume: write such as 150 mL, or 1/3 of the batch');
  }
  if (kind === 'powder' && take?.kind === 'share')
    wrong(path, 'a share of the batch fits a pot of tea; a powder is taken by mass: write such as 2 g');
  if (f.directions !== undefined && !has('directions', 'times'))
    wrong(path, 'how many times a day? add times:, such as times: 3');
}
