import { exact } from './exact.ts';
import type { Cited } from './figure.ts';
import { inUnit, type Quantity } from './quantity.ts';
import { bad, ok, type Result } from './result.ts';
import { type Dimension, drop, gram, gramPerMillilitre, millilitre, per } from './units.ts';
import { write } from './write.ts';

/**
 * What a unit alone cannot tell: the volume of a weight, and the volume of a drop. The first needs the density of
 * the liquid; the second the drops that one very dropper gives of one very liquid, held upright and counted. Water
 * gives 16 to 20 drops per mL, tinctures 35 to 40, so no count is offered here and none is ever assumed.
 */

const DROPS_PER_ML = per(drop, millilitre);

/** The quantity, or why it is not of this kind: never below 0, and 0 only where nothing is a sensible answer. */
function measured(
  q: Quantity,
  dimension: Dimension,
  what: string,
  like: string,
  mayBeNothing: boolean,
): Result<Quantity> {
  if (q.unit.dimension !== dimension) {
    return bad(`${q.unit.symbol} measures ${q.unit.dimension}: ${what} is written such as ${like}`);
  }
  if (q.value.gt(0) || (mayBeNothing && q.value.isZero())) return ok(q);
  return bad(`${what} must be above 0: write such as ${like}`);
}

const aMass = (q: Quantity): Result<Quantity> => measured(q, 'mass', 'a weight', '100 g', true);
const aVolume = (q: Quantity): Result<Quantity> => measured(q, 'volume', 'a volume', '100 mL', true);
const someDrops = (q: Quantity): Result<Quantity> =>
  measured(q, 'drops', 'a count of drops', '20 drops', true);

/** No liquid that a herbalist pours lies outside; a strength such as 30 mg/5 mL has the same dimension, and does. */
const DENSITIES = { least: exact('0.5'), most: exact(2) };

function aDensity(q: Quantity): Result<Quantity> {
  const d = measured(q, 'mass per volume', 'a density', '0.92 g/mL', false);
  if (!d.ok) return d;
  const inBase = inUnit(d.value, gramPerMillilitre).value;
  if (inBase.gte(DENSITIES.least) && inBase.lte(DENSITIES.most)) return d;
  return bad(`${write(q)} is not the density of a liquid: write the weight of 1 mL, such as 0.92 g/mL`);
}

const aCount = (q: Quantity): Result<Quantity> =>
  measured(q, 'drops per volume', 'what a dropper gives', '35 drops/mL', false);

/** Two checked quantities joined by a sum; the first that is wrong is what is said. */
function join(
  a: Result<Quantity>,
  b: Result<Quantity>,
  sum: (a: Quantity, b: Quantity) => Quantity,
): Result<Quantity> {
  if (!a.ok) return a;
  return b.ok ? ok(sum(a.value, b.value)) : b;
}

/** Volume in mL = g / (g/mL). Any unit of mass, any of mass per volume; both at the temperature of the density. */
export function massToVolume(mass: Quantity, density: Quantity): Result<Quantity> {
  return join(aMass(mass), aDensity(density), (m, d) => ({
    value: inUnit(m, gram).value.div(inUnit(d, gramPerMillilitre).value),
    unit: millilitre,
  }));
}

/** Weight in g = mL x g/mL. */
export function volumeToMass(volume: Quantity, density: Quantity): Result<Quantity> {
  return join(aVolume(volume), aDensity(density), (v, d) => ({
    value: inUnit(v, millilitre).value.times(inUnit(d, gramPerMillilitre).value),
    unit: gram,
  }));
}

/** Density in g/mL of what weighs `mass` and fills `volume`. */
export function densityOf(mass: Quantity, volume: Quantity): Result<Quantity> {
  if (volume.value.isZero()) return bad('a density needs a volume above 0: write such as 100 mL');
  return join(aMass(mass), aVolume(volume), (m, v) => ({
    value: inUnit(m, gram).value.div(inUnit(v, millilitre).value),
    unit: gramPerMillilitre,
  }));
}

/**
 * Volume in mL = drops / (drops per mL). The second figure is the count of that very liquid from that very dropper;
 * it carries its unit (`35 drops/mL`), so that drops per gram cannot pass for it.
 */
export function dropsToVolume(drops: Quantity, dropsPerMl: Quantity): Result<Quantity> {
  return join(someDrops(drops), aCount(dropsPerMl), (d, n) => ({
    value: inUnit(d, drop).value.div(inUnit(n, DROPS_PER_ML).value),
    unit: millilitre,
  }));
}

