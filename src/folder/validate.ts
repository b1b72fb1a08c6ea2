import { nearest } from '../measure/nearest.ts';
import { type Measures, NO_MEASURES, ownMeasure, parseQuantity } from '../measure/parse.ts';
import { type FileKind, type Holds, ID_KEY, schemaOf } from './kinds.ts';
import type { ParsedYaml } from './parse.ts';
import type { Path } from './positions.ts';
import type { Problem, ProblemCode } from './problem.ts';

/** Shape of a zod issue as far as it is used here; zod itself is loaded only with a schema. */
interface Issue {
  readonly code: string;
  readonly path: PropertyKey[];
  readonly message: string;
  readonly expected?: string;
  readonly input?: unknown;
  readonly keys?: readonly string[];
  readonly values?: readonly unknown[];
  readonly errors?: readonly (readonly Issue[])[];
  readonly params?: Record<string, unknown>;
  readonly discriminator?: string;
  readonly options?: readonly string[];
}

export type Validated<K extends FileKind> = { ok: true; value: Holds[K] } | { ok: false; why: Problem[] };

/** Checks a parsed file against the schema of its kind; every problem at once, each at its own key. */
export async function validate<K extends FileKind>(
  kind: K,
  parsed: ParsedYaml,
  file: string,
  name: string | null,
  measures: Measures = NO_MEASURES,
): Promise<Validated<K>> {
  const schema = await schemaOf(kind, withOwnMeasures(kind, parsed.value, measures));
  const outcome = schema.safeParse(parsed.value);
  const problems: Problem[] = outcome.success
    ? []
    : (outcome.error.issues as unknown as Issue[]).flatMap((i) => fromIssue(i, parsed, file));
  const idKey = ID_KEY[kind];
  const id = idKey === undefined ? undefined : (parsed.value as Record<string, unknown> | null)?.[idKey];
  if (idKey !== undefined && name !== null && typeof id === 'string' && id !== name) {
    problems.push(
      problemAt(
        parsed,
        file,
        [idKey],
        'wrong-id',
        `${idKey} is "${id}" but the file is named ${name}.yaml: make them the same`,
      ),
    );
  }
  if (problems.length > 0 || !outcome.success)
    return {
      ok: false,
      why: problems.sort((a, b) => (a.line ?? 0) - (b.line ?? 0) || (a.column ?? 0) - (b.column ?? 0)),
    };
  return { ok: true, value: outcome.data as Holds[K] };
}

/** A formula may define measures of its own (a level teaspoon of this blend); they are read before the rest of it. */
function withOwnMeasures(kind: FileKind, value: unknown, measures: Measures): Measures {
  const own = kind === 'formula' ? (value as { measures?: unknown } | null)?.measures : undefined;
  if (own === null || typeof own !== 'object') return measures;
  const added = new Map(measures.own);
  for (const [name, size] of Object.entries(own as Record<string, unknown>)) {
    const q = typeof size === 'string' ? parseQuantity(size, measures, ['mass', 'volume']) : undefined;
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
  const { line, column, excerpt } = parsed.at(path);
  return { code, file, line, column, message, excerpt };
}

const quote = (words: readonly unknown[]): string => words.map(String).join(', ');

function fromIssue(issue: Issue, parsed: ParsedYaml, file: string, above: Path = []): Problem[] {
  const path = [...above, ...issue.path];
  const here = (code: ProblemCode, message: string, at: Path = path): Problem =>
    problemAt(parsed, file, at, code, message);
  const last = path.length > 0 ? String(path[path.length - 1]) : 'the file';
  switch (issue.code) {
    case 'unrecognized_keys': {
      const known = issue.message.startsWith('known keys: ') ? issue.message.slice(12).split(' ') : [];
      return (issue.keys ?? []).map((key) => {
        const near = nearest(key, known);
        const hint = near.length > 0 ? `did you mean ${near.join(' or ')}?` : `known here: ${quote(known)}`;
        return here('unknown-key', `unknown key "${key}": ${hint}`, [...path, key]);
      });
    }
    case 'invalid_union': {
      if (issue.discriminator !== undefined)
        return [
          choice(
            here,
            [...path, issue.discriminator],
            valueAt(parsed.value, [...path, issue.discriminator]),
            issue.options ?? [],
          ),
        ];
      const branches = issue.errors ?? [];
      const fit = branches.filter((b) => !b.every((i) => i.code === 'invalid_type' && i.path.length === 0));
      const best = (fit.length > 0 ? fit : branches).reduce(
        (a, b) => (b.length < a.length ? b : a),
        (fit.length > 0 ? fit : branches)[0] ?? [],
      );
      const value = valueAt(parsed.value, path);
      const choices = branches.flatMap((b) =>
        b.flatMap((i) => (i.code === 'invalid_value' && i.path.length === 0 ? (i.values ?? []) : [])),
      );
      if (typeof value === 'string' && choices.length > 0) return [choice(here, path, value, choices)];
      return best.flatMap((i) => fromIssue(i, parsed, file, path));
    }
    case 'invalid_type': {
      const value = valueAt(parsed.value, path);
      if (value === undefined) return [here('missing-key', `"${last}" is missing`, path.slice(0, -1))];
      return [
        here(
          'wrong-type',
          `"${last}" must be ${KIND_WORDS[issue.expected ?? ''] ?? issue.expected}, and it is ${shapeOf(value)}`,
        ),
      ];
    }
    case 'invalid_value':
      return valueAt(parsed.value, path) === undefined
        ? [
            here(
              'missing-key',
              `"${last}" is missing: one of ${quote(issue.values ?? [])}`,
              path.slice(0, -1),
            ),
          ]
        : [choice(here, path, valueAt(parsed.value, path), issue.values ?? [])];
    default: {
      const word = issue.params?.word;
      const near = typeof word === 'string' ? nearest(word, issue.params?.nearTo as string[]) : [];
      const code = near.length > 0 || word !== undefined ? 'unknown-reference' : 'bad-value';
      return [here(code, `${issue.message}${near.length > 0 ? `: did you mean ${near.join(' or ')}?` : ''}`)];
    }
  }
}

const KIND_WORDS: Record<string, string> = {
  string: 'a text',
  array: 'a list',
  object: 'a map of keys',
  record: 'a map of keys',
};

function shapeOf(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  return typeof value === 'object' && value !== null ? 'a map of keys' : 'a text';
}

function choice(
  here: (code: ProblemCode, message: string, at: Path) => Problem,
  path: Path,
  value: unknown,
  choices: readonly unknown[],
): Problem {
  if (value === undefined)
    return here(
      'missing-key',
      `"${String(path[path.length - 1])}" is missing: one of ${quote(choices)}`,
      path.slice(0, -1),
    );
  const near = nearest(String(value), choices.map(String));
  const hint = near.length > 0 ? `did you mean ${near.join(' or ')}?` : `write one of ${quote(choices)}`;
  return here('not-a-choice', `"${String(value)}" is not a choice here: ${hint}`, path);
}

function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (v, key) => (v !== null && typeof v === 'object' ? (v as Record<PropertyKey, unknown>)[key] : undefined),
    value,
  );
}
