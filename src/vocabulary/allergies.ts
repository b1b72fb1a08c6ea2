import type { Allergies } from '../folder/schema/reference.ts';
import { type Found, type How, suggestions } from './found.ts';
import { knownMedicine, type MedicineVocabulary, type TakenMedicine } from './medicines.ts';
import { normal } from './normal.ts';

export { allergyHolds, allergyTerm, familyNamed, familyOf, knownAllergyTarget } from './allergy-holds.ts';

export type Family = Allergies['families'][number];
export type Substance = Allergies['substances'][number];

/** An allergy, as it was understood; one word may name several things, and all of them count. */
export interface StatedAllergy {
  readonly families: readonly string[];
  readonly substances: readonly string[];
  /** Plants by their genus: the plant itself is barred, and its family is asked about. */
  readonly genera: readonly string[];
  readonly medicine?: TakenMedicine;
}

interface AllergyIndex {
  readonly families: ReadonlyMap<string, Family>;
  readonly substances: ReadonlyMap<string, Substance>;
  readonly familyWords: ReadonlyMap<string, string>;
  readonly substanceWords: ReadonlyMap<string, string>;
  /** Genera as they are written, by their normal form. */
  readonly genera: ReadonlyMap<string, string>;
  readonly familyOfGenus: ReadonlyMap<string, string>;
  /** Families in which older texts place a genus. */
  readonly onceIn: ReadonlyMap<string, readonly string[]>;
  readonly ambiguous: ReadonlyMap<string, readonly string[]>;
  readonly strip: readonly string[];
  readonly familyHints: readonly string[];
  /** What must never be suggested for a word. */
  readonly apart: ReadonlyMap<string, ReadonlySet<string>>;
  readonly written: readonly string[];
}

export interface AllergyVocabulary {
  readonly medicines: MedicineVocabulary;
  readonly index: AllergyIndex;
}

/** The table made ready for look-up; the maps are built on first use, once. */
export function allergyVocabulary(table: Allergies, medicines: MedicineVocabulary): AllergyVocabulary {
  let made: AllergyIndex | undefined;
  return {
    medicines,
    get index() {
      made ??= buildIndex(table);
      return made;
    },
  };
}

function buildIndex(table: Allergies): AllergyIndex {
  const familyWords = new Map(
    table.families.flatMap((f) =>
      [f.id, f.term, ...(f.also ?? [])].map((w): [string, string] => [normal(w), f.id]),
    ),
  );
  const substanceWords = new Map(
    table.substances.flatMap((s) =>
      [s.id, s.term, ...(s.also ?? [])].map((w): [string, string] => [normal(w), s.id]),
    ),
  );
  const genera = new Map(
    table.families.flatMap((f) => (f.genera ?? []).map((g): [string, string] => [normal(g), g])),
  );
  const longestFirst = (list: readonly string[] | undefined) =>
    (list ?? []).map(normal).sort((a, b) => b.length - a.length);
  return {
    families: new Map(table.families.map((f) => [f.id, f])),
    substances: new Map(table.substances.map((s) => [s.id, s])),
    familyWords,
    substanceWords,
    genera,
    familyOfGenus: new Map(
      table.families.flatMap((f) => (f.genera ?? []).map((g): [string, string] => [g, f.id])),
    ),
    onceIn: new Map(
      (table.moved_genera ?? []).map((m) => [
        m.genus,
        m.once.flatMap((f) => familyWords.get(normal(f)) ?? []),
      ]),
    ),
    ambiguous: new Map((table.ambiguous ?? []).map((a) => [normal(a.word), a.could_be])),
    strip: longestFirst(table.strip_words),
    familyHints: longestFirst(table.family_words),
    apart: keptApart(table, substanceWords),
    written: [
      ...table.families.flatMap((f) => [f.term, ...(f.also ?? []), ...(f.genera ?? [])]),
      ...table.substances.flatMap((s) => [s.term, ...(s.also ?? [])]),
    ],
  };
}

