import { type Exact, exact } from './exact.ts';
import { nearest } from './nearest.ts';
import {
  IN_EXPONENT_FORM,
  type NumberRange,
  notAsItLooks,
  parseNumber,
  parseNumberRange,
  plain,
  runsDownward,
  startsInExponentForm,
} from './number.ts';
import { comparable, compareQuantities, inUnit, type Quantity, type Range } from './quantity.ts';
import { refusedUnit } from './refused.ts';
import { bad, ok, type Result } from './result.ts';
import { ambiguousWord, type Dimension, per, type Unit, unitByCode, unitByName, unitNames } from './units.ts';

export { type NumberRange, parseNumber, parseNumberRange } from './number.ts';

/** The one parser of quantities: everything a person writes as a number with a unit goes through this file. */

/** What a practice has settled: which pint it means, and its own measures (a dropper, a level teaspoon of a blend). */
export interface Measures {
  /** Ambiguous word to the unit it means here, e.g. `pint` to the imperial pint. */
  readonly settled: ReadonlyMap<string, Unit>;
  /** The practice's own measures by name. */
  readonly own: ReadonlyMap<string, Unit>;
}

export const NO_MEASURES: Measures = { settled: new Map(), own: new Map() };

/** Signs of the old prescriptions, which stood before the figure. */
const OLD_SIGN = /[\u0292\u01b7\u2125\u2108\u2114\u2112\u2133]/;

/** The number at the head of a text and what follows it. */
function headNumber(text: string, like: string): Result<{ value: Exact; rest: string }> {
  if (text === '') return bad(`nothing is written: write a figure and its unit, such as 3 ${like}`);
  const sign = OLD_SIGN.exec(text)?.[0];
  if (sign !== undefined) return bad(refusedUnit(sign) ?? sign);
  if (startsInExponentForm(text)) return bad(`"${text}" ${IN_EXPONENT_FORM}`);
  const head = /^(?:\d+ \d+\/\d+|\d+\/\d+|[-+.,\d]+)/.exec(text)?.[0];
  if (head === undefined) {
    const word = text.split(' ')[0] ?? '';
    if (/^(nan|inf|infinity|\u221e)$/i.test(word))
      return bad(`"${word}" is not a number: write a figure, such as 3 ${like}`);
    if (OPEN.test(text)) return bad(`"${text}" is a limit: write one figure here`);
    if (LIMIT.test(text))
      return bad(`"${text}" is a limit in other words: write such as up to 3 ${like} or at least 3 ${like}`);
    return bad(`"${text}" does not start with a figure: write the figure, then the unit, such as 3 ${like}`);
  }
  const n = parseNumber(head);
  return n.ok ? ok({ value: n.value, rest: text.slice(head.length).trim() }) : n;
}

/**
 * Reads the name of a unit, its UCUM code, or a compound such as `mg/kg`, `g/100 mL`, `mL per kg`, `mg/kg/day`.
 * Words that several units share are an error unless the practice has settled them.
 */
