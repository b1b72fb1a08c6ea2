import type { z } from 'zod';
import type { Exact } from '../../measure/exact.ts';
import type { Quantity } from '../../measure/quantity.ts';

/**
 * What could be read of a value whose file has faults: what was wrong or missing is undefined, at any depth. Items of
 * a list keep their number.
 */
export type Readable<T> = T extends Exact | Quantity | string | number | boolean | null | undefined
  ? T
  : T extends readonly (infer I)[]
    ? readonly (Readable<I> | undefined)[]
    : { readonly [K in keyof T]?: Readable<T[K]> | undefined };

type Path = readonly PropertyKey[];

/** How a rule tells what is wrong, and what it may ask about the file beside what could be read of it. */
export interface Told {
  /** True where the file has something at this path, even if it could not be read. */
  has(...path: Path): boolean;
  /** Says what is wrong at a path; with `near`, the words of which one was meant. */
  wrong(
    path: Path,
    message: string,
    near?: { readonly word: string; readonly nearTo: readonly string[] },
  ): void;
  /** The whole value, faults and all. */
  readonly whole: unknown;
}

interface Found {
  readonly code?: string | undefined;
  readonly path?: PropertyKey[] | undefined;
  readonly params?: Record<string, unknown> | undefined;
}

/**
 * A schema with rules that look at several keys together. They are asked even where single keys are wrong, so that
 * every problem of a file is told at once; therefore a rule must hold its tongue where what it needs was not read.
 */
export function withRules<S extends z.ZodType>(
  schema: S,
  rules: (value: Readable<z.output<S>>, told: Told) => void,
): S {
  return schema.superRefine(
    (value, ctx) => {
      const told: Told = {
        whole: value,
        has: (...path) => valueAt(value, path) !== undefined,
        wrong: (path, message, near) =>
          ctx.addIssue({ code: 'custom', path: [...path], message, params: { ...near, byRule: true } }),
      };
      const read = readable(value, ctx.issues as readonly Found[]);
      if (read !== undefined) rules(read as Readable<z.output<S>>, told);
    },
    { when: ({ value }) => value !== null && typeof value === 'object' },
  );
}

function valueAt(value: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      at !== null && typeof at === 'object' ? (at as Record<PropertyKey, unknown>)[key] : undefined,
    value,
  );
}

/** A copy without the values that an issue lies at. What a rule found wrong was read well. */
function readable(value: unknown, issues: readonly Found[]): unknown {
  const root: Record<PropertyKey, unknown> = { value };
  const copies = new Set<unknown>();
  for (const issue of issues) {
    if (issue.code === 'unrecognized_keys' || issue.params?.byRule === true) continue;
    let at = root;
    let key: PropertyKey = 'value';
    for (const next of issue.path ?? []) {
      const below = at[key];
      if (below === null || typeof below !== 'object') break;
      if (!copies.has(below)) {
        at[key] = Array.isArray(below) ? [...below] : { ...below };
        copies.add(at[key]);
      }
      at = at[key] as Record<PropertyKey, unknown>;
      key = next;
    }
    at[key] = undefined;
  }
  return root.value;
}
