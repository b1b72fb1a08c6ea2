import { type Exact, exact } from './exact.ts';

/** What a unit measures. Two quantities convert into each other only within one dimension. */
export type Dimension =
  | 'mass'
  | 'volume'
  | 'time'
  | 'length'
  | 'area'
  | 'count'
  | 'drops'
  | 'energy'
  | 'share m/m'
  | 'share v/v'
  | 'share w/v'
  | 'share v/m'
  | 'share'
  | `${string} per ${string}`;

/**
 * A unit as the field defines it.
 * `code` is the UCUM code (printed in JSON), `symbol` is what people read, `size` is how many base units one of
 * it holds, as an exact fraction. Base units: gram, millilitre, minute, millimetre, square millimetre, one,
 * one in a hundred.
 */
export interface Unit {
  readonly code: string;
  readonly symbol: string;
  readonly plural?: string;
  readonly dimension: Dimension;
  readonly size: readonly [Exact, Exact];
  readonly names: readonly string[];
  /** Where the size comes from. */
  readonly from: string;
  /** True where the size is a custom and no law or standard fixes it. */
  readonly nominal?: boolean;
}

const SI = 'SI';
const UK_ACT = 'Weights and Measures Act 1985 (UK), Schedule 1';
const UK_1879 =
  "Order in Council of 14 August 1879 (apothecaries' weights and measures); NIST Handbook 44, Appendix C";
const SP811 = 'NIST Special Publication 811 (2008), B.8';
const OF_US_FL_OZ = `a fraction of the US fluid ounce of ${SP811}`;
const USP_1221 = 'USP 29-NF 24, general chapter 1221 (teaspoon); 21 CFR 101.9(b)(5)(viii)';

function unit(
  dimension: Dimension,
  code: string,
  symbol: string,
  size: string | readonly [string, string],
  from: string,
  names: readonly string[],
  more: { plural?: string; nominal?: boolean } = {},
): Unit {
  const [over, under] = typeof size === 'string' ? [size, '1'] : size;
  let made: readonly [Exact, Exact] | undefined;
  return {
    dimension,
    code,
    symbol,
    from,
    names,
    ...more,
    // Most units of the table are never used in a run: a size becomes an exact number with its first use.
    get size() {
      made ??= [exact(over), exact(under)];
      return made;
    },
  };
}

