import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findRoot } from '../../folder/folder.ts';
import { jsonSchema, SCHEMAS, type SchemaName, schemaText } from '../../folder/json-schema.ts';
import { REFERENCE_KINDS } from '../../folder/kinds.ts';
import { initJson, initSheet } from '../../reports/init.ts';
import {
  editorSettings,
  IGNORED,
  PATIENT_TEMPLATE,
  practiceText,
  type Settled,
} from '../../reports/practice-files.ts';
import { type NewFiles, whyNot, writeNew } from '../new-files.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, misused, type Outcome } from '../outcome.ts';
import { askFor, fromOptions, type PracticeOptions } from '../practice-asked.ts';

/** Two that are simple and unlike each other: a tea, and a mixture of tinctures. */
const EXAMPLES = ['after-supper', 'hushed-hours'];

/** Makes a working folder for a practice: the library, two formulas, the settings and a template for patients. */
export async function init(
  [dir = '']: readonly string[],
  options: CommonOptions & PracticeOptions,
): Promise<Outcome> {
  const said = fromOptions(options);
  if (!said.ok) return misused(said.why);
  const unsettled = await filesOf(said.value);
  const refused = whyNot(dir, unsettled);
  if (refused !== null) return misused(refused);
  const person = process.stdin.isTTY === true && process.stdout.isTTY === true && !options.json;
  const settled = person ? await askFor(said.value) : said.value;
  if (settled === null) return misused('the questions were broken off: nothing was written');

  const files = await filesOf(settled);
  const written = await writeNew(dir, files);
  if (!written.ok) return failed([{ code: 'unreadable', file: 'output', message: written.why }]);
  const made = { folder: dir, counts: counted(files), files: [...files.keys()] };
  return answered([{ name: 'init', sheet: initSheet(made), result: initJson(made) }]);
}

/** Every file of a new practice. What is copied keeps its bytes, by which the compiled index knows it. */
async function filesOf(settled: Settled): Promise<NewFiles> {
  const files = new Map<string, string>([
    ['practice.yaml', practiceText(settled)],
    ['patients/TEMPLATE.yaml', PATIENT_TEMPLATE],
    ['.gitignore', IGNORED],
  ]);
  const places = new Map<string, string>();
  for (const name of Object.keys(SCHEMAS) as SchemaName[]) {
    const schema = `schemas/${name}.json`;
    files.set(schema, schemaText(await jsonSchema(name)));
    const place = placeOf(name);
    if (place !== null) places.set(schema, place);
  }
  files.set('.vscode/settings.json', editorSettings(places));
  const shipped = findRoot(dirname(fileURLToPath(import.meta.url)));
  if (shipped === null) throw new Error('the library that comes with the program is not where it was');
  for (const place of ['monographs', 'monographs/reference'])
    for (const name of readdirSync(join(shipped, place)).filter((f) => f.endsWith('.yaml')))
      files.set(`${place}/${name}`, readFileSync(join(shipped, place, name), 'utf8'));
  for (const name of EXAMPLES)
    files.set(`formulas/${name}.yaml`, readFileSync(join(shipped, 'formulas', `${name}.yaml`), 'utf8'));
  return files;
}

/** Which files a schema is for; null for what is no file of the folder. */
function placeOf(name: SchemaName): string | null {
  if (name === 'output' || name === 'lot') return null;
  if (name === 'practice') return 'practice.yaml';
  if (REFERENCE_KINDS.some((k) => k === name)) return `monographs/reference/${name}.yaml`;
  return `${name}s/*.yaml`;
}

const WHAT: readonly (readonly [RegExp, string])[] = [
  [/^monographs\/reference\//, 'shared table'],
  [/^monographs\//, 'monograph'],
  [/^formulas\//, 'formula'],
  [/^schemas\//, 'JSON Schema'],
];

function counted(files: NewFiles): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const file of files.keys()) {
    const what = WHAT.find(([of]) => of.test(file))?.[1] ?? file;
    counts.set(what, (counts.get(what) ?? 0) + 1);
  }
  return counts;
}
