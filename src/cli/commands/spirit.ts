import { mixingFigures } from '../../compounding/spirit-figures.ts';
import { type Exact, exact } from '../../measure/exact.ts';
import { parseNumber, parseQuantity, parseStrength, type Strength } from '../../measure/parse.ts';
import { type Quantity, quantity } from '../../measure/quantity.ts';
import { bad, ok, type Result } from '../../measure/result.ts';
import { blendTo, type NotReachable, type Pair } from '../../measure/spirit/blend.ts';
import { trueStrength } from '../../measure/spirit/hydrometer.ts';
import { type Dilution, dilute, mixture, type Part, pour, useUp } from '../../measure/spirit/mixing.ts';
import { AT_20C, AT_60F, type Reference } from '../../measure/spirit/reference.ts';
import { percent } from '../../measure/units.ts';
import { type SpiritAnswer, spiritJson, spiritSheet } from '../../reports/spirit.ts';
import type { CommonOptions } from '../options.ts';
import { answered, misused, type Outcome } from '../outcome.ts';

export interface SpiritOptions extends CommonOptions {
  readonly to?: string;
  readonly make?: string;
  readonly from?: readonly string[];
  readonly use?: string;
  readonly mix?: readonly string[];
  readonly reading?: string;
  readonly temperature?: string;
  readonly of?: string;
  readonly fahrenheit60?: boolean;
}

/** Spirit and water by mass: dilute, use up, mix to a strength, mix and see, correct a hydrometer's reading. */
export async function spirit(_: readonly string[], options: SpiritOptions): Promise<Outcome> {
  const at = options.fahrenheit60 ? AT_60F : AT_20C;
  const answer = work(options, at);
  return answer.ok
    ? answered([{ name: 'spirit', sheet: spiritSheet(answer.value, at), result: spiritJson(answer.value) }])
    : misused(answer.why);
}

function work(o: SpiritOptions, at: Reference): Result<SpiritAnswer> {
  const jobs = [
    o.reading !== undefined,
    o.mix !== undefined,
    o.use !== undefined,
    o.make !== undefined,
  ].filter((x) => x).length;
  if (jobs > 1) return bad('--make, --use, --mix and --reading are different jobs: give one');
  if (o.reading !== undefined) return reading(o, at);
  if (o.mix !== undefined) return mixed(o.mix, at);
  const strengths = (o.from ?? []).map((t) => strengthOf(t, '--from'));
  const wrong = strengths.find((s) => !s.ok);
  if (wrong && !wrong.ok) return wrong;
  const from = strengths.flatMap((s) => (s.ok ? [s.value] : []));
  const to = o.to === undefined ? null : strengthOf(o.to, '--to');
  if (to !== null && !to.ok) return to;
  const [first, ...more] = from;
  if (to === null || first === undefined)
    return bad(
      'say the strength wanted and the one in hand, such as --to "60 %" --from "96.3 %" --make "500 mL"',
    );
  if (o.use !== undefined)
    return more.length > 0
      ? bad('--use is for one spirit and water: give one --from')
      : used(o.use, first, to.value, at);
  if (o.make === undefined)
    return bad('how much? add --make "500 mL", or --use "400 mL" to use up what there is');
  const make = amountFrom(o.make, '--make');
  if (!make.ok) return make;
  return more.length > 0 ? blended(from, to.value, make.value, at) : diluted(first, to.value, make.value, at);
}

/** A strength on this command line; a bare per cent is by volume, as labels have it. */
function strengthOf(text: string, option: string): Result<Strength> {
  const plain = parseQuantity(text, undefined, ['share']);
  const s = plain.ok ? ok(quantity(plain.value.value, '%{v/v}')) : parseStrength(text);
  if (!s.ok) return bad(`${option} ${s.why}`);
  return s.value.value.gt(100) ? bad(`${option} "${text}" is above 100 %`) : s;
}

function amountFrom(text: string, option: string): Result<Quantity> {
  const q = parseQuantity(text, undefined, ['mass', 'volume']);
  return q.ok ? q : bad(`${option} ${q.why}`);
}

function diluted(from: Strength, to: Strength, make: Quantity, at: Reference): Result<SpiritAnswer> {
  const d = dilute({ to, make, from }, at);
  return d.ok ? ok(withWater(d.value, from, at)) : d;
}

function used(text: string, from: Strength, to: Strength, at: Reference): Result<SpiritAnswer> {
  const amount = amountFrom(text, '--use');
  if (!amount.ok) return amount;
  const d = useUp({ from, amount: amount.value, to }, at);
  return d.ok ? ok(withWater(d.value, from, at)) : d;
}