/** Every unit that the program knows. The order is the order of suggestion. */
// biome-ignore format: a table
export const UNITS: readonly Unit[] = [
  unit('mass', 'g', 'g', '1', SI, ['g', 'gram', 'grams', 'gramme', 'grammes', 'gm']),
  unit('mass', 'mg', 'mg', '0.001', SI, ['mg', 'milligram', 'milligrams']),
  unit('mass', 'ug', 'microgram', '0.000001', SI, ['microgram', 'micrograms', 'mcg', 'ug', '\u00b5g', '\u03bcg'], {
    plural: 'micrograms',
  }),
  unit('mass', 'kg', 'kg', '1000', SI, ['kg', 'kilogram', 'kilograms', 'kilo', 'kilos']),
  unit('mass', '[oz_av]', 'oz av', '28.349523125', UK_ACT, ['oz av', 'av oz', 'avoirdupois ounce', 'ounce avoirdupois', 'avoirdupois ounces', 'ounces avoirdupois']),
  unit('mass', '[lb_av]', 'lb', '453.59237', UK_ACT, ['lb', 'lbs', 'lb av', 'pound avoirdupois', 'avoirdupois pound', 'pounds avoirdupois', 'avoirdupois pounds']),
  unit('mass', '[dr_av]', 'dram av', '1.7718451953125', UK_ACT, ['dram av', 'av dram', 'avoirdupois dram', 'drams avoirdupois']),
  unit('mass', '[gr]', 'grain', '0.06479891', UK_1879, ['grain', 'grains'], { plural: 'grains' }),
  unit('mass', '[sc_ap]', 'scruple', '1.2959782', UK_1879, ['scruple', 'scruples'], { plural: 'scruples' }),
  unit('mass', '[dr_ap]', 'drachm ap', '3.8879346', UK_1879, ['drachm ap', 'ap drachm', 'apothecaries drachm', "apothecaries' drachm", 'dram ap', 'ap dram', 'apothecaries dram']),
  unit('mass', '[oz_ap]', 'oz ap', '31.1034768', UK_ACT, ['oz ap', 'ap oz', 'apothecaries ounce', "apothecaries' ounce", 'apothecaries ounces', 'oz troy', 'troy oz', 'troy ounce', 'troy ounces']),
  unit('mass', '[lb_ap]', 'lb ap', '373.2417216', SP811, ['lb ap', 'ap lb', 'apothecaries pound', "apothecaries' pound", 'troy pound']),
  unit('mass', '[pwt_tr]', 'pennyweight', '1.55517384', SP811, ['pennyweight', 'pennyweights', 'dwt'], { plural: 'pennyweights' }),

  unit('volume', 'mL', 'mL', '1', SI, ['mL', 'ml', 'millilitre', 'millilitres', 'milliliter', 'milliliters']),
  unit('volume', 'L', 'L', '1000', SI, ['L', 'l', 'litre', 'litres', 'liter', 'liters']),
  unit('volume', 'dL', 'dL', '100', SI, ['dL', 'dl', 'decilitre', 'deciliter']),
  unit('volume', 'cL', 'cL', '10', SI, ['cL', 'cl', 'centilitre', 'centiliter']),
  unit('volume', 'uL', 'microlitre', '0.001', SI, ['microlitre', 'microlitres', 'microliter', 'microliters', 'uL', '\u00b5L', '\u03bcL'], { plural: 'microlitres' }),
  unit('volume', '[gal_br]', 'imp gal', '4546.09', UK_ACT, ['imp gal', 'imp gallon', 'imperial gallon', 'imperial gallons', 'UK gallon', 'UK gal']),
  unit('volume', '[qt_br]', 'imp qt', '1136.5225', UK_1879, ['imp qt', 'imp quart', 'imperial quart', 'imperial quarts', 'UK quart', 'UK qt']),
  unit('volume', '[pt_br]', 'imp pint', '568.26125', UK_1879, ['imp pint', 'imp pints', 'imp pt', 'imperial pint', 'imperial pints', 'UK pint', 'UK pints', 'UK pt'], { plural: 'imp pints' }),
  unit('volume', '[gil_br]', 'imp gill', '142.0653125', UK_1879, ['imp gill', 'imperial gill', 'UK gill', 'imperial gills', 'imp gills'], { plural: 'imp gills' }),
  unit('volume', '[foz_br]', 'imp fl oz', '28.4130625', UK_1879, ['imp fl oz', 'imp fluid ounce', 'imperial fluid ounce', 'imperial fluid ounces', 'UK fluid ounce', 'UK fl oz']),
  unit('volume', '[fdr_br]', 'imp fluid drachm', '3.5516328125', UK_1879, ['imp fluid drachm', 'imp fl dr', 'imperial fluid drachm', 'UK fluid drachm', 'imperial fluid drachms', 'imp fluid drachms'], { plural: 'imp fluid drachms' }),
  unit('volume', '{fl_sc_br}', 'imp fluid scruple', ['454609', '384000'], UK_1879, ['imp fluid scruple', 'imperial fluid scruple', 'UK fluid scruple', 'fluid scruple', 'fluid scruples', 'imp fluid scruples'], { plural: 'imp fluid scruples' }),
  unit('volume', '[min_br]', 'imp minim', ['454609', '7680000'], UK_1879, ['imp minim', 'imp minims', 'imperial minim', 'imperial minims', 'UK minim', 'UK minims'], { plural: 'imp minims' }),
  unit('volume', '[gal_us]', 'US gal', '3785.411784', SP811, ['US gal', 'US gallon', 'US gallons']),
  unit('volume', '[qt_us]', 'US qt', '946.352946', SP811, ['US qt', 'US quart', 'US quarts', 'US liquid quart']),
  unit('volume', '[pt_us]', 'US pint', '473.176473', SP811, ['US pint', 'US pints', 'US pt', 'US liquid pint'], { plural: 'US pints' }),
  unit('volume', '[cup_us]', 'US cup', '236.5882365', SP811, ['US cup', 'US cups'], { plural: 'US cups' }),
  unit('volume', '[gil_us]', 'US gill', '118.29411825', SP811, ['US gill', 'US gills'], { plural: 'US gills' }),
  unit('volume', '[foz_us]', 'US fl oz', '29.5735295625', SP811, ['US fl oz', 'US fluid ounce', 'US fluid ounces']),
  unit('volume', '[tbs_us]', 'US tbsp', '14.78676478125', SP811, ['US tbsp', 'US tablespoon', 'US tablespoons']),
  unit('volume', '[tsp_us]', 'US tsp', '4.92892159375', SP811, ['US tsp', 'US teaspoon', 'US teaspoons']),
  unit('volume', '[fdr_us]', 'US fluid dram', '3.6966911953125', OF_US_FL_OZ, ['US fluid dram', 'US fluid drams', 'US fl dr'], { plural: 'US fluid drams' }),
  unit('volume', '[min_us]', 'US minim', '0.061611519921875', OF_US_FL_OZ, ['US minim', 'US minims'], { plural: 'US minims' }),
  unit('volume', '[tsp_m]', 'tsp', '5', USP_1221, ['tsp', 'teaspoon', 'teaspoons', 'teaspoonful', 'teaspoonfuls', 'medicine spoon', 'medicine spoons', '5 mL spoon', 'metric teaspoon']),
  unit('volume', '{dessertspoon}', 'dessertspoon', '10', 'NAVEDTRA 14295, table 6-3; not a standard measure', ['dessertspoon', 'dessertspoons', 'dessertspoonful'], { plural: 'dessertspoons', nominal: true }),
  unit('volume', '[tbs_m]', 'tbsp', '15', USP_1221, ['tbsp', 'tablespoon', 'tablespoons', 'tablespoonful', 'tablespoonfuls', 'metric tablespoon']),
  unit('volume', '{metric_cup}', 'metric cup', '250', 'proposed by the US standards bureau in 1975', ['metric cup', 'metric cups'], { plural: 'metric cups' }),
  unit('volume', '[cup_m]', 'label cup', '240', '21 CFR 101.9(b)(5)(viii), nutrition labelling', ['label cup', 'label cups'], { plural: 'label cups' }),
  unit('volume', '[foz_m]', 'label fl oz', '30', '21 CFR 101.9(b)(5)(viii), nutrition labelling', ['label fl oz', 'label fluid ounce']),
  unit('mass', '[oz_m]', 'label oz', '28', '21 CFR 101.9(b)(5)(viii), nutrition labelling', ['label oz', 'label ounce']),
  unit('volume', '{wineglass}', 'wineglass', '60', 'NAVEDTRA 14295, table 6-3; not a standard measure', ['wineglass', 'wineglassful', 'wineglasses'], { plural: 'wineglasses', nominal: true }),
  unit('volume', '{teacup}', 'teacup', '120', 'NAVEDTRA 14295, table 6-3; not a standard measure', ['teacup', 'teacupful', 'teacups'], { plural: 'teacups', nominal: true }),
  unit('volume', '{tumbler}', 'tumbler', '240', 'NAVEDTRA 14295, table 6-3; not a standard measure', ['tumbler', 'tumblerful', 'tumblers'], { plural: 'tumblers', nominal: true }),

  unit('drops', '[drp]', 'drop', '1', 'a count: its size depends on the liquid and the dropper', ['drop', 'drops', 'gtt'], { plural: 'drops' }),

  unit('time', 'min', 'min', '1', SI, ['min', 'minute', 'minutes', 'mins']),
  unit('time', 'h', 'h', '60', SI, ['h', 'hour', 'hours', 'hr', 'hrs']),
  unit('time', 'd', 'day', '1440', SI, ['day', 'days', 'd'], { plural: 'days' }),
  unit('time', 'wk', 'week', '10080', SI, ['week', 'weeks', 'wk'], { plural: 'weeks' }),
  // UCUM: a month is a twelfth of a mean Julian year of 365.25 days. Ages never use this; they count the calendar.
  unit('time', 'mo', 'month', '43830', 'UCUM (mean Julian month)', ['month', 'months', 'mo'], { plural: 'months' }),
  unit('time', 'a', 'year', '525960', 'UCUM (mean Julian year)', ['year', 'years', 'yr', 'yrs'], { plural: 'years' }),

  unit('length', 'mm', 'mm', '1', SI, ['mm', 'millimetre', 'millimetres', 'millimeter']),
  unit('length', 'cm', 'cm', '10', SI, ['cm', 'centimetre', 'centimetres', 'centimeter']),
  unit('length', 'm', 'm', '1000', SI, ['m', 'metre', 'metres', 'meter', 'meters']),
  unit('length', '[in_i]', 'in', '25.4', SP811, ['in', 'inch', 'inches']),

  unit('area', 'm2', 'm2', '1000000', SI, ['m2', 'm\u00b2', 'square metre', 'square metres', 'square meter']),

  unit('count', '{dose}', 'dose', '1', 'a count', ['dose', 'doses'], { plural: 'doses' }),
  unit('count', '{capsule}', 'capsule', '1', 'a count', ['capsule', 'capsules'], { plural: 'capsules' }),
  unit('count', '{suppository}', 'suppository', '1', 'a count', ['suppository', 'suppositories'], { plural: 'suppositories' }),
  unit('count', '{tablet}', 'tablet', '1', 'a count', ['tablet', 'tablets'], { plural: 'tablets' }),
  unit('count', '{pot}', 'pot', '1', 'a count', ['pot', 'pots'], { plural: 'pots' }),
  unit('count', '{cup}', 'cup', '1', 'a count of cups whose size the source does not give', [], { plural: 'cups' }),
  unit('count', '1', 'time', '1', 'a count', ['time', 'times'], { plural: 'times' }),

  unit('share m/m', '%{m/m}', '% m/m', '1', 'mass in mass', ['% m/m', '% w/w']),
  unit('share v/v', '%{v/v}', '% v/v', '1', 'volume in volume', ['% v/v', '% vol', '% abv']),
  unit('share w/v', '%{w/v}', '% w/v', '1', 'g in 100 mL', ['% w/v', '% m/v']),
  unit('share v/m', '%{v/m}', '% v/m', '1', 'mL in 100 g', ['% v/m', '% v/w']),
  unit('share', '%', '%', '1', 'one in a hundred', ['%', 'percent', 'per cent']),
];

