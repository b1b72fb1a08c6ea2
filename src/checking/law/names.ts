import { FORMS } from '../../folder/forms.ts';
import { latinForms } from '../../folder/latin-name.ts';
import type { Monograph } from '../../folder/schema/monograph.ts';
import type { LegalLimits } from '../../folder/schema/reference.ts';
import { normal } from '../../vocabulary/normal.ts';
import { oncePerPlant } from '../once-per-plant.ts';
import { type PartNamed, partNamed, partsIn, wordsOfParts } from './parts.ts';

/** Which entries of the law name a herb, by its Latin name where it has a monograph, else by whatever it is called. */

export type Limit = LegalLimits['limits'][number];

export interface Named {
  readonly limit: Limit;
  /** The name of the table that it was found by. */
  readonly by: string;
  /** Whether the law itself prints that name. */
  readonly printed: boolean;
  /** False where only the genus was said, or a species of which the law names one variety. */
  readonly species: boolean;
  readonly part: PartNamed;
}

type Entry = Pick<Named, 'limit' | 'by' | 'printed'>;

interface Index {
  /** Latin and common names alike, as plain words. */
  readonly names: ReadonlyMap<string, readonly Entry[]>;
  /** Latin names, behind which an author or a variety may stand. */
  readonly latin: ReadonlySet<string>;
  readonly genera: ReadonlyMap<string, readonly Entry[]>;
  /** Names that fit but are too coarse: the genus of a listed species, the species of a listed variety. */
  readonly coarse: ReadonlyMap<string, readonly Entry[]>;
  readonly partWords: ReadonlySet<string>;
}

const indexes = new WeakMap<LegalLimits, Index>();

function indexOf(table: LegalLimits): Index {
  const known = indexes.get(table) ?? makeIndex(table);
  indexes.set(table, known);
  return known;
}

/** How it was made, which says nothing of what plant it is. */
const FORM_WORDS: readonly string[] = [...FORMS.flatMap((f) => f.split('-')), 'powdered', 'cut', 'tea'];
const RANKS = /^(?:var|subsp|ssp|f|x|l)$/;
const ANY_SPECIES = /^(?:spp?|species)$/;

const wordsOf = (name: string): string[] =>
  normal(name)
    .replace(/['.]/g, '')
    .split(' ')
    .filter((w) => w !== '' && !RANKS.test(w));

function makeIndex(table: LegalLimits): Index {
  const names = new Map<string, Entry[]>();
  const latin = new Set<string>();
  const genera = new Map<string, Entry[]>();
  const coarse = new Map<string, Entry[]>();
  const put = (map: Map<string, Entry[]>, key: string, entry: Entry): void => {
    const before = map.get(key) ?? [];
    if (!before.some((e) => e.limit === entry.limit)) map.set(key, [...before, entry]);
  };
  for (const limit of table.limits) {
    const named = (list: readonly string[] | undefined, printed: boolean, isLatin: boolean): void => {
      for (const by of list ?? []) {
        const words = wordsOf(by);
        put(names, words.join(' '), { limit, by, printed });
        if (!isLatin) continue;
        latin.add(words.join(' '));
        for (let n = 1; n < words.length; n += 1)
          put(coarse, words.slice(0, n).join(' '), { limit, by, printed });
      }
    };
    named(limit.latin, true, true);
    named(limit.common, true, false);
    named(limit.latin_from_memory, false, true);
    named(limit.common_from_memory, false, false);
    for (const genus of limit.genera ?? []) put(genera, normal(genus), { limit, by: genus, printed: true });
  }
  return { names, latin, genera, coarse, partWords: wordsOfParts(table) };
}

/** The entries that name this herb; none for most. */
export const namedBy = (table: LegalLimits, herb: string, monograph: Monograph | null): readonly Named[] =>
  namedOnce(table, { herb, monograph });

const namedOnce = oncePerPlant((table: LegalLimits, { herb, monograph }): readonly Named[] => {
  const index = indexOf(table);
  const said = monograph ? latinForms(monograph.names.latin) : [herb];
  const parts = partsIn(table, monograph ? monograph.part : herb);
  const found = new Map<Limit, Named>();
  for (const { entry, species } of said.flatMap((name) =>
    entriesFor(index, wordsOf(name), monograph === null),
  )) {
    const before = found.get(entry.limit);
    if (before === undefined || (species && !before.species))
      found.set(entry.limit, { ...entry, species, part: partNamed(table, entry.limit, parts) });
  }
  // In the order of the table, whatever name was met first.
  return table.limits.flatMap((limit) => found.get(limit) ?? []);
});

interface Hit {
  readonly entry: Entry;
  readonly species: boolean;
}

/** `plainWords`: an id or a common name, around which words for the part and the form may stand. */
function entriesFor(index: Index, words: readonly string[], plainWords: boolean): Hit[] {
  const beside = (w: string): boolean => index.partWords.has(w) || FORM_WORDS.includes(w);
  const hits: Hit[] = [];
  const hit = (entries: readonly Entry[] | undefined, species: boolean): void => {
    for (const entry of entries ?? []) hits.push({ entry, species });
  };
  let from = 0;
  do {
    for (let to = words.length; to > from; to -= 1) {
      const name = words.slice(from, to).join(' ');
      const rest = words.slice(to);
      // Behind a Latin name anything may follow, behind a common one only what says the part: lobelia, but not lobelia chinensis.
      if (rest.every(beside) || index.latin.has(name)) hit(index.names.get(name), true);
      if (rest.every((w) => beside(w) || ANY_SPECIES.test(w))) hit(index.coarse.get(name), false);
    }
    hit(index.genera.get(words[from] ?? ''), true);
    from += 1;
  } while (plainWords && from < words.length && beside(words[from - 1] ?? ''));
  return hits;
}

/** The laws that state an amount of this herb, whatever its part. */
export function lawsOfHerb(
  table: LegalLimits,
  herb: string,
  monograph: Monograph | null,
): LegalLimits['laws'][number][] {
  const ids = new Set(
    namedBy(table, herb, monograph)
      .filter(({ limit: l }) => l.single !== undefined || l.daily !== undefined || l.external !== undefined)
      .map(({ limit }) => limit.law),
  );
  return table.laws.filter((l) => ids.has(l.id));
}
