import type { Case } from '../checking/case.ts';
import type { DecidedCheck } from '../checking/deciding.ts';
import type { Verdict } from '../checking/level.ts';

/** The verdict in words, as it stands at the head of a check. */

const VERDICT: Readonly<Record<Verdict, string>> = {
  withhold: 'Withhold: do not hand it over',
  ask: 'Ask first: an answer is missing, too old or not understood',
  decide: 'Decide: the practitioner must decide and say why',
  note: 'Clear, with something to say to the person',
  clear: 'Clear: nothing was found in what was read',
};

/** Without a person nothing is ever clear for anyone, and the title must not look as if it were. */
const VERDICT_ON_NOBODY: Readonly<Record<Verdict, string>> = {
  ...VERDICT,
  note: 'No person considered: the formula alone has something to say to whoever takes it',
  clear: 'No person considered: nothing was found in the formula alone',
};

export function verdictWords({ person }: Case, { verdict, findings }: DecidedCheck): string {
  if (person === null) return VERDICT_ON_NOBODY[verdict];
  const counting = findings.filter((f) => f.countsAs === verdict);
  if (verdict === 'decide' && counting.every((f) => f.decision !== null))
    return 'Decide: accepted by the practitioner against a reason to withhold';
  if (verdict === 'note' && counting.some((f) => f.decision !== null))
    return counting.every((f) => f.decision !== null)
      ? 'Clear as decided by the practitioner'
      : 'Clear as decided by the practitioner, with something to say to the person';
  return VERDICT[verdict];
}
