import { citeIn } from '../folder/cite-in.ts';
import type { Held } from '../folder/held.ts';
import type { Kind } from '../folder/schema/formula.ts';
import type { KeepingTable } from '../folder/schema/reference.ts';
import { type Cited, type Figure, given, worked } from '../measure/figure.ts';
import { compareQuantities, type Quantity } from '../measure/quantity.ts';
import { toMassStrength } from '../measure/spirit/strength.ts';
import type { Contents } from './product.ts';

/** One limit that a mixture was held against. */
export interface LimitHeld {
  readonly of: Held;
  readonly has: Figure<Quantity>;
  readonly limit: Figure<Quantity>;
  readonly which: 'at least' | 'at most';
  readonly met: boolean;
  readonly where: string | null;
  readonly source: Cited;
}

/** Whether a preparation keeps by itself, and how long it is kept where it does not, or where a time is published. */
export interface Keeping {
  /** Null: nothing in it is known to keep it, or nothing is published of this kind. */
  readonly keeps: 'by itself' | 'by some sources' | 'not by itself' | null;
  readonly limits: readonly LimitHeld[];
  readonly time: { readonly for: Figure<Quantity>; readonly how: string } | null;
}

/**
 * Holds what a mixture contains against the published limits. It keeps by itself where one thing in it meets every limit
 * that is stated for it; where it meets only some, sources disagree, and both are told.
 */
export function keepingOf(kind: Kind, contents: Contents | null, table: KeepingTable): Keeping {
  const limits = contents ? table.limits.flatMap((l) => held(l, contents, table)) : [];
  const byThing = new Map<Held, LimitHeld[]>();
  for (const l of limits) byThing.set(l.of, [...(byThing.get(l.of) ?? []), l]);
  const things = [...byThing.values()];
  const keeps =
    limits.length === 0
      ? null
      : things.some((of) => of.every((l) => l.met))
        ? 'by itself'
        : things.some((of) => of.some((l) => l.met))
          ? 'by some sources'
          : 'not by itself';
  const state = keeps === 'by itself' ? null : 'unpreserved';
  const time = table.times.find(
    (t) =>
      t.kind.includes(kind) &&
      (t.of === undefined ||
        (t.of === 'unpreserved'
          ? state === t.of
          : contents !== null && (t.of === 'fresh') === contents.fresh)),
  );
  return {
    keeps,
    limits,
    time: time ? { for: given(time.for, 'kept for at the most', citeIn(table, time)), how: time.how } : null,
  };
}

type Limit = KeepingTable['limits'][number];

function held(l: Limit, contents: Contents, table: KeepingTable): LimitHeld[] {
  if (l.in !== undefined && !contents.byMass.has(l.in as Held)) return [];
  const stated = l.at_least ?? l.at_most;
  if (stated === undefined) return [];
  const has = contentAs(l.of, stated, contents);
  if (has === null) return [];
  const source = citeIn(table, l);
  const way = compareQuantities(has.value, stated);
  return [
    {
      of: l.of,
      has,
      limit: given(stated, `${l.of} that keeps it`, source),
      which: l.at_least ? 'at least' : 'at most',
      met: l.at_least ? way >= 0 : way <= 0,
      where: l.where ?? null,
      source,
    },
  ];
}

/** The content in the measure of the limit; ethanol by weight is reckoned as that of clean spirit of the same strength. */
function contentAs(of: Held, limit: Quantity, { ethanol, byMass }: Contents): Figure<Quantity> | null {
  if (of !== 'ethanol') return byMass.get(of) ?? null;
  if (ethanol === undefined) return null;
  if (limit.unit.dimension === 'share v/v') return ethanol;
  const mass = toMassStrength(ethanol.value);
  return mass.ok
    ? worked(
        mass.value,
        'ethanol by weight, as in clean spirit of this strength',
        '{} by the published formula',
        [ethanol],
      )
    : null;
}
