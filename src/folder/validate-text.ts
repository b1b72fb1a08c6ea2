import { type Measures, NO_MEASURES } from '../measure/parse.ts';
import type { Unit } from '../measure/units.ts';
import type { FileKind } from './kinds.ts';
import { parseYaml } from './parse.ts';
import type { Path } from './positions.ts';
import type { Problem } from './problem.ts';
import { revive, store } from './stored.ts';
import { validate } from './validate.ts';

/**
 * The one door to the YAML parser and the schemas, which are bundled apart and loaded only when a file is not in the
 * compiled index. What passes through it is text: a valid file leaves in the same stored form that the index holds.
 */

export type StoredText =
  | { readonly ok: true; readonly stored: string }
  | { readonly ok: false; readonly why: readonly Problem[] };

export async function validateText(
  kind: FileKind,
  text: string,
  shown: string,
  name: string | null,
  measures: string,
): Promise<StoredText> {
  const parsed = parseYaml(text, shown);
  if (!parsed.ok) return parsed;
  const valid = await validate(kind, parsed.value, shown, name, revivedMeasures(measures));
  return valid.ok ? { ok: true, stored: store(valid.value) } : valid;
}

/** Where these paths stand in a text that is in order. */
export function placesIn(
  text: string,
  shown: string,
  paths: readonly Path[],
): Pick<Problem, 'line' | 'column' | 'excerpt'>[] {
  const parsed = parseYaml(text, shown);
  return paths.map((path) => (parsed.ok ? parsed.value.at(path) : {}));
}

/** Records are written here because the library that writes YAML is loaded here. */
export { amendedText, yamlOf } from './amend.ts';
export { type StoredRow, validateRow } from './validate-row.ts';

function revivedMeasures(text: string): Measures {
  const { settled, own } = revive(text) as { settled: [string, Unit][]; own: [string, Unit][] };
  return settled.length + own.length === 0 ? NO_MEASURES : { settled: new Map(settled), own: new Map(own) };
}
