import type { DecidedFinding, Decision, Unheld } from '../checking/deciding.ts';
import { type Sentence, sentenceText } from '../checking/finding.ts';
import { inWords } from '../checking/phrases.ts';
import { writeDate } from '../measure/calendar.ts';
import { type Figure, show, sumOf } from '../measure/figure.ts';
import { cite, citeShort } from './cite.ts';
import { type FindingBlock, type Line, sentenceFrom, sentenceOf, words } from './sheet.ts';

/** Findings as they are printed: each with its sums, what was decided, its source, and what a decision has to name. */
export function findingBlocks(
  findings: readonly DecidedFinding[],
  letters: ReadonlyMap<string, string>,
  toSign: (f: DecidedFinding) => readonly Line[] = () => [],
): FindingBlock[] {
  return groups(findings).map(([first, ...others]): FindingBlock => {
    const all = [first, ...others];
    return {
      kind: 'finding',
      level: first.level,
      say: sentenceOf(sayOfAll(first, all)),
      because: sumsOf(first).map(({ figure, sum }) =>
        sentenceFrom([`${figure.step.says}: ${sum} = `, figure]),
      ),
      decided: [...decidedLines(first), ...toSign(first)],
      ...(first.source ? { source: `${letters.get(cite(first.source))}, ${citeShort(first.source)}` } : {}),
      id: first.id,
      basis: first.basis,
      ...(others.length > 0 ? { also: others.map(({ id, basis }) => ({ id, basis })) } : {}),
    };
  });
}

type Group = readonly [DecidedFinding, ...DecidedFinding[]];

/**
 * What one rule says of several herbs in the same words and from the same source, as one, where the first of them stands.
 * A sentence that names all of them is the same for each as it is; another is so but for the herb.
 */
function groups(findings: readonly DecidedFinding[]): Group[] {
  const named = new Map<string, number>();
  const asItIs = (f: DecidedFinding): string => keyOf(f, f.say);
  for (const f of findings) named.set(asItIs(f), (named.get(asItIs(f)) ?? 0) + 1);
  const byKey = new Map<string, [DecidedFinding, ...DecidedFinding[]]>();
  for (const f of findings) {
    const alike = (named.get(asItIs(f)) ?? 0) > 1 || f.herb === null;
    const key = alike ? asItIs(f) : keyOf(f, withHerb(f.say, f.herb, '{herb}'));
    const known = byKey.get(key);
    if (known) known.push(f);
    else byKey.set(key, [f]);
  }
  return [...byKey.values()];
}

const herbOf = (f: DecidedFinding): string => f.herb ?? '';

function keyOf(f: DecidedFinding, as: Sentence): string {
  if (f.herb === null) return f.id;
  const subject = f.id.slice(`${f.rule}/${f.herb}/`.length);
  const say = sentenceText(as);
  const sums = sumsOf(f).map(({ figure, sum }) => `${figure.step.says} ${sum}`);
  const decided = decidedLines(f).map((l) => ('words' in l ? l.words : ''));
  return JSON.stringify([f.rule, subject, f.level, say, sums, decided, f.source && cite(f.source)]);
}

/** The herb where it stands as a word of its own, behind a word that it depends on or as what the sentence is about. */
function withHerb(say: Sentence, herb: string, list: string, subject = list): Sentence {
  const word = new RegExp(`(\\b(?:about|for|in|of|with) )?(?<![\\w-])${herb}(?![\\w-])`, 'g');
  const named = (_: string, before?: string): string => (before ? before + list : subject);
  return say.map((part) => (typeof part === 'string' ? part.replace(word, named) : part));
}

function sayOfAll(first: DecidedFinding, all: readonly DecidedFinding[]): Sentence {
  if (all.length === 1) return first.say;
  const said = sentenceText(first.say);
  const namesAll = all.every((f) => sentenceText(f.say) === said && said.includes(herbOf(f)));
  return namesAll ? first.say : ofAll(first, all.map(herbOf));
}

function ofAll(first: DecidedFinding, herbs: readonly string[]): Sentence {
  const list = inWords(herbs);
  const named = withHerb(first.say, herbOf(first), list, `each of ${list}`);
  return sentenceText(named) === sentenceText(first.say) ? [...first.say, `(of ${list})`] : named;
}

/** The last sum behind each figure of a sentence that was worked out; --working has all that lead to it. */
export function sumsOf(f: DecidedFinding): { readonly figure: Figure; readonly sum: string }[] {
  const said = f.say.filter((part): part is Figure => typeof part !== 'string');
  const worked = new Map<Figure['step'], { figure: Figure; sum: string }>();
  for (const figure of said.map(beforeConversion)) {
    const sum = sumOf(figure);
    if (sum !== null) worked.set(figure.step, { figure, sum });
  }
  return [...worked.values()];
}

/** A figure that only stands in another unit leads back to where it was worked out. */
function beforeConversion(figure: Figure): Figure {
  const [from] = figure.step.inputs;
  return figure.step.by === '{}' && from ? beforeConversion(from) : figure;
}

/** What was decided, and why a decision that names this finding does not count. */
export function decidedLines({ decision, unheld }: DecidedFinding) {
  if (decision !== null) return [words(acceptedWords(decision))];
  return unheld === null ? [] : [words(`${byWhom(unheld.decision)}, ${UNHELD[unheld.why](unheld.decision)}`)];
}

function acceptedWords({ by, on, until, because }: Decision): string {
  return `Accepted by ${by} on ${writeDate(on)}${until ? ` (until ${writeDate(until)})` : ''}: ${because}`;
}

const byWhom = ({ by, on }: Decision): string => `Decided by ${by} on ${writeDate(on)}`;

const UNHELD: Readonly<Record<Unheld, (d: Decision) => string>> = {
  'a question': () => 'but this is a question: it wants an answer',
  law: () => 'but a legal limit cannot be accepted',
  'other facts': () => 'but the facts have changed since: decide anew',
  later: () => 'which is after the day of this check: it does not count yet',
  over: ({ until }) => `until ${until ? writeDate(until) : 'then'}, which is past: decide anew`,
};

/** The figure as a person reads it, for scripts too. */
export const sumText = ({ figure, sum }: { figure: Figure; sum: string }): string =>
  `${figure.step.says}: ${sum} = ${show(figure)}`;
