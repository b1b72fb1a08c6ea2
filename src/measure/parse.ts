import { type Exact, exact } from './exact.ts';
import { nearest } from './nearest.ts';
import { compareQuantities, comparable, inUnit, type Quantity, type Range } from './quantity.ts';
import { bad, ok, type Result } from './result.ts';
import { ambiguousWord, type Dimension, per, refusedUnit, type Unit, unitByName, unitNames } from './units.ts';

/** The one parser of quantities: everything a person writes as a number with a unit goes through this file. */

/** What a practice has settled: which pint it means, and its own measures (a dropper, a level teaspoon of a blend). */
export interface Measures {
  /** Ambiguous word to the unit it means here, e.g. `pint` to the imperial pint. */
  readonly settled: ReadonlyMap<string, Unit>;
  /** The practice's own measures by name. */
  readonly own: ReadonlyMap<string, Unit>;
}

export const NO_MEASURES: Measures = { settled: new Map(), own: new Map() };

/** More digits than this is a slip or an attack, not a measurement. */
const MOST_DIGITS = 24;

const VULGAR: Readonly<Record<string, string>> = {
  '¼': '1/4', '½': '1/2', '¾': '3/4', '⅐': '1/7', '⅑': '1/9', '⅒': '1/10', '⅓': '1/3', '⅔': '2/3', '⅕': '1/5',
  '⅖': '2/5', '⅗': '3/5', '⅘': '4/5', '⅙': '1/6', '⅚': '5/6', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8',
};

/** One spelling for the signs that keyboards and pages vary: fractions, dashes, spaces. */
function plain(text: string): string {
  return text
    .replace(/[¼½¾⅐-⅞]/g, (sign) => ` ${VULGAR[sign] ?? sign}`)
    .replace(/\u2044/g, '/')
    .replace(/[\u2010-\u2015\u2212]/g, '-')
    .replace(/[\s\u00a0\u202f\u2009]+/g, ' ')
    .trim();
}

/** Reads a whole, decimal or fractional number: `12`, `0.5`, `1/2`, `1 1/2`. Never an exponent, sign or comma. */
export function parseNumber(text: string): Result<Exact> {
  const t = plain(text);
  if (t === '') return bad('a number is missing');
  if (/^[-+]/.test(t)) return bad(t.startsWith('-') ? `"${t}" is negative: amounts start at 0` : `leave out the plus sign of "${t}"`);
  if (/,/.test(t)) return bad(`"${t}" has a comma: write a decimal point, and no sign between thousands`);
  if (/^\./.test(t)) return bad(`"${t}" lacks its leading zero: write 0${t}`);
  if (/^\d+\.$/.test(t)) return bad(`"${t}" ends in a point: write ${t.slice(0, -1)}`);
  if (/\d[eE][-+]?\d/.test(t)) return bad(`"${t}" is in exponent form: write the figure out`);
  if (/^(nan|infinity|inf)$/i.test(t)) return bad(`"${t}" is not a number`);
  if (t.replace(/\D/g, '').length > MOST_DIGITS) return bad(`a number of more than ${MOST_DIGITS} digits`);
  if (/^\d+(\.\d+)?$/.test(t)) return ok(exact(t));
  const mixed = /^(?:(\d+) )?(\d+)\/(\d+)$/.exec(t);
  if (mixed) {
    const [, whole = '0', top = '', bottom = ''] = mixed;
    if (/^0+$/.test(bottom)) return bad(`"${t}" divides by nothing`);
    return ok(exact(whole).plus(exact(top).div(exact(bottom))));
  }
  return bad(`"${t}" is not a number`);
}

/** The number at the head of a text and what follows it. */
function headNumber(text: string): Result<{ value: Exact; rest: string }> {
  const head = /^(?:\d+ \d+\/\d+|\d+\/\d+|[-+.,\d]+(?:[eE][-+]?\d+(?=$|[^a-zA-Z]))?)/.exec(text)?.[0];
  if (head === undefined) {
    const word = text.split(' ')[0] ?? '';
    return bad(/^(nan|inf|infinity)$/i.test(word) ? `"${word}" is not a number` : `"${text}" does not start with a number`);
  }
  const n = parseNumber(head);
  return n.ok ? ok({ value: n.value, rest: text.slice(head.length).trim() }) : n;
}

