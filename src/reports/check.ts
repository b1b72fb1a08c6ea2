import type { Case } from '../checking/case.ts';
import type { DecidedCheck, DecidedFinding, Decision } from '../checking/deciding.ts';
import { sentenceText } from '../checking/finding.ts';
import { LEVELS, type Level } from '../checking/level.ts';
import type { Summary } from '../checking/summary.ts';
import { writeDate } from '../measure/calendar.ts';
import { CAUTION } from './caution.ts';
import { cite } from './cite.ts';
import { decidedLines, findingBlocks, sumsOf, sumText } from './finding-blocks.ts';
import { letterOf } from './letters.ts';
import { answersOf, personLine } from './person-line.ts';
import { type Block, type Line, type Sheet, words } from './sheet.ts';
import { takenLine } from './taken.ts';
import { verdictWords } from './verdict.ts';

/**
 * The check as a sheet: the verdict first, then the findings gravest first, then what was judged and what was not read;
 * at the foot what is to be written.
 */
export function checkSheet(
  c: Case,
  checked: DecidedCheck,
  summary: Summary,
  toBeWritten: readonly Block[],
): Sheet {
  const { person, formulas } = c;
  const letters = lettersOf(checked.findings);
  return {
    title: verdictWords(c, checked),
    subtitle: formulas.map((f) => f.formula.formula).join(', '),
    blocks: [
      { kind: 'lines', lines: [personLine(c)] },
      ...findingBlocks(checked.findings, letters),
      {
        kind: 'section',
        title: 'Judged',
        blocks: [
          {
            kind: 'facts',
            facts: [
              ...formulas.map((f) => ({ label: f.formula.formula, value: takenLine(f.batch) })),
              ...(person ? answersOf(person, c.questions) : []),
            ],
          },
        ],
      },
      ...sourceBlocks(letters),
      ...summaryBlocks(summary),
      { kind: 'caution', text: CAUTION },
      ...toBeWritten,
      ...nextBlocks(c, checked),
    ],
  };
}

/** What an index says of the sheet: for whom, and what it came to. */
export function checkListed(
  c: Case,
  checked: DecidedCheck,
): { readonly head: string; readonly value: Line }[] {
  return [
    { head: 'person', value: words(c.person?.code ?? 'nobody in particular') },
    { head: 'comes to', value: words(verdictWords(c, checked)) },
  ];
}

function nextBlocks({ person, formulas }: Case, { verdict }: DecidedCheck): Block[] {
  const next =
    person === null
      ? `scruple check ${formulas.map((f) => f.formula.formula).join(' ')} --patient FILE`
      : verdict === 'ask'
        ? 'ask, write the answers into the patient file, and check again'
        : null;
  return next === null ? [] : [{ kind: 'lines', lines: [words(`Next: ${next}`)] }];
}

/** Every document that the findings rest on, by the letter under which its full reference stands once. */
export function lettersOf(findings: readonly DecidedFinding[]): Map<string, string> {
  const cited = new Set(findings.flatMap((f) => (f.source ? [cite(f.source)] : [])));
  return new Map([...cited].map((full, i) => [full, letterOf(i)]));
}

export function sourceBlocks(letters: ReadonlyMap<string, string>): Block[] {
  if (letters.size === 0) return [];
  const items = [...letters].map(([full, mark]) => ({ mark, line: words(full) }));
  return [{ kind: 'section', title: 'Sources', blocks: [{ kind: 'list', items }] }];
}

export function summaryBlocks(s: Summary): Block[] {
  const line = (what: string, names: readonly string[]): Line[] =>
    names.length > 0 ? [words(`${what}: ${names.join(', ')}.`)] : [];
  const lines = [
    ...line('Some figures are from memory, not read', s.fromMemory),
    ...line('Not yet signed off by the practitioner', s.notSignedOff),
    ...line('Interactions were not read, which does not mean that there are none', s.interactionsNotRead),
    ...line('Dose below every published range', s.belowRange),
    ...line('Read by a rule of spelling', s.readAs),
    ...line('Decided, and not needed here (any more)', s.decisionsNotNeeded),
    ...line('Looked up, and not needed here (any more)', s.lookedUpInVain),
  ];
  return lines.length > 0 ? [{ kind: 'lines', lines }] : [];
}

/** Keys that scripts rely on: verdict, formulas, patient. */
export function checkJson(c: Case, checked: DecidedCheck, summary: Summary): Record<string, unknown> {
  const counts = Object.fromEntries(
    LEVELS.map((l): [Level, string] => [l, String(checked.findings.filter((f) => f.level === l).length)]),
  );
  return {
    verdict: checked.verdict,
    formulas: c.formulas.map((f) => f.formula.formula),
    patient: c.person?.code ?? null,
    counts,
    summary,
  };
}

/** findings[].{id, basis, level, rule, herb, say, source, reading, decision, counts_as} */
export function checkFindingsJson(checked: DecidedCheck): unknown[] {
  return checked.findings.map((f) => ({
    id: f.id,
    basis: f.basis,
    level: f.level,
    counts_as: f.countsAs,
    rule: f.rule,
    herb: f.herb,
    say: sentenceText(f.say),
    source: f.source ? cite(f.source) : null,
    reading: f.reading,
    figures: f.figures,
    sums: sumsOf(f).map(sumText),
    decision: f.decision && decisionJson(f.decision),
    ...(f.unheld ? { not_counted: decidedLines(f).map((l) => l.words)[0] } : {}),
  }));
}

const decisionJson = ({ because, by, on, until }: Decision): Record<string, unknown> => ({
  because,
  by,
  on: writeDate(on),
  until: until ? writeDate(until) : null,
});
