import type { Preparation } from '../folder/schema/formula.ts';
import { given, worked } from '../measure/figure.ts';
import { over, plus, quantity, times } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { millilitre } from '../measure/units.ts';
import type { Making, MakingContext } from './making.ts';
import { keptBy, marcKeeps } from './marc.ts';
import { ethanolPerMl, menstruum } from './menstruum.ts';
import { anyFresh } from './own-water.ts';
import { byRatio, PLAIN } from './product.ts';

/**
 * Percolation: the damped herb is packed and spirit runs slowly through it until the volume of the ratio is in hand,
 * so that the ratio obtained is the ratio given. Spirit to have ready = that volume + what the unpressed marc keeps.
 * Three quarters are collected, the rest is pressed out and the whole made up with spirit.
 * Source of the steps: The United States Pharmacopoeia, ninth revision, tinctures (damp, stand 6 h, pack, macerate 24 h,
 * percolate); the three quarters from a pharmacognosy course.
 */
export function percolation(
  p: Extract<Preparation, { kind: 'percolation' }>,
  context: MakingContext,
): Result<Making> {
  const { base } = context;
  if (p.ratio.basis !== 'w/v')
    return bad('a percolate is made up to a volume: write the ratio in w/v, such as ratio: 1:5 w/v');
  if (anyFresh(context.ingredients))
    return bad(
      'a percolate is drawn from dried herb: write kind: fresh-tincture, which counts the water of the fresh',
    );
  const made = byRatio(base, p.ratio, 'tincture to collect');
  const keeps = marcKeeps({ marc: 'hand-squeezed' }, context.shelf.marc);
  const rate = given(keeps.range, keeps.says, keeps.source);
  const most = keeps.range.high;
  const kept = most ? keptBy(base.value, most) : quantity(0, millilitre);
  const ready = worked(plus(made.value, kept), 'spirit to have ready, at the most', '{} + {} x {}', [
    made,
    base,
    rate,
  ]);
  const liquid = menstruum(ready, p.spirit, p.from);
  if (!liquid.ok) return liquid;
  const quarters = worked(over(times(made.value, 3), 4), 'three quarters of it', '3 x {} / 4', [made]);
  return ok({
    ...PLAIN,
    base,
    makes: made,
    added: [{ says: 'spirit to have ready', amount: liquid.value.volume, also: liquid.value.mass }],
    spirit: liquid.value.mixing,
    strength: liquid.value.strength,
    ethanol: ethanolPerMl(liquid.value.strength, 'ethanol in 1 mL of the tincture'),
    solvent: { ratio: p.ratio, spirit: p.spirit },
    contents: { ethanol: liquid.value.strength, byMass: new Map(), fresh: false },
    method: [
      ['Damp', base, 'of moderately coarse powder evenly with some of the spirit.'],
      [
        'Let stand covered for',
        given(p.moisten ?? quantity(6, 'h'), 'time to stand damped'),
        ', then pack it evenly.',
      ],
      [
        'Saturate it, leave a layer of spirit above and let stand for',
        given(p.macerate ?? quantity(24, 'h'), 'time to macerate'),
        '.',
      ],
      ['Let it run slowly until', quarters, 'are in hand, press the marc and add what comes.'],
      ['Make up to', made, 'with spirit, let settle and filter.'],
    ],
  });
}
