import { conditionTerm } from './condition-holds.ts';
import {
  type ConditionIndex,
  type ConditionVocabulary,
  type Named,
  type StatedCondition,
  withBroader,
} from './condition-index.ts';
import { type Found, MOST_SUGGESTIONS, suggestions } from './found.ts';
import { normal } from './normal.ts';
import { otherSpellings } from './spelling.ts';

export { conditionHolds, conditionTerm, knownConditionTarget, urgentSigns } from './condition-holds.ts';
export {
  type ConditionVocabulary,
  conditionVocabulary,
  type StatedCondition,
  type UrgentSign,
} from './condition-index.ts';

/** What a person's words, or an ICD-10 code, for a condition mean. A code beside the word adds to it and makes it finer. */
export function resolveCondition(
  v: ConditionVocabulary,
  answer: { readonly name: string; readonly icd10?: string | undefined },
): Found<StatedCondition> {
  const byWord = fromWord(v, answer.name);
  const code = asCode(answer.icd10 ?? answer.name);
  const byCode = code === undefined ? undefined : fromCode(v, code);
  if (byWord.kind !== 'found') return byCode ? fromCodeAlone(v, answer.name, byCode) : byWord;
  if (answer.icd10 === undefined) return byWord;
  if (!byCode) return { ...byWord, item: { ...byWord.item, notListed: answer.icd10 } };
  if (byWord.item.denied)
    return { kind: 'ambiguous', word: answer.name, could: [answer.name, termsOf(v, byCode).join(', ')] };
  return { ...byWord, item: bothOf(byWord.item, byCode) };
}

/** A code below which alone something is known ("Z99" above dialysis) is not understood: those are suggested. */
function fromCodeAlone(v: ConditionVocabulary, given: string, code: StatedCondition): Found<StatedCondition> {
  if (code.ids.length + code.urgent.length > 0) return { kind: 'found', item: code, how: 'code' };
  return { kind: 'unknown', word: given, near: termsOf(v, code).slice(0, MOST_SUGGESTIONS) };
}

function bothOf(word: StatedCondition, code: StatedCondition): StatedCondition {
  const finer = word.named.every((id) => code.ids.includes(id));
  return {
    ...word,
    ids: [...new Set([...word.ids, ...code.ids])],
    named: finer ? [] : word.named,
    possible: code.possible.filter((id) => !word.ids.includes(id)),
  };
}

interface Hit {
  readonly named: Named;
  readonly how: 'name' | 'spelling';
}

function lookUp(v: ConditionVocabulary, word: string): Hit | undefined {
  const exact = v.index.words.get(word);
  if (exact) return { named: exact, how: 'name' };
  const respelt = [
    ...new Set(otherSpellings(word, v.table.spelling ?? []).flatMap((s) => v.index.words.get(s) ?? [])),
  ];
  const [only] = respelt;
  const one =
    only !== undefined &&
    new Set(respelt.flatMap((n) => n.conditions)).size <= 1 &&
    new Set(respelt.flatMap((n) => n.urgent)).size <= 1;
  if (!one) return undefined;
  return {
    named: {
      conditions: [...new Set(respelt.flatMap((n) => n.conditions))],
      urgent: [...new Set(respelt.flatMap((n) => n.urgent))],
    },
    how: 'spelling',
  };
}

function fromWord(v: ConditionVocabulary, given: string): Found<StatedCondition> {
  const { index } = v;
  const whole = normal(given);
  const direct = read(v, whole);
  if (direct) return outcome(v, given, direct, undefined);
  const denial = index.denials.find((d) => whole.startsWith(`${d} `));
  const rest = denial === undefined ? undefined : whole.slice(denial.length + 1);
  const denied = rest === undefined ? undefined : read(v, rest);
  // "no severe asthma" denies a form and leaves the rest open: it is not understood, and so is asked.
  if (denied && rest !== undefined && deniesAll(index, rest, denied.qualifiers))
    return outcome(v, given, denied, rest);
  return {
    kind: 'unknown',
    word: given,
    near: suggestions([...new Set([whole, bare(index, rest ?? whole)])], index.written),
  };
}