export function parseUnit(text: string, measures: Measures = NO_MEASURES): Result<Unit> {
  const odd = notAsItLooks(text);
  if (odd !== undefined) return bad(odd);
  const name = plain(text);
  if (name === '') return bad('a unit is missing: write such as g or mL');
  const refused = refusedUnit(name);
  if (refused !== undefined) return bad(refused);
  const own = ownUnit(name, measures);
  if (own) return own;
  const unclear = ambiguousWord(name);
  if (unclear) {
    const settled = measures.settled.get(unclear.word);
    if (settled) return ok(settled);
    const could = unclear.could.map((u) => `${u.symbol} (${sizeInWords(u)})`).join(' or ');
    return bad(`"${name}" could be ${could}: write which, or set it once in practice.yaml`);
  }
  if (/^[\d./ ]+$/.test(name)) return bad(`"${name}" is a figure, not a unit: write such as g or mL`);
  const known = unitByName(name) ?? unitByCode(name);
  if (known) return ok(known);
  // The last divisor is cut off first: mg/kg/day is (mg/kg)/day, and never mg/(kg/day).
  const cut = /^([^\d%].*)(?:\/| per | in )(?:(\d+) ?)?(.+?)$/.exec(name);
  if (cut) {
    const top = parseUnit(cut[1] ?? '', measures);
    if (!top.ok) return top;
    const bottom = parseUnit(cut[3] ?? '', measures);
    if (!bottom.ok) return bottom;
    const amount = exact(cut[2] ?? 1);
    if (amount.isZero()) return bad(`"${name}" divides by nothing: write such as mg/mL or mg/5 mL`);
    return ok(per(top.value, bottom.value, amount));
  }
  const near = nearest(name.toLowerCase(), [...measures.own.keys(), ...unitNames()]);
  const hint =
    near.length > 0 ? `did you mean ${near.join(' or ')}?` : 'write such as g, mg, mL, tsp or drops';
  return bad(`"${name}" is not a known unit: ${hint}`);
}

/** The practice's own measure of this name; it may replace a custom (a teacup) but never a unit that law or standard fixes. */
function ownUnit(name: string, measures: Measures): Result<Unit> | undefined {
  const n = name.toLowerCase();
  const own =
    measures.own.get(n) ?? measures.own.get(n.replace(/s$/, '')) ?? measures.own.get(n.replace(/es$/, ''));
  if (!own) return undefined;
  const fixed = unitByName(name);
  if (fixed && fixed.nominal !== true && fixed.dimension !== 'count') {
    return bad(
      `"${name}" already means ${fixed.symbol} (${fixed.from}): give the practice's own measure another name`,
    );
  }
  if (own.size[0].lte(0))
    return bad(`the practice's measure "${name}" holds nothing: write its size, such as 0.8 mL`);
  return ok(own);
}

function sizeInWords(u: Unit): string {
  const base = u.dimension === 'mass' ? 'g' : 'mL';
  return `${u.size[0].div(u.size[1]).toSignificantDigits(10).toFixed()} ${base}`;
}

// biome-ignore format: a table
const EXAMPLE: Readonly<Record<string, string>> = {
  volume: 'mL', time: 'days', count: 'doses', drops: 'drops', length: 'cm', share: '%',
  'share v/v': '% v/v', 'share m/m': '% m/m', 'share w/v': '% w/v', 'share v/m': '% v/m',
};

/** A unit of the kind that is wanted, for showing how to write it. */
const like = (of: readonly Dimension[]): string =>
  (of[0] ?? 'mass')
    .split(' per ')
    .map((kind) => EXAMPLE[kind] ?? 'g')
    .join('/');

/**
 * Reads `12 g`, `1 1/2 tsp`, `150 mL`, `1 imp pint`, `30 mg/5 mL`; with `of`, only a unit of one of those dimensions.
 * Every error says what to write instead.
 */
export function parseQuantity(
  text: string,
  measures: Measures = NO_MEASURES,
  of: readonly Dimension[] = [],
): Result<Quantity> {
  const odd = notAsItLooks(text);
  if (odd !== undefined) return bad(odd);
  const t = plain(text);
  const head = headNumber(t, like(of));
  if (!head.ok) return head;
  const { value, rest } = head.value;
  if (rest === '') return bad(`"${t}" has no unit: write such as ${t} ${like(of)}`);
  const unit = parseUnit(rest, measures);
  if (unit.ok) return rightKind({ value, unit: unit.value }, of);
  if (/(?:-|\bto )\s*\d/i.test(rest)) return bad(`"${t}" is a range: write one figure here`);
  if (/^\d/.test(rest))
    return bad(`"${t}" holds two figures: write one, with no space between thousands, and its unit`);
  return unit;
}