/** The form in which names are looked up: case, spacing and a full stop at the end do not matter. */
export const unitKey = (name: string): string =>
  name.trim().replace(/\s+/g, ' ').replace(/\.$/, '').toLowerCase();

/** Names that differ only by case stay apart (`L`, `l` are one unit; `T` and `t` are not units at all). */
const BY_NAME = new Map<string, Unit>();
const BY_CODE = new Map<string, Unit>();
for (const u of UNITS) {
  BY_CODE.set(u.code, u);
  for (const name of u.names) BY_NAME.set(unitKey(name), u);
}

/** Kept by the units themselves, not by their codes: two practices may each have a {dropper} of its own size. */
const perCache = new WeakMap<Unit, WeakMap<Unit, Map<string, Unit>>>();

/**
 * The unit `top` per `amount` of `bottom`, for contents (mL/kg), strengths (mg/5 mL), densities (g/mL) and doses
 * (mg/kg). `bottom` is a simple unit: mg/kg/day is `per(per(mg, kg), day)`. The amount must be above 0.
 */
export function per(top: Unit, bottom: Unit, amount: Exact = exact(1)): Unit {
  if (!amount.gt(0)) throw new RangeError(`${top.symbol} per ${amount.toFixed()} ${bottom.symbol}`);
  const below = perCache.get(top) ?? new WeakMap<Unit, Map<string, Unit>>();
  perCache.set(top, below);
  const made = below.get(bottom) ?? new Map<string, Unit>();
  below.set(bottom, made);
  const known = made.get(amount.toFixed());
  if (known) return known;
  const plain = amount.eq(1);
  const under = plain ? bottom.symbol : `${amount.toFixed()} ${bottom.symbol}`;
  const unit: Unit = {
    dimension: `${top.dimension} per ${bottom.dimension}`,
    code: plain ? `${top.code}/${bottom.code}` : `${top.code}/(${amount.toFixed()}.${bottom.code})`,
    symbol: `${top.symbol}/${under}`,
    ...(top.plural === undefined ? {} : { plural: `${top.plural}/${under}` }),
    size: [top.size[0].times(bottom.size[1]), top.size[1].times(bottom.size[0]).times(amount)],
    names: [],
    from: `${top.from}; ${bottom.from}`,
  };
  made.set(amount.toFixed(), unit);
  return unit;
}

