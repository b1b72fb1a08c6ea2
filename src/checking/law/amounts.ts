import { markerIn } from '../../dosing/marker.ts';
import { citeIn } from '../../folder/cite-in.ts';
import { addUp } from '../../measure/add-up.ts';
import { withinBand } from '../../measure/age.ts';
import { type Figure, given, worked } from '../../measure/figure.ts';
import { compareQuantities, inUnit, type Quantity, quantity, times } from '../../measure/quantity.ts';
import { gram, gramPerMillilitre, percent } from '../../measure/units.ts';
import type { Case } from '../case.ts';
import type { Portion } from '../regimen.ts';
import type { HerbHanded, Law, Meant } from './meant.ts';
import type { Limit } from './names.ts';

/** What is taken or applied of a plant, beside the most that the law allows. */

export type Side = 'single' | 'daily' | 'external';

/** What the law allows this person; null where it gives no figure for the age. */
export function allowed({ limit, law }: Meant, side: Side, c: Case): Figure<Quantity> | null {
  const most = limit[side];
  if (most === undefined) return null;
  const source = citeIn(c.legal, law);
  const adult = given(most, `${SAYS[side]}, by ${law.name}`, source);
  if (side === 'external') return adult;
  const part = shareFor(law, c);
  if (part === 'adult') return adult;
  if (part === null) return null;
  return worked(times(most, part), `${SAYS[side]}, for this age`, '{} x {}', [
    adult,
    given(part, 'share of it for this age', source),
  ]);
}

const SAYS: Readonly<Record<Side, string>> = {
  single: 'the most in one dose',
  daily: 'the most in a day',
  external: 'the most in a product for external use',
};

/** Where a month of birth straddles two ages the smaller share counts. */
function shareFor({ children = [] }: Law, { person, on }: Case) {
  const birth = person?.birth;
  const fitting = birth ? children.filter((b) => withinBand(birth, b.ages, on) !== false) : [];
  const [first, ...more] = fitting;
  if (first === undefined) return 'adult';
  return more.reduce(
    (least, { share }) => (least && share ? (share.lt(least) ? share : least) : null),
    first.share ?? null,
  );
}

/** What the limit counts in so much of the plant, at the least and at the most; never more than the plant itself. */
export interface Counted {
  readonly least: Figure<Quantity> | null;
  readonly most: Figure<Quantity>;
}

export function counted(
  { counts, ...l }: Limit,
  monograph: Portion['monograph'],
  plant: Figure<Quantity>,
): Counted {
  const unit = (l.single ?? l.daily)?.unit ?? gram;
  const weighed =
    unit === plant.value.unit ? plant : worked(inUnit(plant.value, unit), plant.step.says, '{}', [plant]);
  if (counts === undefined) return { least: weighed, most: weighed };
  const held = monograph ? markerIn(monograph, counts, plant, unit) : null;
  return { least: held?.least ?? null, most: held?.most ?? weighed };
}

export type Verdict = 'above' | 'within' | 'open';

export function beside({ least, most }: Counted, limit: Quantity): Verdict {
  if (least && compareQuantities(least.value, limit) > 0) return 'above';
  return compareQuantities(most.value, limit) > 0 ? 'open' : 'within';
}

/** Over several things that are taken: the least of those that are known, and the most of all of them. */
export function added(all: readonly Counted[], says: string): Counted | null {
  const [first, ...more] = all;
  if (first === undefined || more.length === 0) return first ?? null;
  const least = all.flatMap((x) => x.least ?? []);
  return {
    least: least.length > 0 ? addUp(least, `${says}, at the least`) : null,
    most: addUp(
      all.map((x) => x.most),
      says,
    ),
  };
}

/**
 * The plant in what is put on, in g of 100 g and in g of 100 mL, the higher of the two that can be told: the table does
 * not say which of them the law means. Null where neither can.
 */
export function strengthOf({ herb, dose, from: { batch } }: HerbHanded): Figure<Quantity> | null {
  const { making, lines, total } = batch;
  const line = lines.find((l) => l.key === herb);
  if (making.kind === 'dry' && line)
    return worked(
      quantity(line.weigh.value.value.times(100).div(total.value.value), percent),
      `${herb} in 100 g`,
      '{} / {}',
      [line.weigh, total],
    );
  const density = making.kind === 'product' ? making.density : null;
  const strengths = (dose?.concentrations ?? []).flatMap((f): Figure<Quantity>[] => {
    if (f.value.unit !== gramPerMillilitre) return [f];
    const in100 = f.value.value.times(100);
    return [
      worked(quantity(in100, percent), `${herb} in 100 mL`, '{} x 100 mL', [f]),
      ...(density
        ? [
            worked(quantity(in100.div(density.value.value), percent), `${herb} in 100 g`, '{} x 100 g / {}', [
              f,
              density,
            ]),
          ]
        : []),
    ];
  });
  return strengths.sort((a, b) => compareQuantities(b.value, a.value))[0] ?? null;
}
