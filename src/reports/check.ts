import type { Case } from '../checking/case.ts';
import { type Finding, sentenceText } from '../checking/finding.ts';
import { LEVELS, type Level, type Verdict } from '../checking/level.ts';
import type { Checked } from '../checking/run.ts';
import type { Summary } from '../checking/summary.ts';
import { CAUTION } from './caution.ts';
import { cite } from './cite.ts';
import { personLine } from './person-line.ts';
import { type Block, type Line, type Sheet, sentenceOf, words } from './sheet.ts';

const VERDICT: Readonly<Record<Verdict, string>> = {
  withhold: 'withhold: do not hand it over',
  ask: 'ask first: an answer is missing, too old or not understood',
  decide: 'decide: the practitioner must decide and say why',
  note: 'clear, with something to say to the person',
  clear: 'clear: nothing was found in what was read',
};

/** The check as a sheet: the verdict first, then the findings gravest first, then one line for what concerns them all. */
export function checkSheet(c: Case, checked: Checked, summary: Summary): Sheet {
  const names = c.formulas.map((f) => f.formula.formula).join(', ');
  return {
    title: `${names}: ${VERDICT[checked.verdict]}`,
    blocks: [
      { kind: 'lines', lines: [personLine(c)] },
      ...checked.findings.map(findingBlock),
      ...summaryBlocks(summary),
      { kind: 'caution', text: CAUTION },
    ],
  };
}

function findingBlock(f: Finding): Block {
  return {
    kind: 'finding',
    level: f.level,
    say: sentenceOf(f.say),
    because: [],
    ...(f.source ? { source: cite(f.source) } : {}),
    id: f.id,
    basis: f.basis,
  };
}

function summaryBlocks(s: Summary): Block[] {
  const line = (what: string, names: readonly string[]): Line[] =>
    names.length > 0 ? [words(`${what}: ${names.join(', ')}.`)] : [];
  const lines = [
    ...line('Some figures are from memory, not read', s.fromMemory),
    ...line('Not yet signed off by the practitioner', s.notSignedOff),
    ...line('Interactions were not read', s.interactionsNotRead),
    ...line('Dose below every published range', s.belowRange),
    ...line('Read by a rule of spelling', s.readAs),
  ];
  return lines.length > 0 ? [{ kind: 'lines', lines }] : [];
}

/** Keys that scripts rely on: verdict, formulas, patient. */
export function checkJson(c: Case, checked: Checked, summary: Summary): Record<string, unknown> {
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

/** findings[].{id, basis, level, rule, herb, say, source, reading} */
export function checkFindingsJson(checked: Checked): unknown[] {
  return checked.findings.map((f) => ({
    id: f.id,
    basis: f.basis,
    level: f.level,
    rule: f.rule,
    herb: f.herb,
    say: sentenceText(f.say),
    source: f.source ? cite(f.source) : null,
    reading: f.reading,
    figures: f.figures,
  }));
}
