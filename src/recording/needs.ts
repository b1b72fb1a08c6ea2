import type { Batch } from '../compounding/compound.ts';
import { COMMON_CYLINDER, type Instrument } from '../compounding/weighing.ts';
import type { Amendment } from '../folder/amend.ts';
import { keyOf } from '../folder/ingredients.ts';
import type { Formula, Ingredient } from '../folder/schema/formula.ts';
import { inUnit, type Quantity } from '../measure/quantity.ts';
import { roundTo } from '../measure/round.ts';
import { gram, millilitre } from '../measure/units.ts';
import type { DrawnLine, Lot, Need } from './draw.ts';
import { quantityText } from './quantity-text.ts';

/** What a batch takes of the shelf: its lines as they are weighed or poured, and what they are made with. */
export function needsOf(batch: Batch, { balance, cylinder }: Instruments): Need[] {
  const lines = batch.formula.ingredients.flatMap((i): Need[] => {
    const line = batch.lines.find((l) => l.key === keyOf(i));
    return line ? [{ ...whatIs(i), amounts: [line.weigh.value] }] : [];
  });
  return [...lines, ...addedNeeds(batch, { balance, cylinder })];
}

/** The practice's balance and cylinder, to whose steps whatever is measured is rounded. */
export interface Instruments {
  readonly balance: Instrument;
  readonly cylinder: Instrument;
}

const whatIs = (i: Ingredient): Pick<Need, 'key' | 'as' | 'form'> =>
  i.herb === undefined
    ? { key: i.vehicle ?? '', as: 'vehicle', form: 'dried' }
    : { key: i.herb, as: 'herb', form: i.form ?? 'dried' };

/** Spirit, oil, honey and the like, rounded to the balance or cylinder that measures them; water is of the tap. */
function addedNeeds({ making, formula: { preparation: p } }: Batch, instruments: Instruments): Need[] {
  if (making.kind !== 'product') return [];
  const strong = making.spirit?.poured.find((x) => x.strength !== null);
  return making.added.flatMap(({ says, amount, also }): Need[] => {
    if (says === 'water') return [];
    if (says.startsWith('spirit')) {
      const strength = strong?.strength?.value ?? ('spirit' in p ? p.spirit : undefined);
      const measured = strong ? [strong.volume.value, strong.mass.value] : [amount.value, also?.value];
      return [
        { key: 'spirit', as: 'spirit', form: 'dried', strength, amounts: steps(measured, instruments) },
      ];
    }
    const key = ('oil' in p && p.oil) || ('base' in p && p.base) || says;
    return [{ key, as: 'vehicle', form: 'dried', amounts: steps([amount.value, also?.value], instruments) }];
  });
}

function steps(amounts: readonly (Quantity | undefined)[], { balance, cylinder }: Instruments): Quantity[] {
  return amounts.flatMap((q) => {
    if (q === undefined) return [];
    const unit = q.unit.dimension === 'mass' ? gram : millilitre;
    const { step } = unit === gram ? balance : cylinder;
    const to = inUnit(step ?? COMMON_CYLINDER.step, unit).value;
    return [{ value: roundTo(inUnit(q, unit).value, to, 'half-even'), unit }];
  });
}

/**
 * What the lots on the shelf make of a formula: where a lot has another ratio, strength or moisture than the formula
 * says, the remedy is that of the lot.
 */
export function asDrawn(formula: Formula, lines: readonly DrawnLine[]): Amendment[] {
  return formula.ingredients.flatMap((i): Amendment[] => {
    const lot = lines.find((l) => l.need.key === keyOf(i) && l.need.as !== 'spirit')?.lot ?? null;
    if (lot === null) return [];
    const own = ownOf(lot);
    const stated = statedOf(i);
    const set = Object.fromEntries(Object.entries(own).filter(([k, v]) => v !== stated[k as keyof Own]));
    return Object.keys(set).length > 0
      ? [{ of: keyOf(i), as: i.herb === undefined ? 'vehicle' : 'herb', set }]
      : [];
  });
}

type Own = Readonly<
  Partial<Record<'ratio' | 'spirit' | 'glycerol' | 'moisture' | 'of_fresh' | 'density', string>>
>;

/** What a lot says of itself; a key that it leaves out is left as the formula has it. */
export function ownOf(lot: Pick<Lot, keyof Own>): Own {
  const { ratio, spirit, glycerol, moisture, of_fresh: fresh, density } = lot;
  const all = {
    ratio: ratio && `${ratio.text}`,
    spirit: spirit && quantityText(spirit),
    glycerol: glycerol && quantityText(glycerol),
    moisture: moisture && moistureText(moisture),
    of_fresh: fresh === undefined ? undefined : fresh ? 'yes' : 'no',
    density: density && quantityText(density),
  };
  return Object.fromEntries(Object.entries(all).filter(([, v]) => v !== undefined)) as Own;
}

const statedOf = (i: Ingredient): Own => ownOf(i as Pick<Lot, keyof Own>);

/** Both ends of a moisture, which is never open. */
export function moistureText({ low, high }: NonNullable<Lot['moisture']>): string {
  const [from, to] = [low?.value.toFixed(), high?.value.toFixed()];
  return from === to ? `${from} %` : `${from}-${to} %`;
}
