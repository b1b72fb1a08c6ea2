import type { MedicineGroups, Medicines } from '../folder/schema/reference.ts';
import type { Ternary } from '../measure/age.ts';
import { cutForm, ROUTES, type Route } from './forms.ts';
import { type Found, type How, suggestions } from './found.ts';
import { meetsTarget, type Target, targetOf } from './medicine-groups.ts';
import {
  buildIndex,
  codesFor,
  isFullCode,
  type MedicineIndex,
  type TakenMedicine,
} from './medicine-index.ts';
import { normal } from './normal.ts';
import { otherSpellings } from './spelling.ts';

export type { TakenMedicine } from './medicine-index.ts';

export interface MedicineVocabulary {
  readonly index: MedicineIndex;
}

/** The tables made ready for look-up; the maps are built on first use, once. */
export function medicineVocabulary(medicines: Medicines, groups: MedicineGroups): MedicineVocabulary {
  let made: MedicineIndex | undefined;
  return {
    get index() {
      made ??= buildIndex(medicines, groups);
      return made;
    },
  };
}

/**
 * What a person's words for a medicine mean: by name, by a name less its salt, by a rule of spelling, by code, then
 * by the word for a group. A code given beside the name settles an ambiguous or unknown name; where the two speak of
 * different medicines, which is meant is asked.
 */
export function resolveMedicine(
  v: MedicineVocabulary,
  answer: { readonly name: string; readonly atc?: string | undefined },
): Found<TakenMedicine> {
  const byWord = knownMedicine(v, answer.name) ?? unknown(v.index, answer.name);
  return answer.atc === undefined ? byWord : withCode(v.index, answer.name, byWord, asCode(answer.atc));
}

/**
 * Whether a medicine taken is what a rule speaks of: a group's id, an ATC code or prefix, or a medicine's name.
 * Unknown where a group word was given of which only a part would be.
 */
export function medicineMatches(v: MedicineVocabulary, taken: TakenMedicine, target: string): Ternary {
  const met = v.index.met.get(taken) ?? new Map<string, Ternary>();
  v.index.met.set(taken, met);
  const before = met.get(target);
  if (before !== undefined) return before;
  const holds = meetsTarget(v.index, taken, needTarget(v, target));
  met.set(target, holds);
  return holds;
}

/** Whether a rule may speak of this word: one that is not known would never fire. */
export function knownMedicineTarget(v: MedicineVocabulary, target: string): boolean {
  return targetOf(v.index, target) !== undefined;
}

/** How the target of a rule is said in plain English. */
export function medicineTerm(v: MedicineVocabulary, target: string): string {
  const t = needTarget(v, target);
  if (t.kind === 'group') return t.group.term;
  if (t.kind === 'medicine') return t.name;
  const alone = v.index.groupTable.groups.find(
    (g) =>
      g.atc?.[0] === t.prefix && !(g.atc[1] ?? g.plus ?? g.except ?? g.union ?? g.medicines ?? g.from_memory),
  );
  return alone?.term ?? v.index.coded().get(t.prefix)?.().name ?? `medicines of the ATC class ${t.prefix}`;
}

function needTarget(v: MedicineVocabulary, target: string): Target {
  const t = targetOf(v.index, target);
  if (!t) throw new Error(`"${target}" is no group, code or name of a medicine in the tables`);
  return t;
}

interface Reading {
  readonly name: string;
  readonly route: Route | undefined;
}

const found = (item: TakenMedicine, how: How): Known => ({ kind: 'found', item, how });

/** As `resolveMedicine` for a word alone, without the search for suggestions where it is not known. */
export function knownMedicine(v: MedicineVocabulary, given: string): Known | undefined {
  const { index } = v;
  const readings = readingsOf(index, given);
  const less = readings.flatMap((r) => withoutSalt(index, r));
  const everyReading = [...readings, ...less];
  const could = everyReading.map((r) => index.ambiguous.get(r.name)).find((c) => c !== undefined);
  if (could) return { kind: 'ambiguous', word: given, could };

  const byName = firstNamed(index, readings);
  if (byName) return found(byName, 'name');
  const bySalt = firstNamed(index, less);
  if (bySalt) return found(bySalt, 'salt');
  const respelt = everyReading.flatMap((r) =>
    otherSpellings(r.name, index.spelling).map((name) => ({ name, route: r.route })),
  );
  const bySpelling = onlyOne(respelt.flatMap((r) => firstNamed(index, [r]) ?? []));
  if (bySpelling) return found(bySpelling, 'spelling');
  const byCode = index.coded().get(asCode(given))?.();
  if (byCode) return found(byCode, 'code');
  const group = firstGroup(index, readings);
  if (group) return found(group, 'name');
  const respeltGroup = onlyOne(respelt.flatMap((r) => firstGroup(index, [r]) ?? []));
  if (respeltGroup) return found(respeltGroup, 'spelling');
  return combined(v, given);
}

const isOneMedicine = ({ group, herbGenus }: TakenMedicine): boolean =>
  group === undefined && herbGenus === undefined;

