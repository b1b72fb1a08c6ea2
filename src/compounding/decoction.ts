import type { Preparation } from '../folder/schema/formula.ts';
import type { Figure } from '../measure/figure.ts';
import { given } from '../measure/figure.ts';
import { plus, type Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { Making, MakingContext, MethodLine } from './making.ts';
import { boiledOff, fillPot, potHerbs } from './pot.ts';

type Decoction = Extract<Preparation, { kind: 'decoction' }>;
type Stage = NonNullable<Decoction['stages']>[number];

/**
 * Decoction: the herb is brought to the boil in cold water, simmered and strained hot; for barks, roots and hard
 * fruits (common practice). With stages, each herb enters the same pot at its own time (roots simmered, then flowers
 * infused). What boils off is never guessed from the time alone: the formula states the volume made up to, the
 * strained volume as measured, or what boils off, or the practice has measured its rate. Error: none of the four,
 * because a pot thought fuller than it is would make every dose look weaker than it is.
 */
export function decoction(p: Decoction, context: MakingContext): Result<Making> {
  const herbs = potHerbs(p, context);
  if (!herbs.ok) return herbs;
  const lost = lostInBoiling(p, context);
  if (lost === null && !p.strained && !p.make_up_to) {
    return bad(
      'what boils off cannot be told from the time alone: give make_up_to:, strained: or boils_off: in the formula, or the boils_off: of the practice',
    );
  }
  const pot = fillPot({
    herb: herbs.value.herb,
    water: p.water,
    strained: p.strained,
    makeUpTo: p.make_up_to,
    boiledOff: lost ?? undefined,
    herbs: herbs.value.herbs,
  });
  if (!pot.ok) return pot;
  const { herb, water, makeUpTo } = pot.value;
  const method: MethodLine[] = p.stages
    ? p.stages.map((stage, i, all) => {
        const end = i < all.length - 1 ? 'before the next step.' : p.stand ? 'in all.' : 'and strain.';
        return [
          ...stageWords(stage, all[i - 1], herbsOf(stage, herbs.value.inPot), water),
          given(stage.for, `time for stage ${i + 1}, from the formula`),
          end,
        ];
      })
    : [
        ['Put', herb, 'of the blend into', water, 'of cold water and bring to the boil.'],
        [
          `Simmer, ${lid(p.covered)}, for`,
          ...(p.boil ? [given(p.boil, 'time to simmer, from the formula')] : []),
          p.stand ? 'in all.' : 'and strain hot.',
        ],
      ];
  if (p.stand)
    method.push(['Let stand for', given(p.stand, 'time to stand, from the formula'), 'and strain.']);
  if (makeUpTo) method.push(['Pour water through the strainer to', makeUpTo, 'in all.']);
  return ok({ kind: 'pot', pot: pot.value, inPot: herbs.value.inPot, method });
}

/** As the formula states it, else at the practice's own rate over every minute at the boil; null where neither is known. */
function lostInBoiling(p: Decoction, context: MakingContext): Figure<Quantity> | null {
  if (p.boils_off) return given(p.boils_off, 'boiled off, from the formula');
  const [first, ...more] = p.stages
    ? p.stages.filter((s) => s.do === 'decoct').map((s) => s.for)
    : p.boil
      ? [p.boil]
      : [];
  return context.boilsOff && first ? boiledOff(context.boilsOff, more.reduce(plus, first)) : null;
}

const lid = (covered: boolean | undefined): string => (covered === false ? 'uncovered' : 'covered');

const herbsOf = (stage: Stage, inPot: ReadonlyMap<string, Figure>): MethodLine =>
  stage.herbs.flatMap(
    (h, i): MethodLine => [inPot.get(h) ?? '', i < stage.herbs.length - 1 ? `${h} and` : h],
  );

/** How the pot is made hot for an infusion, by what was done before. */
const HOT = {
  decoct: 'Take off the heat, add',
  infuse: 'Add',
  macerate: 'Bring to the boil, take off the heat, add',
} as const;

/** A stage as a sentence up to its time; how the herb enters hangs on what was done before it. */
function stageWords(stage: Stage, before: Stage | undefined, herbs: MethodLine, water: Figure): MethodLine {
  const simmer = `simmer, ${lid(stage.covered)}, for`;
  const stand = `and let stand, ${lid(stage.covered)}, for`;
  switch (stage.do) {
    case 'decoct':
      if (!before) return ['Put', ...herbs, 'into', water, `of cold water, bring to the boil and ${simmer}`];
      return [
        'Add',
        ...herbs,
        before.do === 'decoct' ? `and ${simmer}` : `and bring to the boil, then ${simmer}`,
      ];
    case 'infuse':
      return before
        ? [HOT[before.do], ...herbs, stand]
        : ['Pour', water, 'of boiling water on', ...herbs, stand];
    case 'macerate':
      return before
        ? ['Let cool, add', ...herbs, 'and let stand cold for']
        : ['Put', ...herbs, 'into', water, 'of cold water and let stand for'];
  }
}
