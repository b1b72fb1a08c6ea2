import { pathKey, type RowPlaces, readRow } from './json-row.ts';
import type { ParsedYaml } from './parse.ts';
import type { Problem } from './problem.ts';
import { store } from './stored.ts';
import { validate } from './validate.ts';

/** A row of a caseload: a patient file as JSON, and which formulas are meant for this person. */
export type StoredRow =
  | { readonly ok: true; readonly stored: string; readonly formulas: readonly string[] | null }
  | { readonly ok: false; readonly why: readonly Problem[] };

/** Reads and validates one row; `line` is where it stands in what was read. */
export async function validateRow(text: string, shown: string, line: number): Promise<StoredRow> {
  const row = readRow(text);
  const fault = (message: string, at: number): StoredRow => ({
    ok: false,
    why: [{ code: 'syntax', file: shown, line, column: at + 1, message }],
  });
  if (!row.ok) return fault(row.why.message, row.why.at);
  if (typeof row.value === 'string' || Array.isArray(row.value))
    return fault('a row is a map of answers: write {"patient": "P-017", "asked": "2026-05-02"}', 0);
  const { formulas, ...answers } = row.value as { readonly formulas?: unknown };
  const named = formulas === undefined ? null : namesIn(formulas);
  if (named === undefined)
    return fault(
      'formulas is a list of formulas: write such as ["after-supper"]',
      placeOf(text, ['formulas']),
    );
  const parsed: ParsedYaml = {
    value: answers,
    faults: [],
    at: (path) => ({ line, column: placeOf(text, path) + 1, excerpt: '' }),
  };
  const valid = await validate('patient', parsed, shown, null);
  return valid.ok
    ? { ok: true, stored: store(valid.value), formulas: named }
    : { ok: false, why: valid.why.map(({ excerpt: _, ...p }) => p) };
}

function namesIn(formulas: unknown): readonly string[] | undefined {
  const list: unknown[] = Array.isArray(formulas) ? formulas : [];
  return list.length > 0 && list.every((f) => typeof f === 'string') ? (list as string[]) : undefined;
}

/** Where a value stands; a key that is missing, where the map that lacks it does. */
function placeOf(text: string, path: readonly PropertyKey[]): number {
  const places: RowPlaces = new Map();
  readRow(text, places);
  for (let n = path.length; n >= 0; n -= 1) {
    const at = places.get(pathKey(path.slice(0, n)));
    if (at !== undefined) return at;
  }
  return 0;
}
