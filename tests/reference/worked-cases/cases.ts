import { describe, expect, it } from 'vitest';
import { exactAmounts } from '../../../src/compounding/composition.ts';
import { compositionOf } from '../../../src/compounding/compound.ts';
import { type Exact, exact } from '../../../src/measure/exact.ts';
import { given } from '../../../src/measure/figure.ts';
import { parseUnit } from '../../../src/measure/parse.ts';
import { convert, type Quantity } from '../../../src/measure/quantity.ts';
import type { Result } from '../../../src/measure/result.ts';
import { held, strengthOf } from '../../../src/measure/strength.ts';
import { formula, q, value } from '../../compounding/formula.ts';

/**
 * Worked cases of published pharmacy texts, each put through the program's own functions. `is` is the exact answer,
 * a fraction where it does not end, compared to 40 digits; `printed` is the figure in the text that was read, and is
 * left out where that text breaks off before it.
 */
export interface Answer {
  readonly got: Quantity | Exact;
  readonly is: string;
  readonly printed?: string;
}

export interface WorkedCase {
  readonly id: string;
  readonly task: string;
  /** Title, body and year of the text. */
  readonly source: string;
  readonly answers: () => readonly Answer[] | Promise<readonly Answer[]>;
}

/** `answer(held(...), '245/6 g', '40.83')` */
export function answer(
  got: Quantity | Exact | Result<Quantity> | Result<Exact>,
  is: string,
  printed?: string,
): Answer {
  const figure = 'ok' in got ? value<Quantity | Exact>(got) : got;
  return { got: figure, is, ...(printed === undefined ? {} : { printed }) };
}

/** `245/6`, `40.5` or a bare number, as an exact one. */
function rational(text: string): Exact {
  const [over = '', under = '1'] = text.split('/');
  return exact(over).div(under);
}

const digits = (n: Exact): string => n.toSignificantDigits(40).toFixed();

function inUnitOf(got: Quantity | Exact, unit: string): Exact {
  if (!('unit' in got)) return got;
  return value(convert(got, value(parseUnit(unit)))).value;
}

export function workThrough(topic: string, cases: readonly WorkedCase[]): void {
  describe(topic, () => {
    it.each(cases.map((c) => [`${c.id}, ${c.task} (${c.source})`, c] as const))('%s', async (_, c) => {
      const answers = await c.answers();
      expect(answers.length).toBeGreaterThan(0);
      for (const { got, is, printed } of answers) {
        const [number = '', ...unit] = is.split(' ');
        const figure = inUnitOf(got, unit.join(' '));
        expect(digits(figure), is).toBe(digits(rational(number)));
        if (printed !== undefined) {
          const places = printed.split('.')[1]?.length ?? 0;
          expect(figure.toFixed(places, 4), `printed ${printed}`).toBe(printed);
        }
      }
    });
  });
}

/** What each line of a formula weighs, exactly, when the whole weighs `wanted`. */
export async function scaled(ingredients: string, wanted: Quantity): Promise<(herb: string) => Quantity> {
  const composition = value(compositionOf(await formula(`${ingredients}\npreparation: {kind: powder}`)));
  const masses = value(exactAmounts(composition, given(wanted, 'batch')));
  return (herb) => masses.get(herb)?.value ?? q('0 g');
}

/** What `wanted` of a mixture holds of an ingredient of which `total` holds `part`. */
export const sharesIn = (part: string, total: string, wanted: string): Result<Quantity> =>
  held(value(strengthOf(q(part), q(total))), q(wanted));
