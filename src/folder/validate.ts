import { type Measures, NO_MEASURES, ownMeasure, parseQuantity } from '../measure/parse.ts';
import { cleanLine } from '../reports/escape.ts';
import { explain, type Issue, meant } from './explain.ts';
import { type FileKind, type Holds, ID_KEY, schemaOf } from './kinds.ts';
import { OWN } from './overlay.ts';
import type { ParsedYaml } from './parse.ts';
import type { Path } from './positions.ts';
import type { Problem, ProblemCode } from './problem.ts';

export type Validated<K extends FileKind> = { ok: true; value: Holds[K] } | { ok: false; why: Problem[] };

/** Checks a parsed file against the schema of its kind; every problem at once, each at its own key. */
export async function validate<K extends FileKind>(
  kind: K,
  parsed: ParsedYaml,
  file: string,
  name: string | null,
  measures: Measures = NO_MEASURES,
): Promise<Validated<K>> {
  const own = name?.endsWith(OWN) ?? false;
  const schema = await schemaOf(kind, withOwnMeasures(kind, parsed.value, measures), own);
  const outcome = schema.safeParse(parsed.value, { jitless: isNew(schema) });
  const issues = outcome.success
    ? []
    : allIssues(schema, parsed.value, outcome.error.issues as unknown as Issue[]);
  const problems = [...parsed.faults];
  for (const issue of issues) {
    for (const { path, code, message } of explain(issue, parsed.value))
      problems.push(problemAt(parsed, file, path, code, message));
  }
  const wrongId = idProblem(kind, parsed, file, name);
  if (wrongId) problems.push(wrongId);
  if (problems.length > 0 || !outcome.success) return { ok: false, why: inOrder(problems) };
  return { ok: true, value: outcome.data as Holds[K] };
}

/** Code that zod makes for a schema pays only where many files are held against it. */
const FEW = 4;
const held = new WeakMap<object, number>();

function isNew(schema: object): boolean {
  const before = held.get(schema) ?? 0;
  held.set(schema, before + 1);
  return before < FEW;
}

/** Where a misspelled kind leaves a map unread, the map is read once more as the kind that was meant. */
function allIssues(
  schema: import('zod').ZodType,
  value: unknown,
  issues: readonly Issue[],
): readonly Issue[] {
  const guesses = issues.flatMap((i) => meant(i, value) ?? []);
  if (guesses.length === 0) return issues;
  const again = schema.safeParse(guesses.reduce((v, g) => replaced(v, g.path, g.word), value));
  const more = again.success ? [] : (again.error.issues as unknown as Issue[]);
  return [...issues.filter((i) => meant(i, value) !== undefined), ...more];
}

function replaced(value: unknown, path: Path, word: string): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return word;
  if (Array.isArray(value)) return value.map((v, i) => (i === key ? replaced(v, rest, word) : v));
  const map = value as Record<PropertyKey, unknown>;
  return { ...map, [key]: replaced(map[key], rest, word) };
}

function idProblem(
  kind: FileKind,
  parsed: ParsedYaml,
  file: string,
  name: string | null,
): Problem | undefined {
  const key = ID_KEY[kind];
  if (key === undefined || name === null) return undefined;
  const id = (parsed.value as Record<string, unknown>)[key];
  if (typeof id !== 'string' || id === '' || id === name) return undefined;
  return problemAt(
    parsed,
    file,
    [key],
    'wrong-id',
    `${key} is "${id.slice(0, 80)}" but the file is named ${name}.yaml: make them the same`,
  );
}

/** By place; one mistake that stands behind several aliases is told once. */
function inOrder(problems: readonly Problem[]): Problem[] {
  const told = new Set<string>();
  return [...problems]
    .sort((a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0))
    .filter((p) => {
      const what = `${p.line}:${p.column} ${p.message}`;
      return !told.has(what) && told.add(what);
    });
}

/** A formula may define measures of its own (a level scoop of this blend); they are read before the rest of it. */
function withOwnMeasures(kind: FileKind, value: unknown, measures: Measures): Measures {
  const own = kind === 'formula' ? (value as { measures?: unknown }).measures : undefined;
  if (own === null || typeof own !== 'object') return measures;
  const added = new Map(measures.own);
  for (const [name, size] of Object.entries(own as Record<string, unknown>)) {
    const q = typeof size === 'string' ? parseQuantity(size, NO_MEASURES, ['mass', 'volume']) : undefined;
    if (q?.ok) added.set(name.toLowerCase(), ownMeasure(name, q.value));
  }
  return { ...measures, own: added };
}

export function problemAt(
  parsed: ParsedYaml,
  file: string,
  path: Path,
  code: ProblemCode,
  message: string,
): Problem {
  return { code, file, ...parsed.at(path), message: cleanLine(message) };
}
