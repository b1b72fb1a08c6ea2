import type { FileKind } from '../../src/folder/kinds.ts';
import { type Problem, writeProblem } from '../../src/folder/problem.ts';
import { readText } from '../../src/folder/read.ts';

/** Small files without a fault, to be changed in one place. The plants in them are invented. */

export const MONOGRAPH = `id: marsh-star-herb
names:
  latin: Stella palustris Inv.
  common: [marsh star]
family: Stellaceae
part: herb
checked: null
sources:
  board: {body: Invented board, title: Marsh star, year: 2020, reading: practice}
doses:
  - {use: common-cold, preparation: {kind: infusion}, route: oral, single: 1.5-4 g, times: 3, source: board}
cautions:
  - {when: {allergy: [marsh star]}, says: contraindicated, why: invented, source: board}
pregnancy: {says: not-recommended, because: no-data, source: board}
interactions: not-read
`;

export const FORMULA = `formula: marsh-tea
title: Marsh tea
ingredients:
  - {herb: marsh-star-herb, parts: 2}
  - {herb: hill-star-root, parts: 1.5}
preparation: {kind: decoction, herb: 12 g, water: 400 mL, boil: 10 min, make_up_to: 300 mL}
directions: {take: 150 mL, times: 2, for: 7 days}
`;

export const PATIENT = `patient: P-1
asked: 2026-05-02
born: 1984-02-11
medicines: [salbutamol]
surgery: null
`;

/** The text with one passage changed; a passage that is not there is a fault of the test. */
export function changed(text: string, from: string, to: string): string {
  if (!text.includes(from)) throw new Error(`"${from}" is not in the text`);
  return text.replace(from, to);
}

export async function problemsOf(
  kind: FileKind,
  text: string,
  name: string | null = null,
): Promise<readonly Problem[]> {
  const read = await readText(kind, text, 'file.yaml', name, 'hash');
  return read.ok ? [] : read.why;
}

/** Every problem as `line:column: message`. */
export async function told(kind: FileKind, text: string, name: string | null = null): Promise<string[]> {
  return (await problemsOf(kind, text, name)).map((p) => writeProblem(p).replace(/^file\.yaml:/, ''));
}

/** The file read; throws with its problems where it has some. */
export async function valid(
  kind: 'formula' | 'monograph' | 'patient' | 'practice',
  text: string,
): Promise<Record<string, unknown>> {
  const read = await readText(kind, text, 'file.yaml', null, 'hash');
  if (!read.ok) throw new Error(read.why.map(writeProblem).join('\n'));
  return read.value.value as unknown as Record<string, unknown>;
}