const JOINED = /\s+and\s+|\s+with\s+|\s*[/+,]\s*/;

/** A fixed combination that the tables do not list, such as "lisinopril and hydrochlorothiazide": every part must be known. */
function combined(v: MedicineVocabulary, given: string): Known | undefined {
  const words = given.split(JOINED).filter((w) => w.trim() !== '');
  if (words.length < 2) return undefined;
  const parts = words.map((w) => knownMedicine(v, w));
  const items = parts.flatMap((p) => (p?.kind === 'found' && isOneMedicine(p.item) ? [p.item] : []));
  if (items.length < words.length) return undefined;
  const names = [...new Set(items.flatMap((i) => [i.name, ...i.parts]))].sort();
  const codes = [...new Set(items.flatMap((i) => i.codes))].sort();
  const spelt = parts.some((p) => p?.kind === 'found' && p.how === 'spelling');
  return found({ name: names.join(' and '), codes, parts: names }, spelt ? 'spelling' : 'name');
}

type Known = Exclude<Found<TakenMedicine>, { kind: 'unknown' }>;

function unknown(index: MedicineIndex, given: string): Found<TakenMedicine> {
  const readings = readingsOf(index, given);
  const words = [...readings, ...readings.flatMap((r) => withoutSalt(index, r))].map((r) => r.name);
  return { kind: 'unknown', word: given, near: suggestions([...new Set(words)], index.written()) };
}

/** The word as given, then less strength and form. */
function readingsOf(index: MedicineIndex, given: string): Reading[] {
  const whole = normal(given);
  const cut = cutForm(whole, index.forms);
  return [{ name: whole, route: undefined }, ...(cut.name !== whole && cut.name !== '' ? [cut] : [])];
}

/** The name less one trailing salt word, unless the salt is the medicine, as in lithium carbonate. */
function withoutSalt(index: MedicineIndex, reading: Reading): Reading[] {
  const space = reading.name.lastIndexOf(' ');
  if (space < 0 || index.keepsSalt.has(reading.name) || !index.salts.has(reading.name.slice(space + 1)))
    return [];
  return [{ name: reading.name.slice(0, space), route: reading.route }];
}

function firstNamed(index: MedicineIndex, readings: readonly Reading[]): TakenMedicine | undefined {
  for (const r of readings) {
    const take = index.named.get(r.name);
    if (take) return take(r.route);
  }
  return undefined;
}

function firstGroup(index: MedicineIndex, readings: readonly Reading[]): TakenMedicine | undefined {
  return readings.map((r) => index.groupWords().get(r.name)).find((g) => g !== undefined);
}

/** The one medicine that every candidate comes to; undefined where they come to several. */
function onlyOne(candidates: readonly TakenMedicine[]): TakenMedicine | undefined {
  const [first] = candidates;
  return first && candidates.every((c) => c.name === first.name) ? first : undefined;
}

const asCode = (text: string): string => text.replace(/\s/g, '').toUpperCase();

function withCode(
  index: MedicineIndex,
  given: string,
  byWord: Found<TakenMedicine>,
  code: string,
): Found<TakenMedicine> {
  // Most codes are the named medicine's own: then the table of all codes is not needed.
  const own = byWord.kind === 'found' ? ownByCode(index, byWord.item, code) : undefined;
  if (own) return found(own, 'code');
  const coded = index.coded().get(code)?.();
  if (!coded) return byWord.kind === 'found' ? found(besideUnlisted(byWord.item, code), byWord.how) : byWord;
  if (byWord.kind !== 'found') return found(coded.name === code ? { ...coded, name: given } : coded, 'code');
  const word = byWord.item;
  const target: Target | undefined = word.group === undefined ? undefined : targetOf(index, word.group);
  const sameHerb = word.herbGenus !== undefined && word.herbGenus === coded.herbGenus;
  if (word.name === coded.name || sameHerb || coded.parts.includes(word.name)) return found(coded, 'code');
  if (target && meetsTarget(index, coded, target) === true) return found(coded, 'code');
  if (word.parts.includes(coded.name)) return byWord;
  // A combination by its parts, beside a code that only a group lists: neither has a name to hold against the other.
  if (coded.name === code && word.parts.length > 1) return found(besideUnlisted(word, code), byWord.how);
  return { kind: 'ambiguous', word: given, could: [word.name, coded.name] };
}

/** The medicine by one of its own full codes, for the route that the code stands for. */
function ownByCode(index: MedicineIndex, { name }: TakenMedicine, code: string): TakenMedicine | undefined {
  const medicine = index.medicines.get(name);
  if (!medicine || !isFullCode(code)) return undefined;
  const route = ROUTES.findLast((r) => codesFor(medicine, r).includes(code));
  return route && index.named.get(normal(name))?.(route);
}

/** A full code that the tables lack counts beside those of the name: it can only match more. */
function besideUnlisted(item: TakenMedicine, code: string): TakenMedicine {
  return { ...item, codes: isFullCode(code) ? [...item.codes, code] : item.codes, notListed: code };
}
