import { type Case, herbsOf } from './case.ts';
import type { DecidedCheck } from './deciding.ts';
import { lookedUpInVain } from './looked-up.ts';
import type { Answer } from './person.ts';

/** What concerns the whole sheet and not one decision: one line each, and none of them changes the verdict. */
export interface Summary {
  readonly fromMemory: readonly string[];
  readonly notSignedOff: readonly string[];
  readonly interactionsNotRead: readonly string[];
  readonly belowRange: readonly string[];
  /** Words read by a spelling rule, as `word: name`. */
  readonly readAs: readonly string[];
  /** Decisions about nothing that is found here, or about a note: they may stand in the file, and settle nothing. */
  readonly decisionsNotNeeded: readonly string[];
  /** Words that the file has as looked up, and that are understood or not there any more. */
  readonly lookedUpInVain: readonly string[];
}

const sorted = (names: Iterable<string>): string[] => [...new Set(names)].sort();

export function summaryOf(c: Case, checked: DecidedCheck): Summary {
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
    decisionsNotNeeded: checked.notNeeded.map((id) =>
      checked.findings.some((f) => f.id === id) ? `${id} (a note, which needs no decision)` : id,
    ),
    lookedUpInVain: c.person ? sorted(lookedUpInVain(c.person)) : [],
  };
}

/** Below every comparable published figure, and above none. */
function isBelow(compared: ReturnType<typeof herbsOf>[number]['compared']): boolean {
  const told = compared.filter((x) => x.outcome !== 'not comparable');
  return told.length > 0 && told.every((x) => x.outcome === 'below');
}
