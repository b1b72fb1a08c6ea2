import { nearest } from '../measure/nearest.ts';
import type { Path } from './positions.ts';
import type { ProblemCode } from './problem.ts';

/** Shape of a zod issue as far as it is used here; zod itself is loaded only with a schema. */
export interface Issue {
  readonly code: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly expected?: string;
  readonly keys?: readonly string[];
  readonly values?: readonly unknown[];
  readonly errors?: readonly (readonly Issue[])[];
  readonly params?: Record<string, unknown>;
  readonly discriminator?: string;
  readonly options?: readonly string[];
}

/** What is wrong, in words that say what to write, and the path of the key at which it is said. */
export interface Said {
  readonly path: Path;
  readonly code: ProblemCode;
  readonly message: string;
}

/** How the message of an unknown key begins; the keys that the map does know follow. */
export const KNOWN_KEYS = 'known keys: ';

/** Stands for a value that could not be read and was complained of already, so that nothing more is said of it. */
export const UNREAD: unknown = Object.freeze(Object.create(null));

/** Puts an issue of the schema into words. `root` is the file as it was written, `above` the path down to the issue. */
export function explain(issue: Issue, root: unknown, above: Path = []): Said[] {
  const path = asWritten(root, [...above, ...issue.path]);
  if (path.some((_, i) => valueAt(root, path.slice(0, i + 1)) === UNREAD)) return [];
  const value = valueAt(root, path);
  switch (issue.code) {
    case 'unrecognized_keys':
      return (issue.keys ?? []).map((key) => unknownKey(key, issue.message, path));
    case 'invalid_union':
      if (issue.discriminator !== undefined) return [choice(path, value, issue.options ?? [])];
      return union(issue.errors ?? [], root, path, value);
    case 'invalid_type':
      return [wrongType(path, value, [expectedWords(issue)])];
    case 'invalid_value':
      return [choice(path, value, issue.values ?? [])];
    default:
      return [inWords(issue, path)];
  }
}

/** The discriminating key that was misspelled, with the choice that was meant; so the rest of the map can be judged. */
export function meant(
  issue: Issue,
  root: unknown,
): { readonly path: Path; readonly word: string } | undefined {
  if (issue.code !== 'invalid_union' || issue.discriminator === undefined) return undefined;
  const path = asWritten(root, issue.path);
  const value = valueAt(root, path);
  const [word] = typeof value === 'string' ? nearest(value, issue.options ?? []) : [];
  return word === undefined ? undefined : { path, word };
}

/** The path without the places that a schema adds where one may stand for a list of one. */
function asWritten(root: unknown, path: Path): Path {
  const written: PropertyKey[] = [];
  let at = root;
  for (const part of path) {
    if (typeof part === 'number' && !Array.isArray(at)) continue;
    written.push(part);
    at = valueAt(at, [part]);
  }
  return written;
}

function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      isMap(at) && Object.hasOwn(at, key) ? at[key] : Array.isArray(at) ? at[Number(key)] : undefined,
    value,
  );
}

const isMap = (v: unknown): v is Record<PropertyKey, unknown> =>
  v !== null && typeof v === 'object' && !Array.isArray(v);

const LONGEST = 60;

/** A word of the file in quotation marks, cut where it is too long to read. */
const quoted = (text: string): string => `"${text.length > LONGEST ? `${text.slice(0, LONGEST)}...` : text}"`;

const list = (words: readonly unknown[]): string => words.map(String).join(', ');
const either = (words: readonly string[]): string => words.join(' or ');

/** What a path leads to, as it is named in a message: its key, or its number in a list. */
function nameOf(path: Path): string {
  const last = path[path.length - 1];
  if (last === undefined) return 'the file';
  if (typeof last !== 'number') return quoted(String(last));
  return `item ${last + 1} of ${nameOf(path.slice(0, -1))}`;
}

function shapeOf(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (isMap(value)) return 'a map of keys';
  return value === '' ? 'empty' : 'a text';
}

