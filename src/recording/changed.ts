import type { KeptAs, RestsOn } from '../folder/schema/record.ts';

/** What of a dispensing's grounds is another today. */
export interface Changed {
  readonly record: KeptAs<'dispensing'>;
  readonly what: readonly string[];
}

/** Sets what a dispensing rested on beside the same of today; null where all of it means what it meant. */
export function changedSince(
  record: KeptAs<'dispensing'>,
  today: Pick<RestsOn, 'formula' | 'herbs'>,
): Changed | null {
  const then = record.rests_on;
  const what: string[] = [];
  if (then.formula !== today.formula) what.push(`the formula ${record.formula}`);
  for (const herb of then.herbs) {
    const now = today.herbs.find((h) => h.herb === herb.herb);
    if (herb.monograph !== now?.monograph) what.push(`the monograph ${herb.herb}`);
    if (herb.limits !== now?.limits) what.push(`the limits of ${herb.herb}`);
  }
  return what.length > 0 ? { record, what } : null;
}
