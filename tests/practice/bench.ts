import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse, stringify } from 'yaml';
import type { Finding } from '../../src/checking/finding.ts';
import { sentenceText } from '../../src/checking/finding.ts';
import { type Checked, runCheck } from '../../src/checking/run.ts';
import { loadBench, loadMonographs, type MadeUp } from '../../src/cli/load.ts';
import { caseOf, loadCheckTables } from '../../src/cli/load-case.ts';
import { understand } from '../../src/cli/load-person.ts';
import { compound } from '../../src/compounding/compound.ts';
import { type Folder, openFolder } from '../../src/folder/folder.ts';
import { findHerb } from '../../src/folder/herb-names.ts';
import { readText } from '../../src/folder/read.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { must } from '../must.ts';

/** The bench of the check: people, what is handed over, and what must be found, written from published texts. */

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const CASES = fileURLToPath(new URL('./cases/', import.meta.url));

export interface Given {
  readonly herb: string;
  readonly as: string;
  readonly single?: string;
  readonly times?: number | string;
  readonly days?: number;
  readonly use?: string;
  readonly route?: string;
  readonly ratio?: string;
  readonly spirit?: string;
  /** Of the powdered herb itself, in an ointment. */
  readonly percent?: string;
}

export interface Expected {
  readonly rule: string;
  readonly herb?: string | null;
  readonly level?: string | readonly string[];
  readonly about?: string;
}

export interface BenchCase {
  readonly id: string;
  readonly category: string;
  readonly unsafe: boolean;
  readonly why: string;
  readonly source: string;
  readonly person: Readonly<Record<string, unknown>>;
  readonly leave_out?: readonly string[];
  readonly give: readonly Given[];
  readonly taking?: readonly unknown[];
  readonly on?: string;
  /** Whose law counts; the shipped library is of no practice and has none. */
  readonly jurisdiction?: string;
  readonly must: readonly Expected[];
  readonly must_not?: readonly Expected[];
}

export function benchCases(): BenchCase[] {
  return readdirSync(CASES).flatMap((file) => {
    const { category, cases } = parse(readFileSync(`${CASES}${file}`, 'utf8')) as {
      category: string;
      cases: (Omit<BenchCase, 'unsafe' | 'category'> & { unsafe: unknown })[];
    };
    return cases.map((c) => ({
      ...c,
      category,
      unsafe: c.unsafe === true || c.unsafe === 'yes',
      must: c.must ?? [],
    }));
  });
}

const folder = must(await openFolder(ROOT, ROOT));
const tables = must(await loadCheckTables(folder));

/** A formula of one herb as the case gives it. */
function formulaText(g: Given, n: number): string {
  const { single = '1 g', times = 1, days = 7 } = g;
  const head = {
    formula: `given-${n}`,
    title: `Given ${n}`,
    ...(g.use ? { use: g.use } : {}),
    ...(g.route ? { route: g.route } : {}),
  };
  const directions = (take: string) => ({ take, times: String(times), for: `${days} days` });
  const pot = { herb: single, water: '1 L', strained: '500 mL' };
  const whole = directions('all of the pot');
  const plain = [{ herb: g.herb, parts: '1' }];
  switch (g.as) {
    case 'infusion':
      return stringify({
        ...head,
        ingredients: plain,
        preparation: { kind: 'infusion', ...pot, infuse: '10 min' },
        directions: whole,
      });
    case 'decoction':
      return stringify({
        ...head,
        ingredients: plain,
        preparation: { kind: 'decoction', ...pot, boil: '10 min' },
        directions: whole,
      });
    case 'cold-maceration':
      return stringify({
        ...head,
        ingredients: plain,
        preparation: { kind: 'cold-maceration', ...pot, macerate: '8 h' },
        directions: whole,
      });
    case 'bath':
    case 'compress':
    case 'gargle':
      return stringify({
        ...head,
        ingredients: plain,
        preparation: { kind: 'wash', for: g.as, ...pot, infuse: '10 min' },
        directions: whole,
      });
    case 'powder':
    case 'capsule':
      return stringify({
        ...head,
        ingredients: [{ herb: g.herb, form: 'powder', parts: '1' }],
        preparation: { kind: 'powder' },
        directions: directions(single),
      });
    case 'honey':
      return stringify({
        ...head,
        ingredients: [{ herb: g.herb, form: 'powder', parts: '1' }],
        preparation: { kind: 'honey', ratio: '1:9 w/w', strained: 'no' },
        directions: directions(single),
      });
    case 'ointment':
      return stringify({
        ...head,
        route: g.route ?? 'cutaneous',
        ingredients: [
          g.percent
            ? { herb: g.herb, form: 'powder', percent: g.percent }
            : { herb: g.herb, form: 'infused-oil', ratio: g.ratio ?? '1:5 w/w', percent: '80' },
          { vehicle: 'beeswax', parts: '1' },
        ],
        preparation: { kind: 'ointment' },
        directions: { apply: 'thinly', times: String(times), for: `${days} days` },
      });
    // Peppermint oil weighs 0.900 to 0.916 g a mL (relative density, Ph. Eur., from memory).
    case 'essential-oil':
    case 'inhalation':
      return stringify({
        ...head,
        ingredients: [{ herb: g.herb, form: 'essential-oil', density: '0.91 g/mL', parts: '1' }],
        preparation: { kind: 'liquid-blend' },
        directions: directions(single),
      });
    case 'syrup':
      return stringify({
        ...head,
        ingredients: plain,
        preparation: {
          kind: 'syrup',
          by: 'infusion',
          herb: '50 g',
          water: '1 L',
          strained: '500 mL',
          sugar: '65 % m/m',
        },
        directions: directions(single),
      });
    default:
      return stringify({
        ...head,
        ingredients: [
          {
            herb: g.herb,
            form: g.as,
            ratio: g.ratio ?? '1:5 w/v',
            ...(g.spirit ? { spirit: g.spirit } : {}),
            parts: '1',
          },
        ],
        preparation: { kind: 'liquid-blend' },
        directions: directions(single),
      });
  }
}

