import { existsSync } from 'node:fs';
import { basename, dirname, join, relative, resolve } from 'node:path';
import { type Folder, idsOf, pathOf, readById, readTable, shownPath } from '../../folder/folder.ts';
import { type FileKind, REFERENCE_KINDS } from '../../folder/kinds.ts';
import { libraryFaults } from '../../folder/library-laws.ts';
import type { Problem } from '../../folder/problem.ts';
import { readDocument } from '../../folder/read.ts';
import {
  type Known,
  missingInEffects,
  missingInFormula,
  missingInMonograph,
  placed,
} from '../../folder/references.ts';
import { readRecords } from '../../recording/journal.ts';
import { parseRecordNumber } from '../../recording/number.ts';
import { checkedJson, checkedSheet, validateJson, validateSheet } from '../../reports/validate.ts';
import { allergyVocabulary, knownAllergyTarget } from '../../vocabulary/allergies.ts';
import { conditionVocabulary, knownConditionTarget } from '../../vocabulary/conditions.ts';
import { knownMedicineTarget, medicineVocabulary } from '../../vocabulary/medicines.ts';
import { loadFolder } from '../load.ts';
import { loadEvery } from '../load-herb.ts';
import type { CommonOptions } from '../options.ts';
import { answered, failed, type Outcome } from '../outcome.ts';
import { recordsOf } from '../recorded.ts';

/** Reads every file of the folder, or the files named, and reports every fault with its place. */
export async function validate(
  files: readonly string[],
  options: CommonOptions & { readonly checked?: boolean },
): Promise<Outcome> {
  const folder = await loadFolder(options);
  if (!folder.ok) return failed(folder.problems);
  if (options.checked) return signedOff(folder.value);
  const { problems, counts } =
    files.length > 0 ? await validateFiles(files, folder.value) : await validateFolder(folder.value);
  if (problems.length > 0) return failed(problems);
  return answered([{ name: 'validate', sheet: validateSheet(counts), result: validateJson(counts) }]);
}

/** What the practitioner has not compared with the texts they trust. */
async function signedOff(folder: Folder): Promise<Outcome> {
  const herbs = await loadEvery(folder, 'monograph');
  if (!herbs.ok) return failed(herbs.problems);
  return answered([{ name: 'validate', sheet: checkedSheet(herbs.value), result: checkedJson(herbs.value) }]);
}

type Counts = Map<string, number>;
interface Validated {
  readonly problems: readonly Problem[];
  readonly counts: Counts;
}

async function validateFiles(files: readonly string[], folder: Folder): Promise<Validated> {
  const problems: Problem[] = [];
  const counts: Counts = new Map();
  for (const file of files) {
    const kind = kindOf(file, folder);
    const read = await readDocument(kind, file, shownPath(file), folder.measures);
    if (!read.ok) problems.push(...read.why);
    counts.set(kind, (counts.get(kind) ?? 0) + 1);
  }
  return { problems, counts };
}

/** What a file is, by where it lies; one that lies nowhere in particular is a patient's. */
function kindOf(file: string, folder: Folder): FileKind {
  const name = basename(file, '.yaml');
  if (name === 'practice') return 'practice';
  if (basename(dirname(resolve(file))) === 'records' && parseRecordNumber(name).ok) return 'record';
  const table = REFERENCE_KINDS.find((k) => k === name || `${k}.own` === name);
  if (table) return table;
  const place = relative(folder.root, dirname(resolve(file)));
  if (place === 'monographs' || basename(dirname(resolve(file))) === 'monographs') return 'monograph';
  return place === 'formulas' || basename(dirname(resolve(file))) === 'formulas' ? 'formula' : 'patient';
}

async function validateFolder(folder: Folder): Promise<Validated> {
  const problems: Problem[] = [];
  const counts: Counts = new Map();
  for (const kind of REFERENCE_KINDS) {
    const read = await readTable(folder, kind);
    if (!read.ok) problems.push(...read.why);
    counts.set('shared table', (counts.get('shared table') ?? 0) + 1);
  }
  if (existsSync(join(folder.root, 'practice.yaml'))) counts.set('practice', 1);
  const records = await validateRecords(folder);
  problems.push(...records.problems);
  if (records.count > 0) counts.set('record', records.count);
  const known = problems.length === 0 ? await knownWords(folder) : null;
  const effects = known && (await readTable(folder, 'additive-effects'));
  if (known && effects?.ok) {
    const missing = missingInEffects(effects.value.value, known);
    problems.push(...(await placed(folder, pathOf('additive-effects', 'additive-effects'), missing)));
  }
  for (const kind of ['monograph', 'formula'] as const) {
    for (const id of idsOf(folder, kind)) {
      counts.set(kind, (counts.get(kind) ?? 0) + 1);
      const read = await readById(folder, kind, id);
      if (!read.ok) problems.push(...read.why);
      else if (known) {
        const { value } = read.value;
        problems.push(
          ...(await placed(
            folder,
            pathOf(kind, id),
            'formula' in value
              ? missingInFormula(value, known)
              : [...missingInMonograph(value, known), ...libraryFaults(value)],
          )),
        );
      }
    }
  }
  return { problems, counts };
}

/** Each record by itself, and that none is missing in the row. */
async function validateRecords(
  folder: Folder,
): Promise<{ readonly problems: readonly Problem[]; readonly count: number }> {
  const now = recordsOf(folder);
  if (!now.ok) return { problems: now.problems, count: 0 };
  const read = await readRecords(now.value, now.value.numbers);
  return { problems: read.ok ? [] : read.problems, count: now.value.last };
}

async function knownWords(folder: Folder): Promise<Known | null> {
  const [names, groups, conditions, allergies, uses] = [
    await readTable(folder, 'medicines'),
    await readTable(folder, 'medicine-groups'),
    await readTable(folder, 'conditions'),
    await readTable(folder, 'allergies'),
    await readTable(folder, 'uses'),
  ];
  const vehicles = await readTable(folder, 'vehicles');
  const effects = await readTable(folder, 'additive-effects');
  if (!vehicles.ok || !effects.ok) return null;
  if (!names.ok || !groups.ok || !conditions.ok || !allergies.ok || !uses.ok) return null;
  const medicines = medicineVocabulary(names.value.value, groups.value.value);
  const states = conditionVocabulary(conditions.value.value);
  const plants = allergyVocabulary(allergies.value.value, medicines);
  return {
    herbs: idsOf(folder, 'monograph'),
    vehicles: vehicles.value.value.vehicles.map((v) => v.id),
    uses: uses.value.value.uses.map((u) => u.id),
    effects: effects.value.value.effects.map((e) => e.id),
    medicine: (t) => knownMedicineTarget(medicines, t),
    condition: (t) => knownConditionTarget(states, t),
    // A genus of a plant that the tables do not list still meets an allergy to that very plant.
    allergy: (t) => knownAllergyTarget(plants, t) || /^[A-Z][a-z-]+$/.test(t),
  };
}
