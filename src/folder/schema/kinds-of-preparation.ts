import type { Kind } from './preparations.ts';

/** Every kind of preparation, in the order of `preparations.ts`. */
const ALL: Readonly<Record<Kind, true>> = {
  infusion: true,
  decoction: true,
  'cold-maceration': true,
  wash: true,
  powder: true,
  capsule: true,
  tincture: true,
  'fresh-tincture': true,
  percolation: true,
  glycerite: true,
  'infused-oil': true,
  'liquid-blend': true,
  drops: true,
  syrup: true,
  honey: true,
  oxymel: true,
  ointment: true,
  suppository: true,
};

export const KINDS = Object.keys(ALL) as readonly Kind[];
