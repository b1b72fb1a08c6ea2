import type { Case } from './case.ts';
import type { Finding } from './finding.ts';
import { LEVELS, type Verdict, verdictOf } from './level.ts';
import { RULES } from './rules/index.ts';

/** What a check came to. */
export interface Checked {
  readonly verdict: Verdict;
  readonly findings: readonly Finding[];
}

/** Runs every rule; findings by level, then herb, then id, so that no order of input can show. */
export function runCheck(c: Case): Checked {
  const findings = RULES.flatMap((rule) => rule.find(c)).sort(
    (a, b) =>
      LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level) ||
      compareText(a.herb ?? '', b.herb ?? '') ||
      compareText(a.id, b.id),
  );
  return { verdict: verdictOf(findings.map((f) => f.level)), findings };
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
