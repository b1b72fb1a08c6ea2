import type { Preparation } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { ok, type Result } from '../measure/result.ts';
import { decoction } from './decoction.ts';
import { infusion } from './infusion.ts';
import type { Making, MakingContext } from './making.ts';

type Wash = Extract<Preparation, { kind: 'wash' }>;

/**
 * Wash: a tea for the outside, made as an infusion or a decoction and used as a compress, a gargle or in a bath. A bath is
 * the strained liquid poured into more water; a gargle is not swallowed.
 */
export function wash(p: Wash, context: MakingContext): Result<Making> {
  const made = p.infuse
    ? infusion({ ...p, kind: 'infusion', infuse: p.infuse }, context)
    : decoction({ ...p, kind: 'decoction' }, context);
  if (!made.ok) return made;
  const how = USE[p.for];
  const into = p.into ? given(p.into, 'water that it is poured into, from the formula') : null;
  return ok({
    ...made.value,
    ...(into ? { into } : {}),
    method: [...made.value.method, into ? ['Pour it into', into, 'of warm water.'] : [how]],
  });
}

const USE: Readonly<Record<Wash['for'], string>> = {
  bath: 'Pour it into the bath.',
  compress: 'Soak a clean cloth in it, wring it out and lay it on.',
  gargle: 'Gargle or rinse with it, and spit it out.',
};
