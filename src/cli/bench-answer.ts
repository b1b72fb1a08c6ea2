import type { Batch } from '../compounding/compound.ts';
import type { KeptAs } from '../folder/schema/record.ts';
import { writeDate } from '../measure/calendar.ts';
import { type BenchRecord, benchJson, benchPages, benchSheet } from '../reports/bench-sheet.ts';
import { weighJson } from '../reports/weigh.ts';
import type { Answer } from './outcome.ts';

/** The sheet for the bench, with the lots of a batch that is on record. */
export function benchAnswer(batch: Batch, record: KeptAs<'batch'> | null): Answer {
  const recorded: BenchRecord | null = record && {
    number: record.record,
    made: writeDate(record.on),
    discardAfter: writeDate(record.label.discard_after),
    lines: record.lines,
  };
  const sheet = benchSheet(batch, recorded);
  return {
    name: `${batch.formula.formula}-bench`,
    sheet,
    document: benchPages(sheet),
    result: {
      ...weighJson(batch),
      bench: benchJson(batch, recorded),
      ...(record ? { record: record.record } : {}),
    },
  };
}
