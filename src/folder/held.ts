/** What a liquid holds that decides whether it keeps, and what an ointment is set by. */
export const HELD = ['ethanol', 'glycerol', 'sucrose', 'honey', 'water', 'acid', 'fat', 'wax'] as const;
export type Held = (typeof HELD)[number];
