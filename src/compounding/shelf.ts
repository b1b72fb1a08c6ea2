import { citeIn } from '../folder/cite-in.ts';
import type { Held } from '../folder/held.ts';
import type { Pressing } from '../folder/schema/preparations.ts';
import type { KeepingTable, MakingTable, Vehicles } from '../folder/schema/reference.ts';
import type { Exact } from '../measure/exact.ts';
import { type Cited, type Figure, given } from '../measure/figure.ts';
import { nearest } from '../measure/nearest.ts';
import { compareQuantities, inUnit, type Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { gramPerMillilitre } from '../measure/units.ts';
import type { MarcKeeps } from './marc.ts';

/** What carries herbs: its name on a sheet, the weight of 1 mL, and the shares of it (0 to 1) by weight. */
export interface Vehicle {
  readonly id: string;
  readonly term: string;
  readonly density: Figure<Quantity> | null;
  readonly holds: ReadonlyMap<Held, Exact>;
  readonly source: Cited;
}

/** The published figures that making needs, by name. */
export interface Shelf {
  readonly vehicle: (id: string) => Result<Vehicle>;
  readonly marc: (how: Pressing | 'not said') => MarcKeeps;
  readonly shell: (size: string) => Result<Figure<Quantity>>;
  readonly keeping: KeepingTable;
  /** Bottles to dispense in, from small to large. */
  readonly bottles: readonly Quantity[];
  /** How far apart strengths (in % v/v) must stand for a word about a sediment. */
  readonly sediment: Quantity;
}

/** The shared tables that the shelf is stocked from; read only for what is not a tea or a plain powder. */
export interface ShelfTables {
  readonly vehicles: Vehicles;
  readonly making: MakingTable;
  readonly keeping: KeepingTable;
}

/** A shelf of which only the keeping was read, for what is made of herb and water alone. */
export function emptyShelf(keeping: KeepingTable, { sediment }: { readonly sediment: Quantity }): Shelf {
  const unread = (): never => {
    throw new Error('the shelf was not read for this kind of preparation');
  };
  return { keeping, sediment, bottles: [], vehicle: unread, marc: unread, shell: unread };
}

export function shelfOf(
  { vehicles, making, keeping }: ShelfTables,
  own: { readonly sediment: Quantity; readonly bottles: readonly Quantity[] | null },
): Shelf {
  const bottles = own.bottles ?? making.bottles.sizes;
  return {
    keeping,
    sediment: own.sediment,
    bottles: [...bottles].sort(compareQuantities),
    vehicle: (id) => {
      const v = vehicles.vehicles.find((x) => x.id === id);
      if (v === undefined) {
        const near = nearest(
          id,
          vehicles.vehicles.map((x) => x.id),
        );
        const hint = near.length > 0 ? `did you mean ${near.join(' or ')}?` : 'add it to vehicles.own.yaml';
        return bad(`"${id}" is not among the vehicles: ${hint}`);
      }
      const source = citeIn(vehicles, v);
      return ok({
        id,
        term: v.term,
        density: v.density
          ? given(inUnit(v.density, gramPerMillilitre), `weight of 1 mL of ${v.term}`, source)
          : null,
        holds: new Map(
          Object.entries(v.holds).flatMap(([what, q]) =>
            q ? [[what as Held, q.value.div(100)] as const] : [],
          ),
        ),
        source,
      });
    },
    marc: (how) => {
      const row = making.marc.find((m) => m.how === how);
      if (row === undefined) throw new Error(`the table of making has no row for marc that is ${how}`);
      return {
        range: row.keeps,
        says: `kept by each g of herb (${how})`,
        source: citeIn(making, row),
      };
    },
    shell: (size) => {
      const row = making.capsules.find((c) => c.size === size.replace(/^size /i, ''));
      if (row !== undefined) return ok(given(row.holds, `a shell of size ${row.size}`, citeIn(making, row)));
      return bad(
        `there is no capsule of size ${size}: write one of ${making.capsules.map((c) => c.size).join(', ')}`,
      );
    },
  };
}