/** Reads the name of a unit, or a compound such as `mg/kg`, `g/100 mL`, `mL per kg`. */
export function parseUnit(text: string, measures: Measures = NO_MEASURES): Result<Unit> {
  const name = plain(text);
  if (name === '') return bad('a unit is missing');
  const own = measures.own.get(name.toLowerCase()) ?? measures.own.get(name.toLowerCase().replace(/s$/, ''));
  if (own) return ok(own);
  const refused = refusedUnit(name);
  if (refused) return bad(refused);
  const unclear = ambiguousWord(name);
  if (unclear) {
    const settled = measures.settled.get(unclear.word);
    if (settled) return ok(settled);
    const could = unclear.could.map((u) => `${u.symbol} (${sizeInWords(u)})`).join(' or ');
    return bad(`"${name}" could be ${could}: write which, or set it once in practice.yaml`);
  }
  const known = unitByName(name);
  if (known) return ok(known);
  const cut = /^(.+?)(?:\/| per | in )(?:(\d+) )?(.+)$/.exec(name);
  if (cut) {
    const top = parseUnit(cut[1] ?? '', measures);
    const bottom = parseUnit(cut[3] ?? '', measures);
    if (top.ok && bottom.ok) return ok(per(top.value, bottom.value, exact(cut[2] ?? 1)));
  }
  const near = nearest(name.toLowerCase(), [...measures.own.keys(), ...unitNames()]);
  return bad(`"${name}" is not a known unit${near.length > 0 ? `: did you mean ${near.join(' or ')}?` : ''}`);
}

function sizeInWords(u: Unit): string {
  const base = u.dimension === 'mass' ? 'g' : 'mL';
  return `${u.size[0].div(u.size[1]).toSignificantDigits(10).toFixed()} ${base}`;
}

/** Reads `12 g`, `1 1/2 tsp`, `150 mL`, `1 imp pint`, `30 mg/5 mL`; with `of`, only a unit of one of those dimensions. */
export function parseQuantity(text: string, measures: Measures = NO_MEASURES, of: readonly Dimension[] = []): Result<Quantity> {
  const t = plain(text);
  const head = headNumber(t);
  if (!head.ok) return head;
  if (head.value.rest === '') return bad(`"${t}" has no unit`);
  const unit = parseUnit(head.value.rest, measures);
  if (!unit.ok) return unit;
  const q: Quantity = { value: head.value.value, unit: unit.value };
  return rightKind(q, of);
}

function rightKind(q: Quantity, of: readonly Dimension[]): Result<Quantity> {
  if (of.length === 0 || of.includes(q.unit.dimension)) return ok(q);
  return bad(`"${q.unit.symbol}" measures ${q.unit.dimension}; here it must be ${of.join(' or ')}`);
}

/** Reads `1.5-4 g`, `300 mg to 1 g`, `up to 8 g`, `at least 4 % m/m`, or one figure (low = high). */
export function parseRange(text: string, measures: Measures = NO_MEASURES, of: readonly Dimension[] = []): Result<Range> {
  const t = plain(text);
  const open = /^(up to|at most|at least|from) (.+)$/i.exec(t);
  if (open) {
    const q = parseQuantity(open[2] ?? '', measures, of);
    if (!q.ok) return q;
    return ok(/^(up to|at most)$/i.test(open[1] ?? '') ? { low: null, high: q.value } : { low: q.value, high: null });
  }
  const cut = /^(.+?)\s*(?:-| to )\s*(\d.*)$/i.exec(t);
  if (!cut || /^-/.test(t)) {
    const q = parseQuantity(t, measures, of);
    return q.ok ? ok({ low: q.value, high: q.value }) : q;
  }
  const high = parseQuantity(cut[2] ?? '', measures, of);
  if (!high.ok) return high;
  const lowText = (cut[1] ?? '').trim();
  const bare = parseNumber(lowText);
  const low = bare.ok ? ok({ value: bare.value, unit: high.value.unit }) : parseQuantity(lowText, measures, of);
  if (!low.ok) return low;
  if (!comparable(low.value.unit, high.value.unit)) return bad(`"${t}" runs from ${low.value.unit.symbol} to ${high.value.unit.symbol}`);
  const lowInHigh = inUnit(low.value, high.value.unit);
  if (compareQuantities(lowInHigh, high.value) > 0) return bad(`"${t}" runs downward: write the smaller figure first`);
  return ok({ low: lowInHigh, high: high.value });
}

