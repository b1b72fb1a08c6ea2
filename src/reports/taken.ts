import type { Batch } from '../compounding/compound.ts';
import { unitByCode } from '../measure/units.ts';
import { type Line, numberIn, sentence, words } from './sheet.ts';

/** How it is taken, in the words of the directions with the measured amount beside them. */
export function takenLine({ taking, formula }: Batch): Line {
  const { directions } = formula;
  if (taking === null || directions === undefined) return words('the formula gives no directions');
  return [
    dose(taking, directions.take),
    often(taking),
    ...(taking.course ? [sentence`for ${taking.course}${directions.when ? ',' : ''}`] : []),
    ...(directions.when ? [words(directions.when)] : []),
  ];
}

type Taking = NonNullable<Batch['taking']>;
type Take = NonNullable<Batch['formula']['directions']>['take'];

/** `150 mL`, `1/3 of the pot (189.4 mL)`, `1 level scoop (0.5 g)`: nobody pours a third by eye where a cup can measure. */
function dose({ dose: measured }: Taking, take: Take) {
  if (take.kind === 'share') return sentence`${take.text} (${measured}),`;
  const [written] = measured.step.inputs;
  return written === undefined ? sentence`${measured},` : sentence`${written} (${measured}),`;
}

function often({ timesLeast, timesMost }: Taking) {
  const [fewest, most] = [timesLeast.value.value, timesMost.value.value];
  if (!fewest.eq(most)) {
    const count = unitByCode('1');
    return fewest.isZero() || count === undefined
      ? sentence`up to ${timesMost} a day`
      : sentence`${numberIn(count, timesLeast)} to ${timesMost} a day`;
  }
  return most.eq(1) ? words('once a day') : sentence`${timesMost} a day`;
}
