import type { Case } from '../checking/case.ts';
import { type Finding, sentenceText } from '../checking/finding.ts';
import { LEVELS, type Level, type Verdict } from '../checking/level.ts';
import type { Checked } from '../checking/run.ts';
import type { Summary } from '../checking/summary.ts';
import { CAUTION } from './caution.ts';
import { cite, citeShort } from './cite.ts';
import { letterOf } from './letters.ts';
import { answersOf, personLine } from './person-line.ts';
import { type Block, type Line, type Sheet, sentenceOf, words } from './sheet.ts';
import { takenLine } from './taken.ts';

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

/** The check as a sheet: the verdict first, then the findings gravest first, then what was judged and what was not read. */
export function checkSheet(c: Case, checked: Checked, summary: Summary): Sheet {
  const { person, formulas } = c;
  const letters = lettersOf(checked);
  return {
    title: (person ? VERDICT : VERDICT_ON_NOBODY)[checked.verdict],
    subtitle: formulas.map((f) => f.formula.formula).join(', '),
    blocks: [
      { kind: 'lines', lines: [personLine(c)] },
      ...checked.findings.map((f) => findingBlock(f, letters)),
      {
        kind: 'section',
        title: 'Judged',
        blocks: [
          {
            kind: 'facts',
            facts: [
              ...formulas.map((f) => ({ label: f.formula.formula, value: takenLine(f.batch) })),
              ...(person ? answersOf(person) : []),
            ],
          },
        ],
      },
      ...sourceBlocks(letters),
      ...summaryBlocks(summary),
      { kind: 'caution', text: CAUTION },
      ...nextBlocks(c, checked),
    ],
  };
}

function nextBlocks({ person, formulas }: Case, { verdict }: Checked): Block[] {
  const next =
    person === null
      ? `scruple check ${formulas.map((f) => f.formula.formula).join(' ')} --patient FILE`
      : verdict === 'ask'
        ? 'ask, write the answers into the patient file, and check again'
        : null;
  return next === null ? [] : [{ kind: 'lines', lines: [words(`Next: ${next}`)] }];
}

/** Every document that the findings rest on, by the letter under which its full reference stands once. */
function lettersOf({ findings }: Checked): Map<string, string> {
  const cited = new Set(findings.flatMap((f) => (f.source ? [cite(f.source)] : [])));
  return new Map([...cited].map((full, i) => [full, letterOf(i)]));
}

function sourceBlocks(letters: ReadonlyMap<string, string>): Block[] {
  if (letters.size === 0) return [];
  const items = [...letters].map(([full, mark]) => ({ mark, line: words(full) }));
  return [{ kind: 'section', title: 'Sources', blocks: [{ kind: 'list', items }] }];
}

function findingBlock(f: Finding, letters: ReadonlyMap<string, string>): Block {
  return {
    kind: 'finding',
    level: f.level,
    say: sentenceOf(f.say),
    because: [],
    ...(f.source ? { source: `${letters.get(cite(f.source))}, ${citeShort(f.source)}` } : {}),
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
    ...line('Interactions were not read, which does not mean that there are none', s.interactionsNotRead),
    ...line('Dose below every published range', s.belowRange),
    ...line('Read by a rule of spelling', s.readAs),
    ...line('Decided in the file, and not yet counted by this version', s.decisionsNotApplied),
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
