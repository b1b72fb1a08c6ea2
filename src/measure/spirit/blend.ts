import { type Exact, one, sum, zero } from '../exact.ts';
import type { Strength } from '../parse.ts';
import type { Quantity } from '../quantity.ts';
import { bad, ok, type Result } from '../result.ts';
import { write } from '../write.ts';
import {
  inBasisOf,
  type Measured,
  measured,
  measuredMass,
  type Spirit,
  spiritOf,
  stronger,
} from './composition.ts';
import { combine, type Mixture } from './mixing.ts';
import { AT_20C, type Reference } from './reference.ts';

/**
 * Bringing strengths to a target between them. The textbook's alligation by volume leaves contraction out and says so;
 * by mass with % m/m it is a mass balance and exact, so it is done by mass only.
 * Source of the rule: alligation alternate, University of Kerbala College of Pharmacy, Pharmaceutical calculations,
 * laboratory 10; density: OIML R 22.
 */

/** One step of the working: how far the target lies from the other of the pair, in % m/m, is what each gets in parts. */
export interface Pair {
  readonly weaker: Strength;
  readonly stronger: Strength;
  readonly target: Strength;
  /** Target above weaker; what the stronger gets. */
  readonly above: Exact;
  /** Stronger above target; what the weaker gets. */
  readonly below: Exact;
}

/** Parts by mass, in the order asked; the pairs are the working. */
export interface Alligation {
  readonly reachable: true;
  readonly parts: readonly { readonly strength: Strength; readonly byMass: Exact }[];
  readonly pairs: readonly Pair[];
}

/** The target lies outside the strengths in hand: the nearest that is one of them, in the basis of the target. */
export interface NotReachable {
  readonly reachable: false;
  readonly nearest: Strength;
  readonly says: string;
}

interface Read {
  readonly strength: Strength;
  readonly spirit: Spirit;
}

/**
 * Parts by mass that make the target. Of two strengths there is one answer; of more there are many, and this is the one
 * that alligation gives: each weaker strength is paired with a stronger one, the nearest to the target first, and where
 * one side runs out its last is paired again. A strength that is the target already gets no parts, since any amount of
 * it may be added; where the others lie all on one side of it, it alone is the answer.
 * Errors: fewer than two strengths; a strength without basis or outside 0 to 100 %.
 */
export function alligation(
  strengths: readonly Strength[],
  target: Strength,
  at: Reference = AT_20C,
): Result<Alligation | NotReachable> {
  const read = readAll(strengths, at);
  if (!read.ok) return read;
  const to = spiritOf(target, at);
  return to.ok ? ok(shareOut(read.value, { strength: target, spirit: to.value })) : to;
}

function readAll(strengths: readonly Strength[], at: Reference): Result<readonly Read[]> {
  if (strengths.length < 2)
    return bad('a blend needs two strengths or more: write such as 96 % v/v and 40 % v/v');
  const all: Read[] = [];
  for (const strength of strengths) {
    const spirit = spiritOf(strength, at);
    if (!spirit.ok) return spirit;
    all.push({ strength, spirit: spirit.value });
  }
  return ok(all);
}

const percent = (r: Read): Exact => r.spirit.massFraction.times(100);

function shareOut(read: readonly Read[], to: Read): Alligation | NotReachable {
  const nearestFirst = (a: Read, b: Read): number =>
    percent(a)
      .minus(percent(to))
      .abs()
      .comparedTo(percent(b).minus(percent(to)).abs());
  const weaker = read.filter((r) => stronger(to.spirit, r.spirit)).sort(nearestFirst);
  const above = read.filter((r) => stronger(r.spirit, to.spirit)).sort(nearestFirst);
  const equal = read.filter((r) => !weaker.includes(r) && !above.includes(r));
  const [low, high] = [weaker[0], above[0]];
  const parts = new Map<Read, Exact>();
  const pairs: Pair[] = [];
  if (low !== undefined && high !== undefined) {
    for (let i = 0; i < Math.max(weaker.length, above.length); i++) {
      const [w, s] = [weaker[i] ?? (weaker.at(-1) as Read), above[i] ?? (above.at(-1) as Read)];
      const pair = {
        weaker: w.strength,
        stronger: s.strength,
        target: to.strength,
        above: percent(to).minus(percent(w)),
        below: percent(s).minus(percent(to)),
      };
      pairs.push(pair);
      parts.set(w, (parts.get(w) ?? zero).plus(pair.below));
      parts.set(s, (parts.get(s) ?? zero).plus(pair.above));
    }
  } else if (equal.length > 0) {
    for (const e of equal) parts.set(e, one);
  } else {
    const best = (low ?? high) as Read;
    const side = low === undefined ? 'below all of them' : 'above all of them';
    const nearest = inBasisOf(best.spirit, to.strength);
    const says = `${write(to.strength)} is ${side}: the nearest is ${write(nearest)}, the one spirit alone`;
    return { reachable: false, nearest, says };
  }
  return {
    reachable: true,
    parts: read.map((r) => ({ strength: r.strength, byMass: parts.get(r) ?? zero })),
    pairs,
  };
}

/** One strength of a blend: its parts, its mass in g and its volume in mL at the reference temperature. */
export interface BlendPart extends Measured {
  readonly strength: Strength;
  readonly byMass: Exact;
}

export interface Blend {
  readonly reachable: true;
  readonly parts: readonly BlendPart[];
  readonly pairs: readonly Pair[];
  readonly made: Mixture;
}

/**
 * Two or more strengths (water is 0 % v/v) brought to `target`: how much of each makes `make`, a volume at the reference
 * temperature or a mass. Each mass = mass to make x its parts / all parts; the parts are those of `alligation`.
 * Errors: as `alligation`; an amount that is not above 0, or neither mass nor volume.
 */
export function blendTo(
  asked: { readonly of: readonly Strength[]; readonly target: Strength; readonly make: Quantity },
  at: Reference = AT_20C,
): Result<Blend | NotReachable> {
  const read = readAll(asked.of, at);
  if (!read.ok) return read;
  const to = spiritOf(asked.target, at);
  if (!to.ok) return to;
  const made = measured(asked.make, to.value);
  if (!made.ok) return made;
  const shared = shareOut(read.value, { strength: asked.target, spirit: to.value });
  if (!shared.reachable) return ok(shared);
  const all = sum(shared.parts.map((p) => p.byMass));
  const poured = read.value.map(({ spirit }, i) => {
    const byMass = shared.parts[i]?.byMass ?? zero;
    return { ...measuredMass(made.value.mass.value.times(byMass).div(all), spirit), spirit, byMass };
  });
  const parts = read.value.map(({ strength }, i): BlendPart => {
    const { mass, volume, byMass } = poured[i] as (typeof poured)[number];
    return { strength, byMass, mass, volume };
  });
  return ok({ reachable: true, parts, pairs: shared.pairs, made: combine(poured, at) });
}
