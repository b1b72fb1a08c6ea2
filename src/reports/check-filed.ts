import type { Case } from '../checking/case.ts';
import { type DecidedCheck, type DecidedFinding, isUndecided } from '../checking/deciding.ts';
import type { Summary } from '../checking/summary.ts';
import { writeDate } from '../measure/calendar.ts';
import { CAUTION } from './caution.ts';
import { lettersOf, sourceBlocks, summaryBlocks } from './check.ts';
import { considered } from './considered.ts';
import { findingBlocks } from './finding-blocks.ts';
import { personLine } from './person-line.ts';
import { type Block, type Line, type Sheet, words } from './sheet.ts';
import { takenLine } from './taken.ts';
import { verdictWords } from './verdict.ts';

/** What a filed sheet says of where it comes from. */
export interface Origin {
  readonly practice: string | null;
  readonly version: string;
  /** The files that it rests on, each with the hash of its bytes. */
  readonly files: readonly { readonly file: string; readonly hash: string }[];
}

/** The check as a page to be filed: whoever opens it in two years finds who was asked what, what was found and who decided. */
export function filedCheck(c: Case, checked: DecidedCheck, summary: Summary, origin: Origin): Sheet {
  const { person, formulas, on } = c;
  const letters = lettersOf(checked.findings);
  const house = origin.practice === null ? 'Check' : `${origin.practice}: check`;
  const findings = findingBlocks(checked.findings, letters, toSign);
  const notes = summaryBlocks(summary);
  return {
    title: `${house} for ${person?.code ?? 'nobody in particular'}, ${writeDate(on)}`,
    subtitle: formulas
      .map(
        ({ formula: f }) =>
          `${f.title} (${f.formula}${f.version === undefined ? '' : `, version ${f.version}`})`,
      )
      .join('; '),
    blocks: [
      section(verdictWords(c, checked), [{ kind: 'lines', lines: [personLine(c)] }]),
      section('Considered', [
        {
          kind: 'facts',
          facts: [
            ...formulas.map((f) => ({ label: f.formula.formula, value: takenLine(f.batch) })),
            ...(person ? considered(c, person) : []),
          ],
        },
      ]),
      section('Found', findings.length > 0 ? findings : [{ kind: 'lines', lines: [words('Nothing.')] }]),
      ...sourceBlocks(letters),
      ...(notes.length > 0 ? [section('Besides', notes)] : []),
      section('Made from', [{ kind: 'facts', facts: originFacts(origin) }]),
      ...(person ? [signature(person.code)] : []),
      { kind: 'caution', text: CAUTION },
    ],
  };
}

const section = (title: string, blocks: readonly Block[]): Block => ({ kind: 'section', title, blocks });

const blank = (width: number): string => '.'.repeat(width);

/** What is open is settled by hand on paper: an answer, or a decision with its reason. */
function toSign(f: DecidedFinding): Line[] {
  const who = `by ${blank(12)} on ${blank(12)}`;
  if (f.level === 'ask') return [words(`Answer ${blank(40)} asked ${who}`)];
  if (isUndecided(f)) return [words(`Accepted or not, because ${blank(40)} ${who}`)];
  return f.accept || f.level === 'note' ? [] : [words('A legal limit cannot be accepted.')];
}

function signature(code: string): Block {
  const line = `For ${code}: checked by ${blank(24)} on ${blank(12)}; handed over by ${blank(24)} on ${blank(12)}`;
  return { kind: 'lines', lines: [words(line)] };
}

/** Twelve digits of a hash tell any two versions of a file apart. */
const DIGITS = 12;

function originFacts({ version, files }: Origin): { label: string; value: Line }[] {
  return [
    { label: 'program', value: words(`scruple ${version}`) },
    ...files.map(({ file, hash }) => ({ label: file, value: words(`SHA-256 ${hash.slice(0, DIGITS)}`) })),
  ];
}