/** A word less all its leading words, for suggestions. */
function bare(index: ConditionIndex, word: string): string {
  const leading = index.leading.find((l) => word.startsWith(`${l} `));
  return leading === undefined ? word : bare(index, word.slice(leading.length + 1));
}

interface Read {
  readonly hit: Hit | undefined;
  readonly could: readonly string[] | undefined;
  readonly qualifiers: readonly string[];
  /** The words that were found, without what was set aside. */
  readonly word: string;
}

/** Looks a word up as it stands, then without its leading words one after another. */
function read(v: ConditionVocabulary, word: string): Read | undefined {
  const qualifiers: string[] = [];
  for (let rest: string | undefined = word; rest !== undefined; ) {
    const could = v.index.ambiguous.get(rest);
    const hit = could ? undefined : lookUp(v, rest);
    if (could || hit) return { hit, could, qualifiers, word: rest };
    const leading: string | undefined = v.index.leading.find((l) => rest?.startsWith(`${l} `));
    if (leading !== undefined) qualifiers.push(leading);
    rest = leading === undefined ? undefined : rest.slice(leading.length + 1);
  }
  return undefined;
}

function deniesAll(index: ConditionIndex, rest: string, qualifiers: readonly string[]): boolean {
  const leading = index.leading.find((l) => rest.startsWith(`${l} `));
  return [...qualifiers, ...(leading === undefined ? [] : [leading])].every((q) =>
    index.deniedWholeAfter.has(q),
  );
}

function outcome(
  v: ConditionVocabulary,
  given: string,
  r: Read,
  deniedRest: string | undefined,
): Found<StatedCondition> {
  if (r.could) return { kind: 'ambiguous', word: given, could: r.could };
  const hit = r.hit as Hit;
  const named = hit.named.conditions.map((c) => c.id);
  const denied = deniedRest !== undefined;
  const item: StatedCondition = {
    ids: denied ? named : withBroader(v.index, named),
    named,
    possible: [],
    denied,
    // A synonym may be narrower than its term ("hepatitis B"), and a denial of it must not clear the term.
    whole: denied && hit.named.conditions.every((c) => [c.id, c.term].some((w) => normal(w) === r.word)),
    qualifiers: r.qualifiers,
    asks: denied ? [] : hit.named.conditions.flatMap((c) => c.ask ?? []),
    urgent: denied ? [] : hit.named.urgent.map((u) => u.id),
  };
  return { kind: 'found', item, how: hit.how };
}

/** An ICD-10 code without its dot; undefined for anything else. */
function asCode(text: string): string | undefined {
  const code = text.trim().toUpperCase().replace(/[.\s]/g, '');
  return /^[A-Z]\d\d[\dA-Z]{0,4}$/.test(code) ? code : undefined;
}

/** Every entry whose prefixes take the code in counts; an entry below a short code is possible. */
function fromCode(v: ConditionVocabulary, code: string): StatedCondition | undefined {
  const prefixes = (c: { icd10?: string[] | undefined }): string[] =>
    (c.icd10 ?? []).map((p) => p.replace('.', ''));
  const hit = v.table.conditions.filter((c) => prefixes(c).some((p) => code.startsWith(p)));
  const below = v.table.conditions.filter(
    (c) => !hit.includes(c) && prefixes(c).some((p) => p.startsWith(code)),
  );
  const urgent = v.table.urgent.filter((u) => prefixes(u).some((p) => code.startsWith(p)));
  if (hit.length + below.length + urgent.length === 0) return undefined;
  const ids = withBroader(
    v.index,
    hit.map((c) => c.id),
  );
  return {
    ids,
    named: [],
    possible: withBroader(
      v.index,
      below.map((c) => c.id),
    ).filter((id) => !ids.includes(id)),
    denied: false,
    whole: false,
    qualifiers: [],
    asks: hit.flatMap((c) => c.ask ?? []),
    urgent: urgent.map((u) => u.id),
  };
}

/** The terms of what a code names, or of what it leaves open where it names nothing. */
function termsOf(v: ConditionVocabulary, code: StatedCondition): string[] {
  const named = [...code.ids, ...code.urgent];
  return (named.length > 0 ? named : code.possible).map((id) => conditionTerm(v, id));
}
