import type { Patient } from '../folder/schema/patient.ts';
import { type CalendarDate, compareDates } from '../measure/calendar.ts';
import { canonical, type Finding } from './finding.ts';
import { ACCEPTED_AS, type Level, type Verdict, verdictOf } from './level.ts';
import type { Checked } from './run.ts';

/** A practitioner's own decision about one finding, with the reason for it. */
export type Decision = NonNullable<Patient['decisions']>[number];

/** Why a decision does not count, though it names a finding of this check. */
export type Unheld = 'a question' | 'law' | 'other facts' | 'later' | 'over';

/** A finding with what was decided about it. It never disappears: it only counts as less. */
export interface DecidedFinding extends Finding {
  /** The decision that holds. */
  readonly decision: Decision | null;
  /** Where none holds: the newest of those that were made about it, and why it does not count. */
  readonly unheld: { readonly decision: Decision; readonly why: Unheld } | null;
  /** The level as the verdict counts it. */
  readonly countsAs: Level;
}

/** A check with the practitioner's decisions. */
export interface DecidedCheck {
  readonly verdict: Verdict;
  readonly findings: readonly DecidedFinding[];
  /** Ids of decisions about nothing that was found, or about a note, which needs none. */
  readonly notNeeded: readonly string[];
}

/**
 * Sets decisions beside the findings that they are about. One holds when it names the id and the basis of the finding,
 * was made by this day and is not over; whatever else is decided changes nothing but what is said. The order of
 * decisions does not matter, and several about one finding may stand in a file, as older ones are renewed.
 */
export function decide(checked: Checked, decisions: readonly Decision[], on: CalendarDate): DecidedCheck {
  const findings = checked.findings.map((f): DecidedFinding => {
    const about = decisions.filter((d) => d.finding === f.id && needsDecision(f)).sort(newestFirst);
    const judged = about.map((decision) => ({ decision, why: whyUnheld(decision, f, on) }));
    const held = judged.find((j) => j.why === null)?.decision ?? null;
    const [first] = judged;
    return {
      ...f,
      decision: held,
      unheld: held === null && first?.why ? { decision: first.decision, why: first.why } : null,
      countsAs: held === null ? f.level : (ACCEPTED_AS[f.level] ?? f.level),
    };
  });
  const needed = new Set(checked.findings.filter(needsDecision).map((f) => f.id));
  const notNeeded = new Set(decisions.map((d) => d.finding).filter((id) => !needed.has(id)));
  return {
    verdict: verdictOf(findings.map((f) => f.countsAs)),
    findings,
    notNeeded: [...notNeeded].sort(),
  };
}

/** A note is said to the person, and is nothing to be decided. */
const needsDecision = (f: Finding): boolean => f.level !== 'note';

/** Whether a decision can settle it at all. */
export const mayBeAccepted = (f: Finding): boolean => f.accept && ACCEPTED_AS[f.level] !== undefined;

export const isUndecided = (f: DecidedFinding): boolean => f.decision === null && mayBeAccepted(f);

function whyUnheld(d: Decision, f: Finding, on: CalendarDate): Unheld | null {
  if (ACCEPTED_AS[f.level] === undefined) return 'a question';
  if (!f.accept) return 'law';
  if (d.basis !== f.basis) return 'other facts';
  if (compareDates(d.on, on) > 0) return 'later';
  return d.until !== undefined && compareDates(d.until, on) < 0 ? 'over' : null;
}

/** Of two of one day the longer counts, and one without an end is the longest; beyond that any order will do, if it is one. */
function newestFirst(a: Decision, b: Decision): number {
  const [x, y] = [a.until, b.until];
  const longer = x && y ? compareDates(y, x) : x ? 1 : y ? -1 : 0;
  return compareDates(b.on, a.on) || longer || (canonical(a) < canonical(b) ? -1 : 1);
}