async function makeUp(as: Given, n: number): Promise<MadeUp> {
  const named = await findHerb(folder, as.herb);
  const ratio = as.ratio && !/w\/[vw]/.test(as.ratio) ? `${as.ratio} w/v` : as.ratio;
  const g = { ...as, herb: named.kind === 'found' ? named.id : as.herb, ...(ratio ? { ratio } : {}) };
  const formula = must(await readText('formula', formulaText(g, n), `given-${n}`, null, 'x')).value;
  const herbs = must(await loadMonographs(folder, [g.herb]));
  const batch = must(compound(formula, { by: 'formula' }, must(await loadBench(folder, herbs))));
  return { folder, formula, herbs, batch };
}

const ASKED = {
  conditions: [],
  medicines: [],
  allergies: [],
  taking: [],
  drives: 'no',
  avoids_alcohol: 'no',
  fluid_restricted: 'no',
  surgery: null,
  weight: '70 kg',
};
const OF_WOMEN = { pregnant: 'no', breastfeeding: 'no', trying_to_conceive: 'no' };

function patientText(c: BenchCase): string {
  const on = c.on ?? '2026-05-02';
  const asked = { asked: on, ...ASKED, ...(c.person.sex === 'female' ? OF_WOMEN : {}), ...c.person };
  const herbs = (c.taking ?? []) as Record<string, unknown>[];
  const all: Record<string, unknown> = {
    patient: 'B-1',
    ...asked,
    ...(herbs.length > 0 ? { taking: herbs.map(known) } : {}),
  };
  const left = [...(c.leave_out ?? []), ...((c.person.leave_out as string[] | undefined) ?? []), 'leave_out'];
  for (const key of left) delete all[key];
  return stringify(all);
}

/** What a patient file holds of something taken. */
const known = ({ herb, formula, daily, since, stopped }: Record<string, unknown>): Record<string, unknown> =>
  Object.fromEntries(
    Object.entries({ herb, formula, daily, since, stopped }).filter(([, v]) => v !== undefined),
  );

/** What the check says of a case. */
export async function judgeCase(c: BenchCase): Promise<Checked> {
  const day = must(parseDate(c.on ?? '2026-05-02'));
  const patient = must(await readText('patient', patientText(c), c.id, null, 'x')).value;
  const understood = must(await understand(patient, folder, day));
  const made: MadeUp[] = [];
  for (const [n, g] of c.give.entries()) made.push(await makeUp(g, n + 1));
  return runCheck(caseOf(made, understood, tables, under(c.jurisdiction), day));
}

const CODES: Readonly<Record<string, string>> = { Canada: 'CA' };

/** The library in a practice under this law. */
const under = (jurisdiction: string | undefined): Folder =>
  jurisdiction === undefined
    ? folder
    : { ...folder, settings: { ...folder.settings, jurisdiction: CODES[jurisdiction] ?? jurisdiction } };

const levelsOf = (e: Expected): readonly string[] | null =>
  e.level === undefined ? null : typeof e.level === 'string' ? [e.level] : e.level;

/** Whether a finding is the one that is named. */
export const isMeant = (f: Finding, e: Expected): boolean =>
  f.rule === e.rule &&
  (e.herb === undefined || e.herb === null || f.herb === e.herb) &&
  (levelsOf(e)?.includes(f.level) ?? true);

/**
 * Rules whose finding says the same by another name: an allergy that the monograph itself names, a word for no herb that
 * is known, a word that may mean a medicine which the monograph names.
 */
const SAID_BY: Readonly<Record<string, string>> = {
  allergy: 'caution',
  'no-monograph': 'unknown-word',
  'unknown-word': 'caution',
};

/** Whether a finding is the one that is named, for the reason that is named. */
export function meets(f: Finding, e: Expected): boolean {
  const rule = SAID_BY[e.rule];
  const herb = f.herb === null ? null : (e.herb ?? null);
  const meant =
    isMeant(f, e) ||
    (rule !== undefined && isMeant(f, { ...e, rule, herb })) ||
    // What one source only notes may stand in a graver finding about the same, in its own words.
    (e.level === 'note' && e.about !== undefined && isMeant(f, { ...e, level: ['withhold', 'decide'] }));
  return meant && (e.about === undefined || told(f).toLowerCase().includes(e.about.toLowerCase()));
}

export const told = (f: Finding): string =>
  `${f.level} ${f.rule} ${f.herb ?? '-'}: ${sentenceText(f.say)} (${f.source?.body ?? 'no source'})`;
