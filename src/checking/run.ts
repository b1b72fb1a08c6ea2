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
  const findings = oneOfEach(RULES.flatMap((rule) => rule.find(c))).sort(
    (a, b) => graver(a, b) || compareText(a.herb ?? '', b.herb ?? '') || compareText(a.id, b.id),
  );
  return { verdict: verdictOf(findings.map((f) => f.level)), findings };
}

/** What two formulas or two words bring up alike is one finding: the graver of the two. */
function oneOfEach(findings: readonly Finding[]): Finding[] {
  const kept = new Map<string, Finding>();
  for (const f of findings) {
    const before = kept.get(f.id);
    if (before === undefined || (graver(f, before) || compareText(f.basis, before.basis)) < 0)
      kept.set(f.id, f);
  }
  return [...kept.values()];
}

function graver(a: Finding, b: Finding): number {
  return LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level);
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
