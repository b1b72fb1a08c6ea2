import type { MedicineGroups, Medicines } from '../folder/schema/reference.ts';
import type { Ternary } from '../measure/age.ts';
import { type FormWords, formWords, ROUTES, type Route } from './forms.ts';
import { normal } from './normal.ts';
import type { SpellingRule } from './spelling.ts';

export type Medicine = Medicines['medicines'][number];
type Herb = NonNullable<Medicines['herbs_as_medicines']>[number];
type GroupEntry = MedicineGroups['groups'][number];

/** A medicine that a person takes, as it was understood. */
export interface TakenMedicine {
  readonly name: string;
  /** The codes that count: those of the route told; all of them where no route was told or the route has none. */
  readonly codes: readonly string[];
  /** The medicines inside a fixed combination: a rule on one of them also fires. */
  readonly parts: readonly string[];
  readonly route?: Route;
  /** The group whose word was given: it stands for every member, and which one is asked. */
  readonly group?: string;
  /** The genus of a herb that was handed in as a medicine. */
  readonly herbGenus?: string;
  /** Every name that the tables give that herb. */
  readonly herbNames?: readonly string[];
  /** A code given beside the name that the tables do not hold. */
  readonly notListed?: string;
}

export interface Group {
  readonly id: string;
  readonly term: string;
  readonly any: boolean;
  readonly union: readonly string[];
  readonly atc: ReadonlySet<string>;
  readonly plus: ReadonlySet<string>;
  readonly except: ReadonlySet<string>;
  readonly named: ReadonlySet<string>;
}

/** Makes what is taken of a medicine, for a route told or not told: one object for each, so that it is known again. */
export type Take = (route?: Route) => TakenMedicine;

/** What look-ups need. What not every check needs is a function, and made when it is first asked for. */
export interface MedicineIndex {
  readonly medicines: ReadonlyMap<string, Medicine>;
  /** Medicines and herbs by each of their names. */
  readonly named: ReadonlyMap<string, Take>;
  /** Medicines and herbs by each of their codes, withdrawn ones included. */
  readonly coded: () => ReadonlyMap<string, Take>;
  /** Every code of the tables and every class above one, so that a target is known or not at one look. */
  readonly stems: () => Stems;
  readonly group: (id: string) => Group | undefined;
  readonly groupWords: () => ReadonlyMap<string, TakenMedicine>;
  readonly groupTable: MedicineGroups;
  readonly ambiguous: ReadonlyMap<string, readonly string[]>;
  readonly salts: ReadonlySet<string>;
  readonly keepsSalt: ReadonlySet<string>;
  readonly spelling: readonly SpellingRule[];
  readonly forms: FormWords;
  /** Every name as it is written in the tables, for suggestions. */
  readonly written: () => readonly string[];
  /** What was found of a medicine and a target before: the same medicines and rules come again with each person. */
  readonly met: WeakMap<TakenMedicine, Map<string, Ternary>>;
}

interface Stems {
  readonly current: ReadonlySet<string>;
  readonly withdrawn: ReadonlySet<string>;
}

const FULL_CODE = /^[A-Z]\d{2}[A-Z]{2}\d{2}$/;

export const isFullCode = (code: string): boolean => FULL_CODE.test(code);