function rightKind(q: Quantity, of: readonly Dimension[]): Result<Quantity> {
  if (of.length === 0 || of.includes(q.unit.dimension)) return ok(q);
  return bad(`"${q.unit.symbol}" measures ${q.unit.dimension}; here it must be ${of.join(' or ')}`);
}

/** Words and signs of a limit that are refused: `<` is misread as a figure, and "under" leaves the edge open. */
const LIMIT =
  /^(?:[<>\u2264\u2265]|(?:less|more|no more|not more|under|over|max|maximum|min|minimum|below|above)\b)/i;

const OPEN = /^(up to|at most|at least|from) (.+)$/i;

/** Reads `1.5-4 g`, `300 mg to 1 g`, `up to 8 g`, `at least 4 % m/m`, or one figure (low = high). */
export function parseRange(
  text: string,
  measures: Measures = NO_MEASURES,
  of: readonly Dimension[] = [],
): Result<Range> {
  const odd = notAsItLooks(text);
  if (odd !== undefined) return bad(odd);
  const t = plain(text);
  const open = OPEN.exec(t);
  if (open) {
    const [, word = '', rest = ''] = open;
    const q = parseQuantity(rest, measures, of);
    if (!q.ok) return q;
    return ok(/^(up to|at most)$/i.test(word) ? { low: null, high: q.value } : { low: q.value, high: null });
  }
  const cut = /^(\d.*?)\s*(?:-| to )\s*(\d.*)$/i.exec(t);
  if (!cut || startsInExponentForm(t)) {
    const q = parseQuantity(t, measures, of);
    return q.ok ? ok({ low: q.value, high: q.value }) : q;
  }
  const [, lowText = '', highText = ''] = cut;
  if (parseNumber(highText).ok) return bad(`"${t}" has no unit: write such as ${t} ${like(of)}`);
  const high = parseQuantity(highText, measures, of);
  if (!high.ok) return high;
  const bare = parseNumber(lowText);
  const low = bare.ok
    ? ok({ value: bare.value, unit: high.value.unit })
    : parseQuantity(lowText, measures, of);
  if (!low.ok) return low;
  if (!comparable(low.value.unit, high.value.unit)) {
    return bad(
      `"${t}" runs from ${low.value.unit.symbol} to ${high.value.unit.symbol}: write both ends in one kind of unit`,
    );
  }
  const lowInHigh = inUnit(low.value, high.value.unit);
  if (compareQuantities(lowInHigh, high.value) > 0) return bad(runsDownward(t));
  return ok({ low: lowInHigh, high: high.value });
}

/** Herb to product, as written: `1:5` is one part of herb in five of product, `4-6:1` four to six of herb in one of extract. */
export interface Ratio {
  readonly herb: NumberRange;
  readonly product: NumberRange;
}

/** Reads `1:5`, `0.75:1`, `4-6:1`, `1:0.5-0.8`: two sides of one figure or a closed range, each above 0. */
export function parseRatio(text: string): Result<Ratio> {
  const odd = notAsItLooks(text);
  if (odd !== undefined) return bad(odd);
  const t = plain(text);
  const sides = t.split(/\s*:\s*/);
  if (sides.length !== 2) return bad(`"${t}" is not a ratio: write herb to product, such as 1:5 or 4-6:1`);
  const [left = '', right = ''] = sides;
  const herb = parseNumberRange(left);
  if (!herb.ok) return bad(`in the ratio "${t}": ${herb.why}`);
  const product = parseNumberRange(right);
  if (!product.ok) return bad(`in the ratio "${t}": ${product.why}`);
  for (const end of [herb.value.low, herb.value.high, product.value.low, product.value.high]) {
    if (end === null || end.isZero())
      return bad(`"${t}" is not a ratio: each side needs figures above 0, such as 1:5`);
  }
  return ok({ herb: herb.value, product: product.value });
}

/** What the two sides of a ratio count: g of herb in mL, or g in g. */
export type RatioBasis = 'w/v' | 'w/w';

