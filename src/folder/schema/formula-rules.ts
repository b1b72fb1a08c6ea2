import { type Exact, exact, sum } from '../../measure/exact.ts';
import type { Dimension } from '../../measure/units.ts';
import { isStockForm, RAW } from '../forms.ts';
import type { Formula, Ingredient } from './formula.ts';
import type { Kind } from './preparations.ts';
import type { Readable, Told } from './rules.ts';

/** What must hold between the keys of a formula. */

type Read = Readable<Formula>;

const AMOUNTS = ['parts', 'percent', 'amount', 'make_up_to'] as const;

/** Kinds of which the lines are poured by volume. */
const POURED: readonly Kind[] = ['liquid-blend', 'drops'];
/** Kinds that may hold something that is not a herb. */
const WITH_VEHICLES: readonly Kind[] = [...POURED, 'ointment', 'powder', 'capsule'];
/** Kinds that are put together from what was drawn out before. */
const FROM_STOCK: readonly Kind[] = [...POURED, 'ointment'];

export function ingredientRules(i: Readable<Ingredient>, { has, wrong }: Told): void {
  const what = i.herb ?? i.vehicle ?? 'this herb';
  if (!has('herb') && !has('vehicle')) wrong([], 'which herb? write herb:, or vehicle: for what carries it');
  if (has('herb') && has('vehicle')) wrong(['vehicle'], `${what} is a herb or a vehicle: keep one`);
  const given = AMOUNTS.filter((k) => has(k));
  if (given.length === 0 && (has('herb') || has('vehicle')))
    wrong(
      [has('herb') ? 'herb' : 'vehicle'],
      `how much of ${what}? write parts, percent, amount or make_up_to`,
    );
  if (given.length > 1) wrong([given[1] ?? 'herb'], `${what} has ${given.join(' and ')}: keep one`);
  formRules(i, what, { has, wrong });
}

/** What was drawn out says how strong it is; the herb itself says nothing of the kind. */
function formRules(i: Readable<Ingredient>, what: string, { has, wrong }: Pick<Told, 'has' | 'wrong'>): void {
  if (has('vehicle')) {
    for (const key of ['form', 'ratio', 'spirit', 'glycerol', 'moisture', 'of_fresh'])
      if (has(key)) wrong([key], `${what} is a vehicle, which has no ${key}: leave it out`);
    return;
  }
  if (has('form') && i.form === undefined) return;
  if (i.form === 'essential-oil') {
    for (const key of ['ratio', 'spirit', 'glycerol', 'of_fresh', 'moisture'])
      if (has(key)) wrong([key], `the essential oil of ${what} is itself: leave ${key} out`);
    if (!has('density'))
      wrong(['form'], `how heavy is 1 mL of the essential oil of ${what}? add such as density: 0.91 g/mL`);
    return;
  }
  if (isStockForm(i.form)) {
    if (!has('ratio'))
      wrong(['form'], `how strong is the ${i.form} of ${what}? add its ratio, such as ratio: 1:5 w/v`);
    if ((i.form === 'tincture' || i.form === 'liquid-extract') && !has('spirit'))
      wrong(['form'], `what spirit is the ${i.form} of ${what} made with? add such as spirit: 45 % v/v`);
  } else {
    for (const key of ['ratio', 'spirit', 'glycerol', 'of_fresh'])
      if (has(key))
        wrong(
          [key],
          `${what} is weighed as the herb itself: for what was drawn out of it add form:, such as form: tincture`,
        );
  }
  if (i.of_fresh === true && !has('moisture'))
    wrong(['of_fresh'], `how much water did the fresh ${what} hold? add such as moisture: 78 %`);
  if (has('moisture') && i.form !== 'fresh' && i.of_fresh !== true)
    wrong(
      ['moisture'],
      `moisture is that of fresh herb: add form: fresh, or of_fresh: yes for what was made of fresh herb`,
    );
}

export function formulaRules(f: Read, told: Told): void {
  if (f.ingredients !== undefined) {
    noHerbTwice(f.ingredients, told);
    amountsFit(f, f.ingredients.length, told);
    formsFit(f, told);
    unitsFit(f, told);
  }
  potRules(f, told);
  stageRules(f, told);
  takeRules(f, told);
}

