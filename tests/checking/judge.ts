import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';
import type { Case } from '../../src/checking/case.ts';
import type { Finding } from '../../src/checking/finding.ts';
import { sentenceText } from '../../src/checking/finding.ts';
import { type Checked, runCheck } from '../../src/checking/run.ts';
import { loadBatch, type MadeUp } from '../../src/cli/load.ts';
import { caseOf, loadCheckTables } from '../../src/cli/load-case.ts';
import { understand } from '../../src/cli/load-person.ts';
import { openFolder } from '../../src/folder/folder.ts';
import { readText } from '../../src/folder/read.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { must } from '../must.ts';

/** Judges a formula for a person by the same way that the program goes, in a folder of the test's own. */

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const made: string[] = [];
afterAll(() => {
  for (const dir of made) rmSync(dir, { recursive: true, force: true });
});

export function folderWith(files: Readonly<Record<string, string>>): string {
  const dir = mkdtempSync(join(tmpdir(), 'scruple-check-'));
  made.push(dir);
  for (const part of ['monographs', 'formulas'])
    cpSync(join(ROOT, part), join(dir, part), { recursive: true });
  for (const [name, text] of Object.entries(files)) writeFileSync(join(dir, name), text);
  return dir;
}

/** An adult man who was asked everything and has nothing; a test changes what it is about. */
export const WELL: Readonly<Record<string, string>> = {
  patient: 'T-1',
  asked: '2026-05-02',
  born: '1984-02-11',
  weight: '70 kg',
  sex: 'male',
  conditions: '[]',
  medicines: '[]',
  allergies: '[]',
  taking: '[]',
  drives: 'no',
  avoids_alcohol: 'no',
  fluid_restricted: 'no',
  surgery: 'null',
};

/** A woman of thirty who was asked everything. */
export const WOMAN: Readonly<Record<string, string>> = {
  ...WELL,
  born: '1996-01-20',
  sex: 'female',
  pregnant: 'no',
  breastfeeding: 'no',
  trying_to_conceive: 'no',
};

export interface Asked {
  /** One formula, or several that are checked together. */
  readonly formula: string | readonly string[];
  /** Answers by question; undefined leaves a question out. Null: nobody. */
  readonly person: Readonly<Record<string, string | undefined>> | null;
  readonly on?: string;
  readonly files?: Readonly<Record<string, string>>;
}

/** A folder of its files, opened once for however many people. */
async function opened(files: Readonly<Record<string, string>>) {
  const dir = folderWith(files);
  const folder = must(await openFolder(dir, dir));
  return { folder, tables: must(await loadCheckTables(folder)), batches: new Map<string, MadeUp>() };
}
const shared = new Map<string, ReturnType<typeof opened>>();

export async function caseFor({ formula, person, on = '2026-05-02', files = {} }: Asked): Promise<Case> {
  const key = JSON.stringify(files);
  const known = shared.get(key) ?? opened(files);
  shared.set(key, known);
  const { folder, tables, batches } = await known;
  const batchesFor: MadeUp[] = [];
  for (const id of [formula].flat()) {
    const batch = batches.get(id) ?? must(await loadBatch(folder, id, {}));
    batches.set(id, batch);
    batchesFor.push(batch);
  }
  const day = must(parseDate(on));
  const patient =
    person === null ? null : must(await readText('patient', yaml(person), 'patient', null, 'x')).value;
  const understood = must(await understand(patient, folder, day));
  return caseOf(batchesFor, understood, tables, folder, day);
}

export const judge = async (asked: Asked): Promise<Checked> => runCheck(await caseFor(asked));

export const yaml = (person: Readonly<Record<string, string | undefined>>): string =>
  Object.entries(person)
    .flatMap(([k, v]) => (v === undefined ? [] : [`${k}: ${v}`]))
    .join('\n');

/** `level rule herb`, for reading. */
export const told = (c: Checked): string[] => c.findings.map((f) => `${f.level} ${f.rule} ${f.herb ?? '-'}`);

export const of = (c: Checked, rule: string, herb?: string): Finding[] =>
  c.findings.filter((f) => f.rule === rule && (herb === undefined || f.herb === herb));

export const says = (f: Finding | undefined): string => (f ? sentenceText(f.say) : '');
