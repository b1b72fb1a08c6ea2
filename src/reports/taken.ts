import type { Batch } from '../compounding/compound.ts';
import type { Directions } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { quantity } from '../measure/quantity.ts';
import { unitByCode } from '../measure/units.ts';
import { type Line, numberIn, sentence, words } from './sheet.ts';

/** What the directions are headed with. */
export const takenLabel = ({ formula }: Batch): string => (formula.directions?.apply ? 'put on' : 'taken');

/** How it is taken, in the words of the directions with the measured amount beside them. */
export function takenLine({ taking, formula }: Batch): Line {
  const { directions } = formula;
  if (directions === undefined) return words('the formula gives no directions');
  if (taking === null || directions.take === undefined) return appliedLine(directions);
  return [
    dose(taking, directions.take),
    often(taking),
    ...(taking.course ? [sentence`for ${taking.course}${directions.when ? ',' : ''}`] : []),
    ...(directions.when ? [words(directions.when)] : []),
  ];
}

/** Put on the skin without measure. */
function appliedLine({ apply, times, for: course, when }: Directions): Line {
  return [
    words(apply ?? ''),
    ...(times
      ? [
          sentence`${given({ low: times.low && quantity(times.low, '1'), high: times.high && quantity(times.high, '1') }, 'times a day, from the directions')} a day`,
        ]
      : []),
    ...(course ? [sentence`for ${given(course, 'course, from the directions')}${when ? ',' : ''}`] : []),
    ...(when ? [words(when)] : []),
  ];
}

type Taking = NonNullable<Batch['taking']>;
type Take = NonNullable<Directions['take']>;

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