function noHerbTwice(ingredients: NonNullable<Read['ingredients']>, { wrong }: Told): void {
  const seen = new Map<string, number>();
  ingredients.forEach((ingredient, i) => {
    const what = ingredient?.herb ?? ingredient?.vehicle;
    if (what === undefined) return;
    const first = seen.get(what);
    if (first !== undefined)
      wrong(
        ['ingredients', i, ingredient?.herb === undefined ? 'vehicle' : 'herb'],
        `${what} is already ingredient ${first + 1}: put both amounts in one line`,
      );
    seen.set(what, first ?? i);
  });
}

/** Whether each ingredient is in a form that this kind of preparation is made from. */
function formsFit(f: Read, { has, wrong }: Told): void {
  const kind = f.preparation?.kind;
  if (kind === undefined) return;
  f.ingredients?.forEach((i, n) => {
    const what = i?.herb ?? i?.vehicle ?? 'this';
    const path = ['ingredients', n, i?.vehicle === undefined ? 'form' : 'vehicle'];
    if (i?.vehicle !== undefined && !WITH_VEHICLES.includes(kind))
      wrong(path, `${what} is no herb: what a ${kind} is made with stands under preparation`);
    if (i?.herb === undefined) return;
    if (isStockForm(i.form) && !FROM_STOCK.includes(kind))
      wrong(path, `a ${kind} is made from the herb itself (${RAW.join(', ')}), not from its ${i.form}`);
    if (POURED.includes(kind) && !isStockForm(i.form))
      wrong(
        i.form === undefined ? ['ingredients', n, 'herb'] : path,
        `${what} is poured here: say what it stands in, such as form: tincture, with its ratio and spirit`,
      );
    if (kind === 'fresh-tincture' && i.form !== 'fresh')
      wrong(
        ['ingredients', n, 'herb'],
        `a fresh-tincture is made from fresh herb: add form: fresh and its moisture`,
      );
    if (i.form === 'fresh' && !has('ingredients', n, 'moisture') && WET.includes(kind))
      wrong(path, `how much water does the fresh ${what} hold? add such as moisture: 78 %`);
  });
}

/** Kinds that the herb's own water thins. */
const WET: readonly Kind[] = ['tincture', 'fresh-tincture', 'percolation', 'glycerite', 'honey', 'oxymel'];

/** An amount in the measure that the lines are not in becomes one only with a density. */
function unitsFit(f: Read, { wrong }: Told): void {
  const kind = f.preparation?.kind;
  if (kind === undefined) return;
  const [own, other, how]: [Dimension, Dimension, string] = POURED.includes(kind)
    ? ['volume', 'mass', 'is weighed in a formula made by volume']
    : ['mass', 'volume', 'is measured by volume in a formula made by mass'];
  f.ingredients?.forEach((i, n) => {
    if (i?.amount?.unit.dimension === other && i.density === undefined)
      wrong(
        ['ingredients', n, 'amount'],
        `${i.herb ?? i.vehicle ?? 'this herb'} ${how}: add its density, such as density: 0.92 g/mL`,
      );
    if (i?.make_up_to && i.make_up_to.unit.dimension !== own)
      wrong(['ingredients', n, 'make_up_to'], `this formula is made by ${own}: write such as ${LIKE[own]}`);
  });
  if (f.makes && f.makes.unit.dimension !== own)
    wrong(['makes'], `this formula is made by ${own}: write such as ${LIKE[own]}`);
}

const LIKE: Partial<Record<Dimension, string>> = { mass: '100 g', volume: '100 mL' };

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
  if (inPot('strained') && inPot('make_up_to'))
    wrong(['preparation', 'strained'], 'give strained: or make_up_to:, not both');
  if (p?.kind === 'wash' && inPot('infuse') === inPot('boil'))
    wrong(['preparation', 'kind'], 'a wash is infused or boiled: write infuse: 15 min or boil: 20 min');
  if (p?.kind === 'syrup' && !inPot('strained') && !inPot('make_up_to'))
    wrong(
      ['preparation', 'sugar'],
      'the sugar is weighed for the strained liquid: measure it and add strained:, or make_up_to:',
    );
  if (p?.kind === 'fresh-tincture' && inPot('spirit') === inPot('target'))
    wrong(
      ['preparation', 'kind'],
      'write spirit: for the strength that is poured on, or target: for the strength to end at',
    );
  if (p?.kind === 'capsule' && inPot('holds') === inPot('density'))
    wrong(
      ['preparation', 'size'],
      'what does one capsule hold? fill some, weigh them and write holds: 350 mg, or give the density: of the powder',
    );
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

