import type { Preparation } from '../folder/schema/formula.ts';
import { type Figure, given, worked } from '../measure/figure.ts';
import { inUnit, type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gram, gramPerMillilitre } from '../measure/units.ts';
import { write } from '../measure/write.ts';
import type { Making, MakingContext } from './making.ts';
import { PLAIN, wholeOf } from './product.ts';

type Capsule = Extract<Preparation, { kind: 'capsule' }>;

/**
 * Capsules of powder. One holds the volume of its shell x the density of this very powder, or what some filled
 * capsules were found to weigh, which is better; no density of a powdered herb is assumed.
 * Whole capsules only: batch / fill, rounded down.
 * Source: University of North Carolina, Pharmaceutics and Compounding Laboratory, Hard gelatin capsules.
 */
export function capsule(p: Capsule, context: MakingContext): Result<Making> {
  const fill = fillOf(p, context);
  if (!fill.ok) return fill;
  const { base } = context;
  const makes = worked(
    quantity(base.value.value.div(fill.value.value.value), '{capsule}'),
    'capsules in the powder',
    '{} / {}',
    [base, fill.value],
  );
  const { whole, yields } = wholeOf(makes);
  return ok({
    ...PLAIN,
    base,
    makes,
    yields,
    facts: [{ label: 'one holds', value: fill.value }],
    method: [
      [
        `Grind each herb, pass it through the sieve${p.sieve ? ` (${p.sieve})` : ''}, grind what stays behind and mix it back.`,
      ],
      ['Mix the smallest amount first with an equal bulk of another, then double up until all is in.'],
      ['Fill', whole, `of size ${p.size} with`, fill.value, 'each; weigh ten to be sure.'],
    ],
  });
}

/** The powder that one capsule holds, in g. Errors: a size that the table does not have. */
export function fillOf(p: Capsule, { shelf }: MakingContext): Result<Figure<Quantity>> {
  const shell = shelf.shell(p.size);
  if (!shell.ok) return shell;
  if (p.holds !== undefined)
    return ok(given(inUnit(p.holds, gram), 'powder in one capsule as weighed, from the formula'));
  if (p.density === undefined) return bad('what does one capsule hold? write holds: or density:');
  const density = given(p.density, 'density of this powder, from the formula');
  const perMl = inUnit(p.density, gramPerMillilitre).value;
  const value = quantity(shell.value.value.value.times(perMl), gram);
  return ok(worked(value, 'powder in one capsule', '{} x {}', [shell.value, density]));
}

/** The smallest shell of a list that holds so much powder of a density, as volume = weight / density. Error: none does. */
export function smallestShell(
  fill: Quantity,
  density: Quantity,
  shells: readonly { readonly size: string; readonly holds: Quantity }[],
): Result<string> {
  const perMl = inUnit(density, gramPerMillilitre).value;
  const volume = inUnit(fill, gram).value.div(perMl);
  const [smallest] = shells
    .filter((s) => s.holds.value.gte(volume))
    .sort((a, b) => a.holds.value.comparedTo(b.holds.value));
  return smallest ? ok(smallest.size) : bad(`no shell holds ${write(fill)}: divide it over two capsules`);
}