function unknownKey(key: string, message: string, path: Path): Said {
  const known = message.startsWith(KNOWN_KEYS) ? message.slice(KNOWN_KEYS.length).split(' ') : [];
  const near = nearest(key, known);
  const said = (hint: string): Said => ({
    path: [...path, key],
    code: 'unknown-key',
    message: `unknown key ${quoted(key)}: ${hint}`,
  });
  if (key === '<<') return said('maps are not merged in these files, write the keys out');
  if (/^\d+$/.test(key) && path.length > 0)
    return said('a comma in brackets parts two entries, so write a decimal point, as in 1.5');
  const unspaced = /^([^:\s]+):\S/.exec(key)?.[1];
  if (unspaced !== undefined && known.includes(unspaced))
    return said(`write a space after the colon of ${unspaced}:`);
  return said(near.length > 0 ? `did you mean ${either(near)}?` : `known here: ${list(known)}`);
}

const oneOf = (words: readonly unknown[]): string =>
  words.length === 1 ? String(words[0]) : `one of ${list(words)}`;

/** What a schema expects, as a person would say it. */
function expectedWords(issue: Issue): string {
  if (issue.code === 'invalid_value') return oneOf(issue.values ?? []);
  if (issue.expected === 'null') return 'null';
  if (issue.expected === 'array') return 'a list';
  return issue.expected === 'object' || issue.expected === 'record' ? 'a map of keys' : 'a text';
}

/** `choices` are the words of which one is expected, where that is all that may stand here. */
function wrongType(
  path: Path,
  value: unknown,
  expected: readonly string[],
  choices?: readonly string[],
): Said {
  const must = either([...new Set(expected)]);
  if (value === undefined) return missing(path, must);
  if (value === '') return { path, code: 'wrong-type', message: `${nameOf(path)} is empty: write ${must}` };
  return {
    path,
    code: 'wrong-type',
    message: `${nameOf(path)} must be ${must}, and it is ${shapeOf(value)}${example(value, expected, choices)}`,
  };
}

function example(
  value: unknown,
  expected: readonly string[],
  choices: readonly string[] | undefined,
): string {
  if (typeof value === 'string' && expected.includes('a list') && value.length <= LONGEST)
    return `: write [${value}]`;
  const [only] = Array.isArray(value) && value.length === 1 ? value : [];
  if (typeof only !== 'string' || only === '' || only.length > LONGEST) return '';
  const fits = choices?.includes(only) ?? expected.includes('a text');
  return fits ? `: write ${only} without the brackets` : '';
}

const missing = (path: Path, what: string): Said => ({
  path: path.slice(0, -1),
  code: 'missing-key',
  message: `${nameOf(path)} is missing: write ${String(path[path.length - 1])}: and ${what}`,
});

function choice(path: Path, value: unknown, choices: readonly unknown[]): Said {
  const words = choices.map(String);
  const must = oneOf(words);
  if (value === undefined) return missing(path, must);
  if (typeof value !== 'string' || value === '') return wrongType(path, value, [must], words);
  const near = nearest(value, words);
  return {
    path,
    code: 'not-a-choice',
    message: `${quoted(value)} is not a choice here: ${near.length > 0 ? `did you mean ${either(near)}?` : `write ${must}`}`,
  };
}

/**
 * Where one of several shapes may stand, only what is wrong with the shape that was written is of use; where none of
 * them fits, all that may stand there are named.
 */
function union(branches: readonly (readonly Issue[])[], root: unknown, path: Path, value: unknown): Said[] {
  const refuses = (i: Issue): boolean =>
    i.path.length === 0 &&
    (i.code === 'invalid_type' || (i.code === 'invalid_value' && typeof value !== 'string'));
  const fit = branches.filter((b) => !b.some(refuses));
  const [first] = fit;
  if (first === undefined)
    return [
      wrongType(
        path,
        value,
        branches.flatMap((b) => b.filter(refuses).map(expectedWords)),
      ),
    ];
  const best = fit.reduce((a, b) => (b.length < a.length ? b : a), first);
  return best.flatMap((i) => explain(i, root, path));
}

function inWords(issue: Issue, path: Path): Said {
  const { word, nearTo } = (issue.params ?? {}) as { word?: unknown; nearTo?: readonly string[] };
  if (typeof word !== 'string' || nearTo === undefined)
    return { path, code: 'bad-value', message: issue.message };
  const near = nearest(word, nearTo);
  const hint =
    near.length > 0
      ? `: did you mean ${either(near)}?`
      : nearTo.length > 0
        ? `: known here are ${list(nearTo)}`
        : '';
  return { path, code: 'unknown-reference', message: issue.message + hint };
}
