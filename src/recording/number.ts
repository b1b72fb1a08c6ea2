import { bad, ok, type Result } from '../measure/result.ts';

/** The number of a record, at least six figures: `000012`. Lots, batches and dispensings are numbered in one row. */
export type RecordNumber = string;

const FIGURES = 6;
const MOST_FIGURES = 9;

export const recordNumber = (n: number): RecordNumber => String(n).padStart(FIGURES, '0');

/** Reads `12` or `000012`. */
export function parseRecordNumber(text: string): Result<RecordNumber> {
  const t = text.trim();
  const n = Number(t);
  return /^\d+$/.test(t) && n > 0 && String(n).length <= MOST_FIGURES
    ? ok(recordNumber(n))
    : bad(`"${t.slice(0, 40)}" is not the number of a record: write it as on the label, such as 000012`);
}
