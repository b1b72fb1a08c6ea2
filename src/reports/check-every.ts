import type { Case } from '../checking/case.ts';
import type { DecidedCheck } from '../checking/deciding.ts';
import { LEVELS, type Verdict, verdictOf } from '../checking/level.ts';
import { exact } from '../measure/exact.ts';
import { given } from '../measure/figure.ts';
import { CAUTION } from './caution.ts';
import { lettersOf, sourceBlocks } from './check.ts';
import { findingBlocks } from './finding-blocks.ts';
import { type Block, type Sheet, words } from './sheet.ts';

/** A formula that was judged by itself. */
interface Judged {
  readonly c: Case;
  readonly checked: DecidedCheck;
}

const TITLE: Readonly<Record<Verdict, string>> = {
  withhold: 'Withhold: a formula that is not to be handed to anyone',
  ask: 'Ask first: something about a formula is missing or not understood',
  decide: 'Decide: a formula calls for a decision, whoever takes it',
  note: 'No person considered: the formulas alone have something to say',
  clear: 'No person considered: nothing was found in the formulas alone',
};

const nameOf = ({ c }: Judged): string => c.formulas.map((f) => f.formula.formula).join(', ');

/** What every formula comes to by itself, the gravest first, and in full what is more than a note. */
export function everyFormulaSheet(judged: readonly Judged[]): Sheet {
  const rank = ({ checked }: Judged): number =>
    checked.verdict === 'clear' ? LEVELS.length : LEVELS.indexOf(checked.verdict);
  const sorted = [...judged].sort((a, b) => rank(a) - rank(b) || (nameOf(a) < nameOf(b) ? -1 : 1));
  const grave = sorted.map((j) => ({ ...j, found: j.checked.findings.filter((f) => f.level !== 'note') }));
  const letters = lettersOf(grave.flatMap((g) => g.found));
  return {
    title:
      TITLE[verdictOf(sorted.flatMap(({ checked: { verdict } }) => (verdict === 'clear' ? [] : [verdict])))],
    subtitle: 'every formula by itself, no person considered',
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'formula' }, { head: 'comes to' }, ...LEVELS.map((l) => ({ head: l }))],
        rows: sorted.map((j) => [
          words(nameOf(j)),
          words(j.checked.verdict),
          ...LEVELS.map((l) => count(j, l)),
        ]),
      },
      ...grave
        .filter((g) => g.found.length > 0)
        .map((g): Block => ({ kind: 'section', title: nameOf(g), blocks: findingBlocks(g.found, letters) })),
      ...sourceBlocks(letters),
      { kind: 'caution', text: CAUTION },
      {
        kind: 'lines',
        lines: [words('Next: scruple check FORMULA for its notes, with --patient FILE for a person')],
      },
    ],
  };
}

function count({ checked }: Judged, level: (typeof LEVELS)[number]) {
  const n = checked.findings.filter((f) => f.level === level).length;
  return n === 0 ? words('') : given(exact(n), `findings of ${level}`);
}