/** For each word of a set that must stay apart, the words of the others in the set and of what they name. */
function keptApart(table: Allergies, substanceWords: ReadonlyMap<string, string>): Map<string, Set<string>> {
  const wordsFor = (w: string): string[] => {
    const id = substanceWords.get(normal(w));
    const substance = table.substances.find((s) => s.id === id);
    return [w, ...(substance ? [substance.term, ...(substance.also ?? [])] : [])].map(normal);
  };
  const apart = new Map<string, Set<string>>();
  for (const set of table.never_merge ?? []) {
    for (const one of set) {
      const others = set.filter((w) => w !== one).flatMap(wordsFor);
      for (const word of wordsFor(one)) apart.set(word, new Set([...(apart.get(word) ?? []), ...others]));
    }
  }
  return apart;
}

interface Reading {
  readonly word: string;
  readonly family: boolean;
}

/**
 * What a person's word for an allergy means: a plant family, a substance, a plant (by its genus, or by a herb's name
 * through `genusOf`) or a medicine. One word may answer in several, and all count.
 */
export function resolveAllergy(
  v: AllergyVocabulary,
  given: string,
  genusOf: (word: string) => string | null,
): Found<StatedAllergy> {
  const readings = readingsOf(v.index, normal(given));
  const medicines = readings.filter((r) => !r.family).map((r) => knownMedicine(v.medicines, r.word));
  const medicine = medicines.find((m) => m?.kind === 'found');
  for (const r of readings) {
    const could = v.index.ambiguous.get(r.word);
    if (could) return { kind: 'ambiguous', word: given, could };
    const plain = fromTable(v.index, r, genusOf);
    if (plain)
      return {
        kind: 'found',
        item: { ...plain, ...(medicine ? { medicine: medicine.item } : {}) },
        how: 'name',
      };
  }
  if (medicine) return fromMedicine(medicine.item, medicine.how);
  const unclear = medicines.find((m) => m?.kind === 'ambiguous');
  if (unclear) return { ...unclear, word: given };
  const words = readings.map((r) => r.word);
  const barred = new Set(words.flatMap((w) => [...(v.index.apart.get(w) ?? [])]));
  const near = suggestions(
    words,
    [...v.index.written, ...v.medicines.index.written()].filter((w) => !barred.has(normal(w))),
  );
  return { kind: 'unknown', word: given, near };
}

function fromMedicine(medicine: TakenMedicine, how: How): Found<StatedAllergy> {
  return {
    kind: 'found',
    item: { families: [], substances: [], genera: medicine.herbGenus ? [medicine.herbGenus] : [], medicine },
    how,
  };
}

/** The word as given, then less "allergy to" and the like, then less the hint that a family is meant. */
function readingsOf(index: AllergyIndex, whole: string): Reading[] {
  const readings: Reading[] = [{ word: whole, family: false }];
  const bare = without(whole, index.strip);
  const name = without(bare, index.familyHints);
  if (bare !== whole && bare !== '') readings.push({ word: bare, family: false });
  if (name !== bare && name !== '') readings.push({ word: name, family: true });
  return readings;
}

/** A word less the phrases that stand before or after it. */
function without(word: string, phrases: readonly string[]): string {
  for (let rest = word; ; ) {
    const before = phrases.find((p) => rest.startsWith(`${p} `));
    const after = phrases.find((p) => rest.endsWith(` ${p}`));
    if (before !== undefined) rest = rest.slice(before.length + 1);
    else if (after !== undefined) rest = rest.slice(0, -after.length - 1);
    else return rest;
  }
}

function fromTable(
  index: AllergyIndex,
  r: Reading,
  genusOf: (word: string) => string | null,
): StatedAllergy | undefined {
  const family = index.familyWords.get(r.word);
  const genus = index.genera.get(r.word) ?? genusOf(r.word) ?? undefined;
  const substance = r.family ? undefined : index.substances.get(index.substanceWords.get(r.word) ?? '');
  const named = [
    ...(genus === undefined ? [] : [genus]),
    ...(substance?.plant === undefined ? [] : [substance.plant]),
  ];
  const families = [
    ...(family === undefined ? [] : [family]),
    ...(r.family ? named.flatMap((g) => index.familyOfGenus.get(g) ?? []) : []),
  ];
  const item: StatedAllergy = {
    families: [...new Set(families)],
    substances: substance ? [substance.id] : [],
    genera: r.family ? [] : [...new Set(named)],
  };
  return item.families.length + item.substances.length + item.genera.length > 0 ? item : undefined;
}