function withWater({ stock, water, made }: Dilution, from: Strength, at: Reference): SpiritAnswer {
  const parts = [
    { says: 'strong spirit', amount: stock, strength: from },
    { says: 'water', amount: water, strength: null },
  ];
  return { kind: 'mixed', figures: mixingFigures(parts, made, at), nominal: from, pairs: [] };
}

function blended(
  of: readonly Strength[],
  target: Strength,
  make: Quantity,
  at: Reference,
): Result<SpiritAnswer> {
  const b = blendTo({ of, target, make }, at);
  if (!b.ok) return b;
  if (!b.value.reachable) return ok(notReachable(b.value));
  const { parts, made, pairs } = b.value;
  const poured = parts.map((p) => ({
    says: `spirit of ${p.strength.value.toFixed()} ${p.strength.unit.symbol}`,
    amount: p,
    strength: p.strength,
  }));
  return ok({
    kind: 'mixed',
    figures: mixingFigures(poured, made, at),
    nominal: strongest(of),
    pairs: pairs as readonly Pair[],
  });
}

const strongest = (of: readonly Strength[]): Strength => of.reduce((a, b) => (b.value.gt(a.value) ? b : a));

function notReachable(n: NotReachable): SpiritAnswer {
  return { kind: 'not reachable', says: n.says, nearest: n.nearest };
}

/** `500 mL of 96 %`, `300 mL of water`. */
function mixed(texts: readonly string[], at: Reference): Result<SpiritAnswer> {
  const parts: (Part & { readonly says: string; readonly water: boolean })[] = [];
  for (const text of texts) {
    const cut = /^(.+?)\s+of\s+(.+)$/i.exec(text.trim());
    if (!cut)
      return bad(`--mix "${text}": write how much of which, such as "500 mL of 96 %" or "300 mL of water"`);
    const amount = amountFrom(cut[1] ?? '', '--mix');
    if (!amount.ok) return amount;
    const water = /^water$/i.test(cut[2] ?? '');
    const strength = water ? ok(quantity(0, '%{v/v}')) : strengthOf(cut[2] ?? '', '--mix');
    if (!strength.ok) return strength;
    parts.push({
      amount: amount.value,
      strength: strength.value,
      says: water ? 'water' : `spirit of ${cut[2]}`,
      water,
    });
  }
  if (parts.length < 2) return bad('--mix takes two or more: repeat it for each');
  const made = mixture(parts, at);
  if (!made.ok) return made;
  const poured = parts.flatMap((p) => {
    const m = pour(p, at);
    return m.ok ? [{ says: p.says, amount: m.value, strength: p.water ? null : p.strength }] : [];
  });
  return ok({
    kind: 'mixed',
    figures: mixingFigures(poured, made.value, at),
    nominal: strongest(parts.map((p) => p.strength)),
    pairs: [],
  });
}

function reading(o: SpiritOptions, at: Reference): Result<SpiritAnswer> {
  if (o.of !== undefined && !/^(clean )?spirit$/i.test(o.of)) {
    return bad(
      `a hydrometer reads the strength of clean spirit only: what is dissolved in a ${o.of} makes it heavier and the reading false. Have it distilled and measured, or reckon its strength from what went in`,
    );
  }
  const mark = strengthOf(o.reading ?? '', '--reading');
  if (!mark.ok) return mark;
  if (o.temperature === undefined) return bad('at which temperature was it read? add --temperature "12 C"');
  const celsius = celsiusOf(o.temperature);
  if (!celsius.ok) return celsius;
  const found = trueStrength(mark.value, celsius.value, at);
  if (!found.ok) return found;
  return ok({
    kind: 'read',
    reading: mark.value,
    celsius: quantity(celsius.value, percent),
    found: found.value,
    at: o.temperature,
  });
}

function celsiusOf(text: string): Result<Exact> {
  const m = /^(-?)\s*(\d+(?:\.\d+)?)\s*\u00b0?\s*([CF])$/i.exec(text.trim());
  if (!m) return bad(`--temperature "${text}": write such as 12 C or 60 F`);
  const n = parseNumber(m[2] ?? '');
  if (!n.ok) return n;
  const signed = m[1] === '-' ? n.value.neg() : n.value;
  return ok(/f/i.test(m[3] ?? '') ? signed.minus(32).times(5).div(9) : signed.times(exact(1)));
}