/** Drops = mL x drops per mL, unrounded: whole drops are the business of whoever gives the dose. */
export function volumeToDrops(volume: Quantity, dropsPerMl: Quantity): Result<Quantity> {
  return join(aVolume(volume), aCount(dropsPerMl), (v, n) => ({
    value: inUnit(v, millilitre).value.times(inUnit(n, DROPS_PER_ML).value),
    unit: drop,
  }));
}

/** Calibrates a dropper: so many drops filled so much. Kept unrounded, e.g. 35 drops in 2 mL are 17.5 drops/mL. */
export function dropsPerMlOf(drops: Quantity, volume: Quantity): Result<Quantity> {
  if (volume.value.isZero())
    return bad('the drops must fill a volume above 0: count until 1 mL or more is full');
  return join(someDrops(drops), aVolume(volume), (d, v) => ({
    value: inUnit(d, drop).value.div(inUnit(v, millilitre).value),
    unit: DROPS_PER_ML,
  }));
}

/** A liquid whose density a source states. */
export interface Liquid {
  readonly name: string;
  readonly density: Quantity;
  /** The temperature that the density holds at; null where the source names none. */
  readonly celsius: number | null;
  /** True where the source itself gives only a round figure. */
  readonly about?: boolean;
  readonly source: Cited;
}

const gramPerMl = (figure: string): Quantity => ({ value: exact(figure), unit: gramPerMillilitre });
const kgPerM3 = (figure: string): Quantity => ({ value: exact(figure).div(1000), unit: gramPerMillilitre });

const R22: Cited = {
  key: 'oiml-r22',
  body: 'International Organization of Legal Metrology',
  title: 'International Alcoholometric Tables',
  ref: 'OIML R 22',
  year: '1975',
  reading: 'restated',
};
const GLYCEROL: Cited = {
  key: 'glycerol-2018',
  body: 'Experiments in Fluids',
  title: 'Density model for aqueous glycerol solutions',
  ref: 'Experiments in Fluids 59:75, doi 10.1007/s00348-018-2527-y',
  year: '2018',
  reading: 'computed',
};
const SUCROSE: Cited = {
  key: 'sucrose-density',
  body: 'ICUMSA (the attribution is from memory)',
  title: 'Polynomial for the density of sucrose solutions',
  reading: 'computed',
};
const HONEY: Cited = {
  key: 'bpc-1911-mel',
  body: 'British Pharmaceutical Codex',
  title: 'Honey and clarified honey',
  ref: 'BPC 1911, Mel',
  year: '1911',
  reading: 'restated',
};
const OXYMEL: Cited = {
  key: 'bp-1898-oxymel',
  body: 'British Pharmacopoeia',
  title: 'Oxymel',
  ref: 'BP 1898',
  year: '1898',
  reading: 'restated',
};

/**
 * Liquids with a stated density. Of honey and oxymel the sources give a relative density and no temperature; it is
 * carried as g/mL, which by water at 20 C (0.9982 g/mL) is 0.2 % too high. A mixture of spirit and water has a
 * density of its own at each strength and is not in this table.
 */
// biome-ignore format: a table
export const LIQUIDS: readonly Liquid[] = [
  { name: 'water', density: kgPerM3('998.20'), celsius: 20, source: R22 },
  { name: 'ethanol', density: kgPerM3('789.24'), celsius: 20, source: R22 },
  { name: 'glycerol', density: kgPerM3('1261.1'), celsius: 20, source: GLYCEROL },
  { name: 'glycerol 85 % m/m', density: kgPerM3('1221.7'), celsius: 20, source: GLYCEROL },
  { name: 'sucrose syrup 65 % m/m', density: kgPerM3('1316.6'), celsius: 20, source: SUCROSE },
  { name: 'sucrose syrup 66.7 % m/m', density: kgPerM3('1327.0'), celsius: 20, source: SUCROSE },
  { name: 'honey', density: gramPerMl('1.4'), celsius: null, about: true, source: HONEY },
  { name: 'oxymel', density: gramPerMl('1.320'), celsius: null, source: OXYMEL },
];

/** The liquid of this name, or undefined; letter case does not matter. */
export function liquidNamed(name: string): Liquid | undefined {
  const wanted = name.trim().toLowerCase();
  return LIQUIDS.find((l) => l.name === wanted);
}
