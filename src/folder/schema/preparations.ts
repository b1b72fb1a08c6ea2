import * as z from 'zod';
import type { Exact } from '../../measure/exact.ts';
import type { Measures } from '../../measure/parse.ts';
import { parseNumber, parseQuantity } from '../../measure/parse.ts';
import type { Quantity } from '../../measure/quantity.ts';
import { bad, type Result } from '../../measure/result.ts';
import type { Dimension } from '../../measure/units.ts';
import { id, quantity, read, solventRatio, strength, strict, word, words, yesNo } from './fields.ts';

/**
 * What a formula file says of its preparation, kind by kind. Each kind is one shape here and one file of
 * `src/compounding`; a field that several kinds share means the same in all of them.
 */

const MASS: readonly Dimension[] = ['mass'];
const VOLUME: readonly Dimension[] = ['volume'];
const TIME: readonly Dimension[] = ['time'];

export function above0<Q extends Quantity>(r: Result<Q>): Result<Q> {
  return r.ok && r.value.value.lte(0) ? bad('this must be above 0') : r;
}

/** How the liquid is parted from the spent herb; each way keeps its own share of it (`reference/making.yaml`). */
export const PRESSINGS = ['pressed', 'hand-squeezed'] as const;
export type Pressing = (typeof PRESSINGS)[number];

/** What a wash is for: the European pharmacopoeia's words for where it goes. */
export const WASHES = ['bath', 'compress', 'gargle'] as const;

export function preparationFields(measures: Measures) {
  const mass = read((t) => above0(parseQuantity(t, measures, MASS)));
  const volume = read((t) => above0(parseQuantity(t, measures, VOLUME)));
  const time = read((t) => above0(parseQuantity(t, measures, TIME)));
  const spirit = strength(['share v/v', 'share m/m']);

  const stage = strict({
    do: word(['decoct', 'infuse', 'macerate']),
    herbs: z.array(id).min(1, 'a stage without herbs: name those that go in'),
    for: time,
    covered: yesNo.optional(),
  });

  const inPot = {
    herb: mass,
    water: volume,
    strained: volume.optional(),
    make_up_to: volume.optional(),
    holds: quantity(['volume per mass']).optional(),
  };
  const infusion = strict({ kind: z.literal('infusion'), ...inPot, infuse: time, covered: yesNo.optional() });
  const decoction = strict({
    kind: z.literal('decoction'),
    ...inPot,
    boil: time.optional(),
    stand: time.optional(),
    boils_off: volume.optional(),
    covered: yesNo.optional(),
    stages: z.array(stage).min(2, 'stages are for two or more steps in one pot').optional(),
  });
  const maceration = strict({
    kind: z.literal('cold-maceration'),
    ...inPot,
    macerate: time,
    boil_before_use: yesNo.optional(),
  });
  const wash = strict({
    kind: z.literal('wash'),
    for: word(WASHES),
    ...inPot,
    infuse: time.optional(),
    boil: time.optional(),
    boils_off: volume.optional(),
    covered: yesNo.optional(),
    /** The water that the strained liquid is poured into, such as a full bath. */
    into: volume.optional(),
  });
  const powder = strict({ kind: z.literal('powder'), sieve: words.optional(), with: words.optional() });
  const capsule = strict({
    kind: z.literal('capsule'),
    /** The size of the shell, by its usual number. */
    size: words,
    /** What one holds of this powder, found by filling and weighing; or the powder's density, poured or tapped. */
    holds: mass.optional(),
    density: quantity(['mass per volume']).optional(),
    sieve: words.optional(),
  });

  /** What is drawn out of a herb with a liquid, and how the two are parted. */
  const drawn = {
    ratio: solventRatio,
    marc: word(PRESSINGS).optional(),
    /** What each g of herb keeps back, where the practice has measured it for this herb. */
    keeps: quantity(['volume per mass']).optional(),
    macerate: time.optional(),
  };
  const tincture = strict({
    kind: z.literal('tincture'),
    ...drawn,
    spirit,
    /** The strong spirit in the store, by its true strength. */
    from: spirit.optional(),
  });
  const freshTincture = strict({
    kind: z.literal('fresh-tincture'),
    ...drawn,
    /** The spirit that is poured on; or the strength that the tincture is to end at. */
    spirit: spirit.optional(),
    target: spirit.optional(),
    from: spirit.optional(),
  });
  const percolation = strict({
    kind: z.literal('percolation'),
    ratio: solventRatio,
    spirit,
    from: spirit.optional(),
    moisten: time.optional(),
    macerate: time.optional(),
  });
  const glycerite = strict({
    kind: z.literal('glycerite'),
    ...drawn,
    /** Glycerol in the liquid that is poured on. */
    glycerol: strength(['share v/v', 'share m/m']),
  });
  const infusedOil = strict({
    kind: z.literal('infused-oil'),
    ...drawn,
    oil: id,
    warm: time.optional(),
  });

  const liquidBlend = strict({
    kind: z.literal('liquid-blend'),
    bottle: volume.optional(),
  });
  const drops = strict({
    kind: z.literal('drops'),
    bottle: volume.optional(),
    /** Drops of this very liquid from this very dropper. */
    drops_per_ml: quantity(['drops per volume']).refine((q) => q.value.gt(0), 'this must be above 0'),
  });
  const syrup = strict({
    kind: z.literal('syrup'),
    by: word(['infusion', 'decoction']),
    herb: mass,
    water: volume,
    /** The liquid that was strained, as measured, or as it is made up: what the sugar is weighed for. */
    strained: volume.optional(),
    make_up_to: volume.optional(),
    infuse: time.optional(),
    boil: time.optional(),
    sugar: strength(['share m/m']),
  });
  const honey = strict({
    kind: z.literal('honey'),
    ratio: solventRatio,
    strained: yesNo,
    macerate: time.optional(),
  });
  const oxymel = strict({
    kind: z.literal('oxymel'),
    ratio: solventRatio,
    /** Honey in the mixture of honey and vinegar, by weight; the rest is vinegar. */
    honey: quantity(['share', 'share m/m']),
    acid: strength(['share w/v', 'share m/m']),
    marc: word(PRESSINGS).optional(),
    macerate: time.optional(),
  });
  const ointment = strict({ kind: z.literal('ointment') });
  const suppository = strict({
    kind: z.literal('suppository'),
    /** What one mould holds of the plain base. */
    mould: mass,
    base: id,
    /** Herb in each. */
    each: mass,
    /** g of this powder that take the place of 1 g of this base. */
    displacement: read((t): Result<Exact> => {
      const n = parseNumber(t);
      return n.ok && n.value.lt('0.7')
        ? bad(
            `a displacement of "${t}" is the g of base that 1 g of herb displaces: write the g of herb that displace 1 g of base`,
          )
        : n;
    }),
  });

  return z.discriminatedUnion('kind', [
    infusion,
    decoction,
    maceration,
    wash,
    powder,
    capsule,
    tincture,
    freshTincture,
    percolation,
    glycerite,
    infusedOil,
    liquidBlend,
    drops,
    syrup,
    honey,
    oxymel,
    ointment,
    suppository,
  ]);
}

export type Preparation = z.output<ReturnType<typeof preparationFields>>;
export type Kind = Preparation['kind'];