/** Herb to what it stands in, one figure a side: `1:5 w/v` is 1 g in 5 mL, `1:5 w/w` 1 g in 5 g. */
export interface SolventRatio {
  readonly herb: Exact;
  readonly solvent: Exact;
  readonly basis: RatioBasis;
  readonly text: string;
}

/**
 * Reads `1:5 w/v` and `1:2 w/w`. Errors: a ratio without its basis, because by weight and by volume a tincture in strong
 * spirit differs by a tenth; a side that is a range, because what is made has one.
 */
export function parseSolventRatio(text: string): Result<SolventRatio> {
  const [, sides = '', basis] = /^(.*?)\s*(w\/[vw])?$/i.exec(plain(text)) ?? [];
  const ratio = parseRatio(sides);
  if (!ratio.ok) return ratio;
  if (basis === undefined)
    return bad(
      `"${plain(text)}" lacks its basis: write ${sides} w/v (g of herb in mL) or ${sides} w/w (g in g)`,
    );
  const { herb, product } = ratio.value;
  const one = (r: NumberRange): Exact | null => (r.low !== null && r.high?.eq(r.low) ? r.low : null);
  const [left, right] = [one(herb), one(product)];
  if (left === null || right === null)
    return bad(`"${plain(text)}" has a range in it: write one figure a side, such as 1:5 w/v`);
  return ok({ herb: left, solvent: right, basis: basis.toLowerCase() as RatioBasis, text: plain(text) });
}

/** A share of 0 to 100 in a hundred whose basis is said: `45 % v/v`. The basis is the unit. */
export type Strength = Quantity;

const STRENGTHS: readonly Dimension[] = ['share v/v', 'share m/m', 'share w/v', 'share v/m'];

const BASES: Readonly<Partial<Record<Dimension, string>>> = {
  'share v/v': '% v/v (by volume)',
  'share m/m': '% m/m (by mass)',
  'share w/v': '% w/v (g in 100 mL)',
};

/**
 * Reads `45 % v/v`, `4 % m/m`; a bare `45 %` is an error, for by volume and by mass are two strengths. `of` are the
 * bases that an error advises.
 */
export function parseStrength(
  text: string,
  of: readonly Dimension[] = ['share v/v', 'share m/m'],
): Result<Strength> {
  const bases = of.map((d) => BASES[d] ?? '%').join(' or ');
  if (parseNumber(plain(text)).ok) return bad(`"${plain(text)}" has no unit: write ${plain(text)} ${bases}`);
  const q = parseQuantity(text);
  if (!q.ok) return q;
  if (q.value.unit.dimension === 'share') return bad(`"${plain(text)}" lacks its basis: write ${bases}`);
  if (!STRENGTHS.includes(q.value.unit.dimension))
    return bad(`"${plain(text)}" is not a strength: write such as 45 % v/v`);
  if (q.value.value.gt(100)) return bad(`"${plain(text)}" is above 100 %`);
  return ok(q.value);
}

/**
 * The unit for a practice's own measure, e.g. a dropper of 0.8 mL or a level teaspoon of a blend of 2.1 g. Its code
 * is a UCUM annotation (no spaces or braces inside), and never the code of a unit that the program has itself.
 */
export function ownMeasure(name: string, size: Quantity): Unit {
  const { value, unit } = size;
  const label = name.replace(/[^!-~]|[{}]/g, '_');
  return {
    dimension: unit.dimension,
    code: unitByCode(`{${label}}`) ? `{own_${label}}` : `{${label}}`,
    symbol: name,
    plural: /(?:s|x|ch|sh)$/.test(name) ? `${name}es` : `${name}s`,
    size: [value.times(unit.size[0]), unit.size[1]],
    names: [name],
    from: `the practice: ${value.toFixed()} ${unit.symbol}`,
    nominal: true,
  };
}
