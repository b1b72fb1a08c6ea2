import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Runs the built program as a person does, and holds folders for it to be run in. */

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
export const PROGRAM = join(ROOT, 'bin', 'scruple.js');
export const PATIENTS = join(ROOT, 'tests', 'practice', 'patients');

export const FORMULAS = [
  'after-supper',
  'bitter-end-drops',
  'causeway-syrup',
  'deck-capsules',
  'ginger-honey',
  'harbour-salve',
  'hillside-tincture',
  'hushed-hours',
  'marsh-edge-percolate',
  'new-moon-balm',
  'quay-suppositories',
  'quiet-evening',
  'saltmarsh-gargle',
  'steady-journey',
  'stiff-joints',
  'still-night',
  'sun-oil',
  'sweet-balm-glycerite',
  'tidal-oxymel',
  'winter-chest',
];
/** Formulas whose lines are poured by volume, and those that are put on the skin without measure. */
export const POURED = ['hushed-hours', 'bitter-end-drops'];
export const APPLIED = ['sun-oil', 'harbour-salve'];
export const CODES = ['S-101', 'S-102', 'S-103', 'S-104', 'S-105', 'S-106', 'S-107', 'S-108'];

/** The day on which the invented practice sees its people. */
export const ON = '2026-05-02';

/** The caution that every sheet carries once. */
export const CAUTION = 'Caution: For trained practitioners';

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

interface How {
  readonly cwd?: string;
  readonly input?: string;
  readonly env?: Readonly<Record<string, string>>;
}

/** Without the variables that change how the program prints, unless they are given. */
export function run(args: readonly string[], { cwd = ROOT, input, env = {} }: How = {}): Ran {
  const { NO_COLOR: _, FORCE_COLOR: __, TERM: ___, ...rest } = process.env;
  const ran = spawnSync(process.execPath, [PROGRAM, ...args], {
    cwd,
    input: input ?? '',
    env: { ...rest, ...env },
    encoding: 'utf8',
    timeout: 20_000,
  });
  return { code: ran.status, out: ran.stdout, err: ran.stderr };
}

// biome-ignore lint/suspicious/noExplicitAny: what a script reads has no type of ours
export type Json = any;

/** The one envelope that a run with --json prints; anything else on standard output fails. */
export function json(args: readonly string[], how: How = {}): Json {
  const [only, ...more] = envelopes(run([...args, '--json'], how));
  if (only === undefined || more.length > 0) throw new Error(`not one envelope: ${more.length + 1}`);
  return only;
}

export function envelopes({ out }: Ran): Json[] {
  if (!out.endsWith('\n')) throw new Error(`no line end after ${out.slice(-40)}`);
  return out
    .slice(0, -1)
    .split('\n')
    .map((line) => JSON.parse(line));
}

export const patient = (code: string): string => join(PATIENTS, `${code}.yaml`);

const made: string[] = [];

/** An empty folder of its own; the name may be anything that a file system allows. */
export function emptyFolder(name = 'practice'): string {
  const above = mkdtempSync(join(tmpdir(), 'scruple-cli-'));
  made.push(above);
  const folder = join(above, name);
  mkdirSync(folder);
  return folder;
}

/** A practice of its own to spoil: the shipped monographs and formulas, with the invented practice's settings. */
export function practiceFolder(name?: string): string {
  const folder = emptyFolder(name);
  for (const part of ['monographs', 'formulas'])
    cpSync(join(ROOT, part), join(folder, part), { recursive: true });
  cpSync(join(ROOT, 'tests', 'practice'), folder, { recursive: true });
  return folder;
}

/** Writes a file of the folder, text or bytes, and gives its path. */
export function put(folder: string, file: string, text: string | Buffer): string {
  const path = join(folder, file);
  writeFileSync(path, text);
  return path;
}

export function removeFolders(): void {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
}

/** A formula of one herb for the tests that spoil it. */
export const TEA = `formula: river-tea
title: River tea
ingredients:
  - {herb: thyme-herb, parts: 1}
preparation: {kind: infusion, herb: 12 g, water: 1 imp pint, strained: 500 mL, infuse: 15 min}
directions: {take: 150 mL, times: 3, for: 7 days}
`;
