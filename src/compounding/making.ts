import type { Preparation } from '../folder/schema/formula.ts';
import type { Figure } from '../measure/figure.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { Result } from '../measure/result.ts';
import { coldMaceration } from './cold-maceration.ts';
import { decoction } from './decoction.ts';
import { infusion } from './infusion.ts';
import type { HeldBack, Pot } from './pot.ts';
import { powder } from './powder.ts';

/** A sentence of the method, its figures kept as figures. */
export type MethodLine = readonly (string | Figure)[];

/** What one making of a formula is: a pot that is strained, or a dry powder. */
export type Making =
  | {
      readonly kind: 'pot';
      readonly pot: Pot;
      readonly inPot: ReadonlyMap<string, Figure<Quantity>>;
      readonly method: readonly MethodLine[];
    }
  | { readonly kind: 'dry'; readonly method: readonly MethodLine[] };

/** What a kind of preparation needs to know besides its own part of the formula file. */
export interface MakingContext {
  /** The exact mass of each herb when the whole weighs `whole`. */
  readonly masses: (whole: Figure<Quantity>) => Result<Map<string, Figure<Quantity>>>;
  readonly heldBack: (herb: string) => HeldBack;
  /** What boils off per minute with the practice's own pan and hob, if it has measured it. */
  readonly boilsOff?: Quantity | undefined;
}

/** One line a kind of preparation: adding a kind is its own file and a line here. */
const KINDS: {
  readonly [K in Preparation['kind']]: (
    p: Extract<Preparation, { kind: K }>,
    context: MakingContext,
  ) => Result<Making>;
} = {
  infusion,
  decoction,
  'cold-maceration': coldMaceration,
  powder,
};

export function makingOf(preparation: Preparation, context: MakingContext): Result<Making> {
  return (KINDS[preparation.kind] as (p: Preparation, c: MakingContext) => Result<Making>)(
    preparation,
    context,
  );
}