/** The unit with this UCUM code, or undefined. Compound codes (`mg/mL`, `g/(100.mL)`, `mg/kg/d`) are read too. */
export function unitByCode(code: string): Unit | undefined {
  const simple = BY_CODE.get(code);
  if (simple) return simple;
  // UCUM reads division from left to right, so the last divisor is cut off first.
  const cut = /^(.+)\/(?:\(([1-9]\d*)\.([^/]+)\)|([^/]+))$/.exec(code);
  if (!cut) return undefined;
  const [, over = '', amount = '1', counted, single = ''] = cut;
  const top = unitByCode(over);
  const bottom = BY_CODE.get(counted ?? single);
  return top && bottom ? per(top, bottom, exact(amount)) : undefined;
}

/** The unit with this name or UCUM code; letter case matters only for codes. */
export function unitByName(name: string): Unit | undefined {
  return BY_CODE.get(name) ?? BY_NAME.get(unitKey(name));
}

/** Every accepted name, for suggestions. */
export function unitNames(): string[] {
  return [...BY_NAME.keys()];
}

export function mustUnit(code: string): Unit {
  const found = unitByCode(code);
  if (!found) throw new Error(`no unit has the code ${code}`);
  return found;
}

export const gram = mustUnit('g');
export const milligram = mustUnit('mg');
export const kilogram = mustUnit('kg');
export const millilitre = mustUnit('mL');
export const minute = mustUnit('min');
export const day = mustUnit('d');
export const dose = mustUnit('{dose}');
export const percent = mustUnit('%');
export const drop = mustUnit('[drp]');
export const gramPerMillilitre = per(gram, millilitre);

