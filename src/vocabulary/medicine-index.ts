import type { MedicineGroups, Medicines } from '../folder/schema/reference.ts';
import { type FormWords, formWords, type Route } from './forms.ts';
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

export interface MedicineIndex {
  readonly medicines: ReadonlyMap<string, Medicine>;
  /** Medicines and herbs by each of their names. */
  readonly named: ReadonlyMap<string, (route: Route | undefined) => TakenMedicine>;
  readonly coded: ReadonlyMap<string, () => TakenMedicine>;
  /** Every code of the tables and every class above one, so that a target is known or not at one look. */
  readonly stems: ReadonlySet<string>;
  readonly oldStems: ReadonlySet<string>;
  readonly groups: ReadonlyMap<string, Group>;
  readonly groupWords: ReadonlyMap<string, Group>;
  readonly ambiguous: ReadonlyMap<string, readonly string[]>;
  readonly salts: ReadonlySet<string>;
  readonly keepsSalt: ReadonlySet<string>;
  readonly spelling: readonly SpellingRule[];
  readonly forms: FormWords;
  /** Every name as it is written in the tables, for suggestions. */
  readonly written: readonly string[];
}

const FULL_CODE = /^[A-Z]\d{2}[A-Z]{2}\d{2}$/;

export const isFullCode = (code: string): boolean => FULL_CODE.test(code);

/** The lengths of a code's five levels. */
const LEVELS = [1, 3, 4, 5, 7];

function addStems(stems: Set<string>, code: string): void {
  for (const length of LEVELS) if (length <= code.length) stems.add(code.slice(0, length));
}

export function buildIndex(table: Medicines, groupTable: MedicineGroups): MedicineIndex {
  const groups = new Map(groupTable.groups.map((g) => [g.id, groupOf(g)]));
  const groupWords = new Map<string, Group>();
  const named = new Map<string, (route: Route | undefined) => TakenMedicine>();
  const coded = new Map<string, () => TakenMedicine>();
  const stems = new Set<string>();
  const oldStems = new Set<string>();
  const written: string[] = [];

  for (const g of groupTable.groups) {
    const group = groups.get(g.id);
    if (group) for (const word of [g.id, g.term, ...(g.also ?? [])]) groupWords.set(normal(word), group);
    written.push(g.term, ...(g.also ?? []));
    for (const code of [...(g.atc ?? []), ...(g.plus ?? []), ...(g.except ?? [])]) {
      addStems(stems, code);
      // A full code that only a group lists belongs to a medicine which has no name of its own in the table.
      if (isFullCode(code)) coded.set(code, () => ({ name: code, codes: [code], parts: [] }));
    }
  }
  for (const herb of table.herbs_as_medicines ?? []) {
    const take = (): TakenMedicine => takenHerb(herb);
    for (const name of herb.names) named.set(normal(name), take);
    for (const code of herb.atc ?? []) {
      coded.set(code, take);
      addStems(stems, code);
    }
    written.push(...herb.names);
  }
  for (const m of table.medicines) {
    for (const name of [m.name, ...(m.also ?? [])])
      named.set(normal(name), (route) => takenMedicine(m, route));
    written.push(m.name, ...(m.also ?? []));
    for (const route of ['oral', 'inhaled', 'local'] as const) {
      for (const code of withdrawnFor(m, route)) {
        addStems(oldStems, code);
        coded.set(code, () => takenMedicine(m, route));
      }
      for (const code of codesFor(m, route)) {
        addStems(stems, code);
        if (isFullCode(code)) coded.set(code, () => takenMedicine(m, route));
      }
    }
  }
  return {
    medicines: new Map(table.medicines.map((m) => [m.name, m])),
    named,
    coded,
    stems,
    oldStems,
    groups,
    groupWords,
    ambiguous: new Map((table.ambiguous ?? []).map((a) => [normal(a.word), a.could_be])),
    salts: new Set((table.salt_words ?? []).map(normal)),
    keepsSalt: new Set((table.salt_is_the_medicine ?? []).map(normal)),
    spelling: table.spelling ?? [],
    forms: formWords(table),
    written,
  };
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

function takenHerb(herb: Herb): TakenMedicine {
  return { name: herb.names[0] ?? herb.genus, codes: herb.atc ?? [], parts: [], herbGenus: herb.genus };
}

export function takenGroup(group: Group): TakenMedicine {
  return { name: group.term, codes: [], parts: [], group: group.id };
}
