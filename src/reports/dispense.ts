import type { Case } from '../checking/case.ts';
import type { DecidedCheck } from '../checking/deciding.ts';
import type { Amendment } from '../folder/amend.ts';
import type { KeptAs } from '../folder/schema/record.ts';
import { writeDate } from '../measure/calendar.ts';
import { given } from '../measure/figure.ts';
import { writeMoney } from '../measure/money.ts';
import type { Quantity } from '../measure/quantity.ts';
import { lastsFor } from '../recording/lasts.ts';
import { linesTable, otherwiseBlocks } from './batch.ts';
import { CAUTION } from './caution.ts';
import { lettersOf, sourceBlocks } from './check.ts';
import { findingBlocks } from './finding-blocks.ts';
import { personLine } from './person-line.ts';
import { type Block, exactly, type Line, type Sheet, sentence, words } from './sheet.ts';
import { takenLabel, takenLine } from './taken.ts';

/** What was handed over, as recorded: to whom, what, of which lots, what was said and decided, when they come again. */
export function dispensingSheet(
  record: KeptAs<'dispensing'>,
  c: Case,
  checked: DecidedCheck,
  remedy: { readonly otherwise: readonly Amendment[] },
): Sheet {
  const letters = lettersOf(checked.findings);
  const [f] = c.formulas;
  const findings = findingBlocks(checked.findings, letters);
  return {
    title: `Record ${record.record}: ${record.title} for ${record.patient}`,
    subtitle: `${record.formula}, handed over ${writeDate(record.on)} by ${record.by}`,
    blocks: [
      { kind: 'lines', lines: [personLine(c)] },
      {
        kind: 'facts',
        facts: [
          { label: 'handed over', value: exactly(given(record.amount, 'handed over')) },
          ...(f
            ? [{ label: takenLabel(f.batch), value: takenLine(f.batch) }, ...lastsFacts(record, f.batch)]
            : []),
          { label: 'from', value: words(fromWords(record)) },
          { label: 'discard after', value: words(writeDate(record.label.discard_after)) },
          {
            label: 'next review',
            value: words(record.review ? writeDate(record.review) : 'not set: --review sets it'),
          },
          ...(record.cost?.length
            ? [{ label: 'cost', value: words(record.cost.map(writeMoney).join(', ')) }]
            : []),
          ...(record.like ? [{ label: 'like', value: words(likeWords(record)) }] : []),
          ...(record.corrects
            ? [{ label: 'corrects', value: words(`record ${record.corrects}: ${record.because}`) }]
            : []),
        ],
      },
      ...(record.lines ? [linesTable(record.lines)] : []),
      ...otherwiseBlocks(remedy.otherwise),
      ...(findings.length > 0 ? [{ kind: 'section', title: 'Found', blocks: findings } as Block] : []),
      ...sourceBlocks(letters),
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: scruple label ${record.record}`)] },
    ],
  };
}

const fromWords = ({ batch, lines }: KeptAs<'dispensing'>): string => {
  if (batch) return `batch ${batch}`;
  return (lines ?? []).some((l) => l.draws.length > 0)
    ? 'the shelf, line by line'
    : 'herbs of which no lot is recorded';
};

const likeWords = ({ like, changes }: KeptAs<'dispensing'>): string =>
  `record ${like}${changes ? `, changed: ${changes.join(', ')}` : ''}`;

function lastsFacts(
  { amount, on }: KeptAs<'dispensing'>,
  { supply }: Case['formulas'][number]['batch'],
): { label: string; value: Line }[] {
  const lasts = lastsFor(amount, supply, on);
  return lasts ? [{ label: 'lasts', value: sentence`${lasts.days}` }] : [];
}

/** The check that stood in the way; nothing was recorded. */
export function refusedSheet(check: Sheet): Sheet {
  return {
    ...check,
    title: `Not handed over: ${check.title.charAt(0).toLowerCase()}${check.title.slice(1)}`,
    blocks: [
      { kind: 'lines', lines: [words('Nothing was recorded, and nothing was taken of the shelf.')] },
      ...check.blocks,
    ],
  };
}

/** Keys for scripts: record, patient, formula, amount, batch or drawn[], verdict, discard_after, review. */
export function dispensingJson(record: KeptAs<'dispensing'>, c: Case): Record<string, unknown> {
  return {
    record: record.record,
    on: writeDate(record.on),
    by: record.by,
    patient: c.person?.code ?? record.patient,
    formula: record.formula,
    formulas: [record.formula],
    amount: record.amount as Quantity,
    batch: record.batch ?? null,
    drawn: (record.lines ?? []).map((l) => ({ of: l.of, amount: l.amount, draws: l.draws })),
    verdict: record.verdict,
    discard_after: writeDate(record.label.discard_after),
    review: record.review ? writeDate(record.review) : null,
    cost: (record.cost ?? []).map(writeMoney),
    like: record.like ?? null,
    changes: record.changes ?? [],
    corrects: record.corrects ?? null,
  };
}
