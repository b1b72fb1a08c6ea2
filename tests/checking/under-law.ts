import { fileURLToPath } from 'node:url';
import { type Finding, sentenceText } from '../../src/checking/finding.ts';
import { legalLimit } from '../../src/checking/rules/legal-limit.ts';
import { type HerbFile, loadBench, type MadeUp } from '../../src/cli/load.ts';
import { caseOf, loadCheckTables } from '../../src/cli/load-case.ts';
import { understand } from '../../src/cli/load-person.ts';
import { compound } from '../../src/compounding/compound.ts';
import { openFolder } from '../../src/folder/folder.ts';
import { herbsIn } from '../../src/folder/ingredients.ts';
import { readText } from '../../src/folder/read.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { must } from '../must.ts';
import { WELL, yaml } from './judge.ts';
import { tea } from './small.ts';

/** Formulas of herbs that the library does not have, judged in memory by the law of a place. */

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const library = must(await openFolder(ROOT, ROOT));
const tables = must(await loadCheckTables(library));
const day = must(parseDate('2026-05-02'));

type Files = Readonly<Record<string, string>>;

export const tincture = (id: string, ratio: string, take: string, times = '3', name = 'test-tea'): Files =>
  tea(
    {
      ingredients: `[{herb: ${id}, form: tincture, ratio: '${ratio} w/v', spirit: 60 % v/v, parts: 1}]`,
      preparation: '{kind: liquid-blend}',
      directions: `{take: ${take}, times: ${times}, for: 7 days}`,
    },
    name,
  );

export const powder = (id: string, take: string, times = '3'): Files =>
  tea({
    ingredients: `[{herb: ${id}, form: powder, parts: 1}]`,
    preparation: '{kind: powder}',
    directions: `{take: ${take}, times: ${times}, for: 7 days}`,
  });

export const pot = (id: string, mass: string, kind = 'infusion', more = '', times = '3'): Files =>
  tea({
    ingredients: `[{herb: ${id}, parts: 1}]`,
    preparation: `{kind: ${kind}, ${more} herb: ${mass}, water: 1 L, strained: 500 mL, infuse: 10 min}`,
    directions: `{take: all of the pot, times: ${times}, for: 7 days}`,
  });

export const ointment = (id: string, percent: string): Files =>
  tea({
    route: 'cutaneous',
    ingredients: `[{herb: ${id}, form: powder, percent: ${percent}}, {vehicle: beeswax, parts: 1}]`,
    preparation: '{kind: ointment}',
    directions: '{apply: thinly, times: 2, for: 7 days}',
  });

export interface Asked {
  /** Null: the practice has not said. */
  readonly law?: string | null;
  readonly person?: Readonly<Record<string, string | undefined>> | null;
  readonly formula?: readonly string[];
}

/** What the rule finds in the formulas among these files. */
export async function found(files: Files, asked: Asked = {}): Promise<Finding[]> {
  const { law = 'UK', person = WELL, formula = ['test-tea'] } = asked;
  const folder = { ...library, settings: { ...library.settings, jurisdiction: law } };
  const made: MadeUp[] = [];
  for (const id of formula) made.push(await makeUp(id, files, folder));
  const patient = person && must(await readText('patient', yaml(person), 'patient', null, 'x')).value;
  const understood = must(await understand(patient, folder, day));
  return [...legalLimit.find(caseOf(made, understood, tables, folder, day))];
}

async function makeUp(id: string, files: Files, folder: typeof library): Promise<MadeUp> {
  const read = await readText('formula', files[`formulas/${id}.yaml`] ?? '', id, null, 'x');
  const formula = must(read).value;
  const herbs = new Map<string, HerbFile>();
  for (const herb of herbsIn(formula)) {
    const text = files[`monographs/${herb}.yaml`];
    const monograph =
      text === undefined ? null : must(await readText('monograph', text, herb, null, 'x')).value;
    herbs.set(herb, { monograph, near: [], hash: null });
  }
  const batch = must(compound(formula, { by: 'formula' }, must(await loadBench(folder, herbs))));
  return { folder, formula, herbs, batch };
}

/** `level: sentence`, without what is said of the text of the law. */
export const told = async (files: Files, asked: Asked = {}): Promise<string[]> =>
  (await found(files, asked)).map(
    (f) => `${f.level}: ${sentenceText(f.say).replace(/ \([^(]*: look up what is in force\)/, '')}`,
  );