/** A range of bare numbers, as in `times: 1-3` or either side of a ratio. */
export interface NumberRange {
  readonly low: Exact | null;
  readonly high: Exact | null;
}

export function parseNumberRange(text: string): Result<NumberRange> {
  const t = plain(text);
  const open = /^(up to|at most|at least|from) (.+)$/i.exec(t);
  if (open) {
    const n = parseNumber(open[2] ?? '');
    if (!n.ok) return n;
    return ok(/^(up to|at most)$/i.test(open[1] ?? '') ? { low: null, high: n.value } : { low: n.value, high: null });
  }
  const cut = /^(\d[\d./ ]*?)\s*(?:-| to )\s*(\d.*)$/.exec(t);
  if (!cut) {
    const n = parseNumber(t);
    return n.ok ? ok({ low: n.value, high: n.value }) : n;
  }
  const low = parseNumber(cut[1] ?? '');
  const high = parseNumber(cut[2] ?? '');
  if (!low.ok) return low;
  if (!high.ok) return high;
  if (low.value.gt(high.value)) return bad(`"${t}" runs downward: write the smaller figure first`);
  return ok({ low: low.value, high: high.value });
}

/** Herb to product, as written: `1:5` is one part of herb in five of product, `4-6:1` four to six of herb in one of extract. */
export interface Ratio {
  readonly herb: NumberRange;
  readonly product: NumberRange;
}

export function parseRatio(text: string): Result<Ratio> {
  const sides = plain(text).split(/\s*:\s*/);
  if (sides.length !== 2) return bad(`"${text.trim()}" is not a ratio: write herb to product, such as 1:5 or 4-6:1`);
  const [left = '', right = ''] = sides;
  const herb = parseNumberRange(left);
  if (!herb.ok) return bad(`in the ratio "${text.trim()}": ${herb.why}`);
  const product = parseNumberRange(right);
  if (!product.ok) return bad(`in the ratio "${text.trim()}": ${product.why}`);
  for (const end of [herb.value.low, herb.value.high, product.value.low, product.value.high]) {
    if (end === null || end.isZero()) return bad(`"${text.trim()}" is not a ratio: each side needs figures above 0`);
  }
  return ok({ herb: herb.value, product: product.value });
}

/** A share of 0 to 100 in a hundred whose basis is said: `45 % v/v`. The basis is the unit. */
export type Strength = Quantity;

export function parseStrength(text: string): Result<Strength> {
  const q = parseQuantity(text);
  if (!q.ok) return q;
  if (q.value.unit.dimension === 'share') return bad(`"${plain(text)}" lacks its basis: write % v/v (by volume) or % m/m (by mass)`);
  if (!q.value.unit.dimension.startsWith('share ')) return bad(`"${plain(text)}" is not a strength: write such as 45 % v/v`);
  if (q.value.value.gt(100)) return bad(`"${plain(text)}" is above 100 %`);
  return ok(q.value);
}

/** The unit for a practice's own measure, e.g. a dropper of 0.8 mL or a level teaspoon of a blend of 2.1 g. */
export function ownMeasure(name: string, size: Quantity): Unit {
  const { value, unit } = size;
  return {
    dimension: unit.dimension,
    code: `{${name}}`,
    symbol: name,
    plural: `${name}s`,
    size: [value.times(unit.size[0]), unit.size[1]],
    names: [name],
    from: `the practice: ${value.toFixed()} ${unit.symbol}`,
    nominal: true,
  };
}
