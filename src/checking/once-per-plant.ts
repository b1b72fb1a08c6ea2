import type { Monograph } from '../folder/schema/monograph.ts';

interface Named {
  readonly herb: string;
  readonly monograph: Monograph | null;
}

/**
 * What a shared table says of a herb is the same for everyone: it is looked up once for each monograph, and kept with
 * the table and the monograph. A herb without a monograph is known by a word alone, and is looked up each time.
 */
export function oncePerPlant<Table extends object, T>(
  make: (table: Table, herb: Named) => T,
): (table: Table, herb: Named) => T {
  const known = new WeakMap<Table, WeakMap<Monograph, { readonly made: T }>>();
  return (table, herb) => {
    const { monograph } = herb;
    if (monograph === null) return make(table, herb);
    const of = known.get(table) ?? new WeakMap<Monograph, { readonly made: T }>();
    known.set(table, of);
    const before = of.get(monograph) ?? { made: make(table, herb) };
    of.set(monograph, before);
    return before.made;
  };
}
