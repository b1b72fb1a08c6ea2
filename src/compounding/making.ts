import type { Ingredient, Preparation } from '../folder/schema/formula.ts';
import type { Figure } from '../measure/figure.ts';
import type { Quantity } from '../measure/quantity.ts';
import type { Result } from '../measure/result.ts';
import { capsule } from './capsule.ts';
import { coldMaceration } from './cold-maceration.ts';
import { decoction } from './decoction.ts';
import { drops } from './drops.ts';
import { freshTincture } from './fresh-tincture.ts';
import { glycerite } from './glycerite.ts';
import { honey } from './honey.ts';
import { infusedOil } from './infused-oil.ts';
import { infusion } from './infusion.ts';
import { liquidBlend } from './liquid-blend.ts';
import { ointment } from './ointment.ts';
import { oxymel } from './oxymel.ts';
import { percolation } from './percolation.ts';
import type { HeldBack, Pot } from './pot.ts';
import { powder } from './powder.ts';
import type { Product } from './product.ts';
import type { Shelf } from './shelf.ts';
import { suppository } from './suppository.ts';
import { syrup } from './syrup.ts';
import { tincture } from './tincture.ts';
import { wash } from './wash.ts';

/** A sentence of the method, its figures kept as figures. */
export type MethodLine = readonly (string | Figure)[];

/** What one making of a formula is: a pot that is strained, a dry powder, or a product of some size. */
export type Making =
  | {
      readonly kind: 'pot';
      readonly pot: Pot;
      readonly inPot: ReadonlyMap<string, Figure<Quantity>>;
      /** The water that the strained liquid is poured into, for a bath. */
      readonly into?: Figure<Quantity>;
      readonly method: readonly MethodLine[];
    }
  | { readonly kind: 'dry'; readonly method: readonly MethodLine[] }
  | Product;

/** What a kind of preparation needs to know besides its own part of the formula file. */
export interface MakingContext {
  /** The exact amount of each line when the whole comes to `whole`. */
  readonly masses: (whole: Figure<Quantity>) => Result<Map<string, Figure<Quantity>>>;
  readonly heldBack: (herb: string) => HeldBack;
  /** What boils off per minute with the practice's own pan and hob, if it has measured it. */
  readonly boilsOff?: Quantity | undefined;
  readonly ingredients: readonly Ingredient[];
  /** The lines of one making together, where a preparation does not say itself how much it is made of. */
  readonly base: Figure<Quantity>;
  readonly shelf: Shelf;
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
  wash,
  powder,
  capsule,
  tincture,
  'fresh-tincture': freshTincture,
  percolation,
  glycerite,
  'infused-oil': infusedOil,
  'liquid-blend': liquidBlend,
  drops,
  syrup,
  honey,
  oxymel,
  ointment,
  suppository,
};

export function makingOf(preparation: Preparation, context: MakingContext): Result<Making> {
  return (KINDS[preparation.kind] as (p: Preparation, c: MakingContext) => Result<Making>)(
    preparation,
    context,
  );
}
