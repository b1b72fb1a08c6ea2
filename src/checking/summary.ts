import { type Case, herbsOf } from './case.ts';
import type { Answer } from './person.ts';

/** What concerns the whole sheet and not one decision: one line each, and none of them changes the verdict. */
export interface Summary {
  readonly fromMemory: readonly string[];
  readonly notSignedOff: readonly string[];
  readonly interactionsNotRead: readonly string[];
  readonly belowRange: readonly string[];
  /** Words read by a spelling rule, as `word: name`. */
  readonly readAs: readonly string[];
  /** Decisions in the person's file: they are kept, and do not yet lower a finding. */
  readonly decisionsNotApplied: readonly string[];
}

const sorted = (names: Iterable<string>): string[] => [...new Set(names)].sort();

export function summaryOf(c: Case): Summary {
  const herbs = herbsOf(c);
  const memory = herbs.filter(({ monograph: m, compared }) => {
    if (m === null) return false;
    const facts = [
      ...(m.cautions ?? []),
      ...(m.pregnancy ?? []),
      ...(m.breastfeeding ?? []),
      ...(m.ages ?? []),
    ];
    return (
      compared.some((x) => x.cited.reading === 'memory') ||
      facts.some((f) => (f.reading ?? m.sources[f.source]?.reading) === 'memory')
    );
  });
  const lists: readonly Answer<readonly { readonly word: string; readonly readAs: string | null }[]>[] =
    c.person ? [c.person.medicines, c.person.conditions, c.person.allergies] : [];
  const stated = lists.flatMap((a) => (a.given ? a.value : []));
  return {
    fromMemory: sorted(memory.map((h) => h.herb)),
    notSignedOff: sorted(herbs.filter((h) => h.monograph?.checked === null).map((h) => h.herb)),
    interactionsNotRead: sorted(
      herbs.filter((h) => h.monograph?.interactions === 'not-read').map((h) => h.herb),
    ),
    belowRange: sorted(herbs.filter((h) => isBelow(h.compared)).map((h) => h.herb)),
    readAs: sorted(stated.flatMap((s) => (s.readAs === null ? [] : [`"${s.word}" as ${s.readAs}`]))),
    decisionsNotApplied: sorted((c.person?.source.decisions ?? []).map((d) => d.finding)),
  };
}

/** Below every comparable published figure, and above none. */
function isBelow(compared: ReturnType<typeof herbsOf>[number]['compared']): boolean {
  const told = compared.filter((x) => x.outcome !== 'not comparable');
  return told.length > 0 && told.every((x) => x.outcome === 'below');
}
