import { join } from 'node:path';
import { decode } from '../folder/decode.ts';
import { shownPath } from '../folder/folder.ts';
import type { Problem } from '../folder/problem.ts';
import { readDocument } from '../folder/read.ts';
import type { Patient } from '../folder/schema/patient.ts';
import { revive } from '../folder/stored.ts';
import type { Loading } from './load.ts';
import { patientsIn } from './patients-in.ts';

/** One person of a caseload, or what is wrong with their row. Rows are numbered from 1, as lines and as files are. */
export interface Row {
  readonly number: number;
  readonly read:
    | { readonly ok: true; readonly patient: Patient; readonly formulas: readonly string[] | null }
    | { readonly ok: false; readonly problems: readonly Problem[] };
}

/** The patient files of a folder by their names, each read when its turn comes. */
export function rowsOfFolder(
  folder: string,
): Loading<{ readonly rows: AsyncIterable<Row>; readonly count: number }> {
  const names = patientsIn(folder);
  if (!names.ok) return names;
  return { ok: true, value: { rows: readEach(folder, names.value), count: names.value.length } };
}

async function* readEach(folder: string, names: readonly string[]): AsyncIterable<Row> {
  for (const [i, name] of names.entries()) {
    const path = join(folder, name);
    const read = await readDocument('patient', path, shownPath(path));
    yield {
      number: i + 1,
      read: read.ok
        ? { ok: true, patient: read.value.value, formulas: null }
        : { ok: false, problems: read.why },
    };
  }
}

const FEED = 10;
/** As much as a file may have. */
const LONGEST = 1024 * 1024;
const SHOWN = 'standard input';

/** The rows of newline-delimited JSON, whatever pieces it comes in. Blank lines are no rows, and count as lines. */
export async function* rowsOfStream(stream: AsyncIterable<Uint8Array>): AsyncIterable<Row> {
  const { validateRow } = await import('../folder/validate-text.ts');
  for await (const { number, line } of linesOf(stream)) {
    const text =
      line === null
        ? null
        : decode(line)
            ?.replace(/^\ufeff/, '')
            .trimEnd();
    if (text === '') continue;
    if (text === null || text === undefined) {
      const message =
        line === null
          ? 'this row is longer than 1 MiB, the most that one may have'
          : 'this row is not UTF-8 text: save it as UTF-8';
      yield {
        number,
        read: { ok: false, problems: [{ code: 'not-text', file: SHOWN, line: number, message }] },
      };
      continue;
    }
    const row = await validateRow(text, SHOWN, number);
    yield {
      number,
      read: row.ok
        ? { ok: true, patient: revive(row.stored) as Patient, formulas: row.formulas }
        : { ok: false, problems: row.why },
    };
  }
}

/** Lines as bytes, cut at line feeds and never inside a letter; null for one that is too long to be kept. */
async function* linesOf(
  stream: AsyncIterable<Uint8Array>,
): AsyncIterable<{ readonly number: number; readonly line: Uint8Array | null }> {
  let number = 0;
  let parts: Uint8Array[] = [];
  let length = 0;
  const end = (): { readonly number: number; readonly line: Uint8Array | null } => {
    number += 1;
    const line = length > LONGEST ? null : parts.length === 1 && parts[0] ? parts[0] : Buffer.concat(parts);
    parts = [];
    length = 0;
    return { number, line };
  };
  const keep = (part: Uint8Array): void => {
    length += part.length;
    // Of a line that is too long nothing more is kept, so that one without an end takes no memory.
    if (length <= LONGEST) parts.push(part);
  };
  for await (const chunk of stream) {
    let from = 0;
    for (let at = chunk.indexOf(FEED); at >= 0; at = chunk.indexOf(FEED, from)) {
      keep(chunk.subarray(from, at));
      from = at + 1;
      yield end();
    }
    if (from < chunk.length) keep(chunk.subarray(from));
  }
  if (length > 0) yield end();
}
