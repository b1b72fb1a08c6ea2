/** What a source says, in one word; `monographs/reference/levels.yaml` gives each its level. */
export const SAYINGS = [
  'contraindicated',
  'avoid',
  'prohibited',
  'not-recommended',
  'caution',
  'monitor',
  'adds-to-effect',
  'take-apart',
  'may-impair-driving',
  'drink-enough',
  'see-someone',
  'tell',
  'acceptable',
] as const;
export type Saying = (typeof SAYINGS)[number];
