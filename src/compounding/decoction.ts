import type { Preparation } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { plus } from '../measure/quantity.ts';
import { ok, type Result } from '../measure/result.ts';
import type { Making, MakingContext, MethodLine } from './making.ts';
import { boiledOff, fillPot, potHerbs } from './pot.ts';

type Decoction = Extract<Preparation, { kind: 'decoction' }>;

const VERB = { decoct: 'Simmer', infuse: 'Take off the heat, let stand', macerate: 'Let stand cold' } as const;

/**
 * Decoction: the herb is brought to the boil in cold water, simmered and strained hot; for barks, roots and hard
 * fruits (common practice). With stages, each herb enters the same pot at its own time (roots simmered, then flowers
 * infused). What boils off is never guessed from the time alone: the formula states the volume made up to, the
 * strained volume as measured, or what boils off, or the practice has measured its rate.
 */
export function decoction(p: Decoction, context: MakingContext): Result<Making> {
  const herbs = potHerbs(p, context);
  if (!herbs.ok) return herbs;
  const boiling = p.stages ? p.stages.filter((s) => s.do === 'decoct').map((s) => s.for) : p.boil ? [p.boil] : [];
  const stated = p.boils_off && given(p.boils_off, 'boiled off, from the formula');
  const [first, ...more] = boiling;
  const estimated = context.boilsOff && first ? boiledOff(context.boilsOff, more.reduce(plus, first)) : undefined;
  const pot = fillPot({ herb: herbs.value.herb, water: p.water, strained: p.strained, makeUpTo: p.make_up_to, boiledOff: stated ?? estimated, herbs: herbs.value.herbs });
  if (!pot.ok) return pot;
  const method: MethodLine[] = p.stages
    ? stagedMethod(p.stages, pot.value.water, herbs.value.inPot)
    : [
        ['Put', pot.value.herb, 'of the blend into', pot.value.water, 'of cold water and bring to the boil.'],
        ['Simmer, covered, for', ...(p.boil ? [given(p.boil, 'time to simmer, from the formula')] : []), 'and strain hot.'],
      ];
  if (p.stand) method.push(['Let stand', given(p.stand, 'time to stand, from the formula'), 'before straining.']);
  if (pot.value.makeUpTo) method.push(['Pour water through the strainer to', pot.value.makeUpTo, 'in all.']);
  return ok({ kind: 'pot', pot: pot.value, inPot: herbs.value.inPot, method });
}

function stagedMethod(stages: NonNullable<Decoction['stages']>, water: MethodLine[number], inPot: ReadonlyMap<string, MethodLine[number]>): MethodLine[] {
  const lines = stages.map((stage, i): MethodLine => {
    const herbs = stage.herbs.flatMap((h, n): (string | MethodLine[number])[] => [...(n > 0 ? ['and'] : []), inPot.get(h) ?? '', h]);
    const opening = i === 0 ? ['Put', ...herbs, 'into', water, 'of cold water.'] : ['Add', ...herbs, '.'];
    return [...opening, `${VERB[stage.do]} for`, given(stage.for, `time for stage ${i + 1}, from the formula`), ...(i === stages.length - 1 ? ['and strain.'] : ['.'])];
  });
  return lines;
}