/** Words that name several units. The person must say which; a practice may settle it once in practice.yaml. */
export interface Ambiguous {
  readonly word: string;
  readonly names: readonly string[];
  readonly could: readonly Unit[];
  readonly note?: string;
}

const both = (...codes: string[]): Unit[] => codes.map(mustUnit);

// biome-ignore format: a table
export const AMBIGUOUS: readonly Ambiguous[] = [
  { word: 'pint', names: ['pint', 'pints', 'pt', 'pts'], could: both('[pt_br]', '[pt_us]') },
  { word: 'ounce', names: ['ounce', 'ounces', 'oz', 'ozs'], could: both('[oz_av]', '[oz_ap]', '[foz_br]', '[foz_us]') },
  { word: 'fluid ounce', names: ['fluid ounce', 'fluid ounces', 'fl oz', 'floz', 'fl. oz', 'fl. oz.'], could: both('[foz_br]', '[foz_us]') },
  { word: 'gallon', names: ['gallon', 'gallons', 'gal'], could: both('[gal_br]', '[gal_us]') },
  { word: 'quart', names: ['quart', 'quarts', 'qt'], could: both('[qt_br]', '[qt_us]') },
  { word: 'gill', names: ['gill', 'gills'], could: both('[gil_br]', '[gil_us]') },
  { word: 'cup', names: ['cup', 'cups', 'cupful', 'cupfuls'], could: both('[cup_us]', '{metric_cup}', '[cup_m]', '{teacup}') },
  { word: 'pound', names: ['pound', 'pounds'], could: both('[lb_av]', '[lb_ap]') },
  { word: 'minim', names: ['minim', 'minims'], could: both('[min_br]', '[min_us]') },
  { word: 'fluid drachm', names: ['fluid drachm', 'fluid drachms', 'fluid dram', 'fluid drams', 'fl dr', 'fluidrachm', 'fldr'], could: both('[fdr_br]', '[fdr_us]') },
  { word: 'drachm', names: ['drachm', 'drachms', 'dram', 'drams', 'dr'], could: both('[dr_ap]', '[dr_av]', '[fdr_br]', '[fdr_us]') },
];

const AMBIGUOUS_BY_NAME = new Map(AMBIGUOUS.flatMap((a) => a.names.map((n) => [unitKey(n), a] as const)));

export function ambiguousWord(name: string): Ambiguous | undefined {
  return AMBIGUOUS_BY_NAME.get(unitKey(name));
}
