/** As it is weighed: the herb itself. */
export const RAW = ['dried', 'powder', 'fresh'] as const;

/** As it stands on the shelf, drawn out before: so much herb in so much of it. */
export const STOCK = [
  'tincture',
  'liquid-extract',
  'glycerite',
  'syrup',
  'honey',
  'oxymel',
  'infused-oil',
  'essential-oil',
] as const;

export const FORMS = [...RAW, ...STOCK] as const;
export type Form = (typeof FORMS)[number];

/** Whether it was drawn out before. Without a form, the dried herb is meant. */
export const isStockForm = (form: Form | undefined): boolean =>
  (STOCK as readonly string[]).includes(form ?? 'dried');
