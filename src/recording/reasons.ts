/** Why there is less of a lot than was booked in, or none that may be used. */
export const REASONS = [
  'spilled',
  'moths',
  'mould',
  'spoiled',
  'used',
  'discarded',
  'counted',
  'quarantine',
  'released',
] as const;
