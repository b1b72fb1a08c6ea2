import type { LabelFacts } from '../folder/schema/record.ts';
import { writeDate } from '../measure/calendar.ts';

/** What stands on a label, as a record keeps it. */
export const labelText = ({ made, discard_after: until, ...rest }: LabelFacts): Record<string, unknown> => ({
  ...rest,
  made: writeDate(made),
  discard_after: writeDate(until),
});