/** How a dose of each kind is measured, and what to write. */
const TAKEN: Readonly<Record<Kind, { readonly by: readonly Dimension[]; readonly says: string }>> = {
  infusion: { by: ['volume'], says: 'this is drunk by volume: write such as 150 mL, or 1/3 of the batch' },
  decoction: { by: ['volume'], says: 'this is drunk by volume: write such as 150 mL, or 1/3 of the batch' },
  'cold-maceration': {
    by: ['volume'],
    says: 'this is drunk by volume: write such as 150 mL, or 1/3 of the batch',
  },
  wash: { by: ['volume'], says: 'a wash is measured by volume: write such as 100 mL, or all of the pot' },
  powder: {
    by: ['mass'],
    says: 'a powder is taken by mass: write such as 2 g, or define a measure of this powder under measures:',
  },
  capsule: { by: ['count'], says: 'capsules are counted: write such as 2 capsules' },
  tincture: { by: ['volume'], says: 'a tincture is measured by volume: write such as 3 mL' },
  'fresh-tincture': { by: ['volume'], says: 'a tincture is measured by volume: write such as 3 mL' },
  percolation: { by: ['volume'], says: 'a tincture is measured by volume: write such as 3 mL' },
  glycerite: { by: ['volume'], says: 'a glycerite is measured by volume: write such as 5 mL' },
  'infused-oil': { by: ['volume'], says: 'an oil is measured by volume: write such as 5 mL, or apply:' },
  'liquid-blend': { by: ['volume'], says: 'a blend is measured by volume: write such as 5 mL' },
  drops: { by: ['drops', 'volume'], says: 'write such as 20 drops, or 1 mL' },
  syrup: { by: ['volume'], says: 'a syrup is measured by volume: write such as 10 mL' },
  honey: { by: ['mass', 'volume'], says: 'write such as 5 g, or 5 mL' },
  oxymel: { by: ['mass', 'volume'], says: 'write such as 10 mL' },
  ointment: { by: ['mass'], says: 'an ointment is weighed: write such as 2 g, or apply: thinly' },
  suppository: { by: ['count'], says: 'suppositories are counted: write such as 1 suppository' },
};

const POTS: readonly Kind[] = ['infusion', 'decoction', 'cold-maceration', 'wash'];

function takeRules(f: Read, { has, wrong }: Told): void {
  if (f.directions === undefined) return;
  const kind = f.preparation?.kind;
  const { take } = f.directions;
  const path = ['directions', 'take'];
  const [takes, applies] = [has('directions', 'take'), has('directions', 'apply')];
  if (takes && applies) wrong(['directions', 'apply'], 'give take: or apply:, not both');
  if (!takes && !applies)
    wrong(
      ['directions'],
      'how much at once? write take:, such as take: 150 mL, or apply: for what is put on the skin',
    );
  if (applies && (f.route ?? 'oral') === 'oral')
    wrong(
      ['directions', 'apply'],
      'apply is for the skin: add route: cutaneous, or write take: with an amount',
    );
  if (kind !== undefined && take?.kind === 'measured' && take.amount !== undefined) {
    const { by, says } = TAKEN[kind];
    const { dimension } = take.amount.unit;
    if (!by.includes(dimension) && dimension !== 'drops') wrong(path, says);
    const counted = { capsule: '{capsule}', suppository: '{suppository}' }[kind as string];
    if (counted !== undefined && take.amount.unit.dimension === 'count' && take.amount.unit.code !== counted)
      wrong(path, says);
    if (take.amount.unit.dimension === 'drops' && kind !== 'drops')
      wrong(path, 'a drop has no size of its own: make it a preparation of kind: drops, with drops_per_ml:');
  }
  if (kind !== undefined && take?.kind === 'share' && !POTS.includes(kind))
    wrong(path, `a share of the batch fits a pot of tea; ${TAKEN[kind].says}`);
  if (takes && !has('directions', 'times')) wrong(path, 'how many times a day? add times:, such as times: 3');
}