export function buildIndex(table: Medicines, groupTable: MedicineGroups): MedicineIndex {
  const herbs = (table.herbs_as_medicines ?? []).map((herb) => ({ herb, take: onlyFor(takenHerb(herb)) }));
  const takes = table.medicines.map((medicine) => ({ medicine, take: takeOf(medicine) }));
  const named = new Map<string, Take>();
  for (const { herb, take } of herbs) for (const name of herb.names) named.set(normal(name), take);
  for (const { medicine, take } of takes) {
    named.set(normal(medicine.name), take);
    for (const name of medicine.also ?? []) named.set(normal(name), take);
  }
  const groups = new Map(groupTable.groups.map((g) => [g.id, once(() => groupOf(g))]));
  return {
    medicines: new Map(table.medicines.map((m) => [m.name, m])),
    named,
    coded: once(() => codedIndex(takes, herbs, groupTable)),
    stems: once(() => stemsOf(table, groupTable)),
    group: (id) => groups.get(id)?.(),
    groupWords: once(() => groupWords(groupTable)),
    groupTable,
    ambiguous: new Map((table.ambiguous ?? []).map((a) => [normal(a.word), a.could_be])),
    salts: new Set((table.salt_words ?? []).map(normal)),
    keepsSalt: new Set((table.salt_is_the_medicine ?? []).map(normal)),
    spelling: table.spelling ?? [],
    forms: formWords(table),
    written: once(() => [
      ...table.medicines.flatMap((m) => [m.name, ...(m.also ?? [])]),
      ...(table.herbs_as_medicines ?? []).flatMap((h) => h.names),
      ...groupTable.groups.flatMap((g) => [g.term, ...(g.also ?? [])]),
    ]),
    met: new WeakMap(),
  };
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function codedIndex(
  takes: readonly { readonly medicine: Medicine; readonly take: Take }[],
  herbs: readonly { readonly herb: Herb; readonly take: Take }[],
  groupTable: MedicineGroups,
): Map<string, Take> {
  const coded = new Map<string, Take>();
  for (const g of groupTable.groups) {
    // A full code that only a group lists belongs to a medicine which has no name of its own in the table.
    for (const code of listedCodes(g).filter(isFullCode))
      coded.set(code, onlyFor({ name: code, codes: [code], parts: [] }));
  }
  for (const { herb, take } of herbs) for (const code of herb.atc ?? []) coded.set(code, take);
  for (const { medicine, take } of takes) {
    for (const route of ROUTES) {
      const byRoute: Take = () => take(route);
      for (const code of withdrawnFor(medicine, route)) coded.set(code, byRoute);
      for (const code of codesFor(medicine, route).filter(isFullCode)) coded.set(code, byRoute);
    }
  }
  return coded;
}

const listedCodes = (g: GroupEntry): string[] => [...(g.atc ?? []), ...(g.plus ?? []), ...(g.except ?? [])];

/** The lengths of a code's five levels. */
const LEVELS = [1, 3, 4, 5, 7];

function stemsOf(table: Medicines, groupTable: MedicineGroups): Stems {
  const current = new Set<string>();
  const withdrawn = new Set<string>();
  for (const m of table.medicines) {
    for (const route of ROUTES) {
      addStems(current, codesFor(m, route));
      addStems(withdrawn, withdrawnFor(m, route));
    }
  }
  for (const herb of table.herbs_as_medicines ?? []) addStems(current, herb.atc ?? []);
  for (const group of groupTable.groups) addStems(current, listedCodes(group));
  return { current, withdrawn };
}

/** The codes with all that stands above them; a code that is there already brought its own. */
function addStems(stems: Set<string>, codes: readonly string[]): void {
  for (const code of codes) {
    if (stems.has(code)) continue;
    for (const l of LEVELS) if (l <= code.length) stems.add(code.slice(0, l));
  }
}

function groupWords(groupTable: MedicineGroups): Map<string, TakenMedicine> {
  const words = new Map<string, TakenMedicine>();
  for (const g of groupTable.groups) {
    const group: TakenMedicine = { name: g.term, codes: [], parts: [], group: g.id };
    for (const word of [g.id, g.term, ...(g.also ?? [])]) words.set(normal(word), group);
  }
  return words;
}

function groupOf(g: GroupEntry): Group {
  return {
    id: g.id,
    term: g.term,
    any: g.any_medicine !== undefined,
    union: g.union ?? [],
    atc: new Set(g.atc),
    plus: new Set(g.plus),
    except: new Set(g.except),
    named: new Set([...(g.medicines ?? []), ...(g.from_memory ?? [])]),
  };
}

/** The codes of a medicine for a route; those for systemic use include the classes that stand in for a missing code. */
export function codesFor(m: Medicine, route: Route): readonly string[] {
  if (route === 'oral') return [...(m.atc ?? []), ...(m.within ?? [])];
  return (route === 'inhaled' ? m.inhaled : m.local) ?? [];
}

export function withdrawnFor(m: Medicine, route: Route): readonly string[] {
  return (route === 'oral' ? m.withdrawn : route === 'local' ? m.withdrawn_local : undefined) ?? [];
}

/** The codes that count for a route told or not told: too many rather than too few. */
export function countingCodes(m: Medicine, route: Route | undefined): readonly string[] {
  const told = route ? codesFor(m, route) : [];
  return told.length > 0
    ? told
    : [...codesFor(m, 'oral'), ...codesFor(m, 'inhaled'), ...codesFor(m, 'local')];
}

function takenMedicine(m: Medicine, route: Route | undefined): TakenMedicine {
  return { name: m.name, codes: countingCodes(m, route), parts: m.parts ?? [], ...(route ? { route } : {}) };
}

function takeOf(m: Medicine): Take {
  const made = new Map<Route | undefined, TakenMedicine>();
  return (route) => {
    const taken = made.get(route) ?? takenMedicine(m, route);
    made.set(route, taken);
    return taken;
  };
}

const onlyFor =
  (taken: TakenMedicine): Take =>
  () =>
    taken;

function takenHerb(herb: Herb): TakenMedicine {
  const { names, genus } = herb;
  return { name: names[0] ?? genus, codes: herb.atc ?? [], parts: [], herbGenus: genus, herbNames: names };
}
