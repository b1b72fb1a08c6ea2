import type { Preparation } from '../folder/schema/formula.ts';
import { ok, type Result } from '../measure/result.ts';
import type { Making } from './making.ts';

/**
 * Powder: dried herbs ground, sieved and mixed. No part may be rejected while milling: what stays on the sieve is
 * ground again and mixed back (USP 32-NF 27, general chapter 811, powdered vegetable drugs).
 */
export function powder(p: Extract<Preparation, { kind: 'powder' }>): Result<Making> {
  return ok({
    kind: 'dry',
    method: [
      [
        `Grind each herb, pass it through the sieve${p.sieve ? ` (${p.sieve})` : ''}, grind what stays behind and mix it back.`,
      ],
      ['Mix the smallest amount first with an equal bulk of another, then double up until all is in.'],
    ],
  });
}
