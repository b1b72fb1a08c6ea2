import type { Ternary } from '../measure/age.ts';
import {
  codesFor,
  countingCodes,
  type Group,
  type Medicine,
  type MedicineIndex,
  type TakenMedicine,
  withdrawnFor,
} from './medicine-index.ts';
import { normal } from './normal.ts';

/** What a rule may speak of: a group, an ATC code or prefix, or one medicine by its name. */
export type Target =
  | { readonly kind: 'group'; readonly group: Group }
  | { readonly kind: 'prefix'; readonly prefix: string; readonly old: boolean }
  | { readonly kind: 'medicine'; readonly name: string };

/** Undefined where no medicine or group of the tables has to do with the word: a rule on it would never fire. */
export function targetOf(index: MedicineIndex, target: string): Target | undefined {
  const group = index.group(target);
  if (group) return { kind: 'group', group };
  if (index.stems().current.has(target)) return { kind: 'prefix', prefix: target, old: false };
  if (index.stems().withdrawn.has(target)) return { kind: 'prefix', prefix: target, old: true };
  const medicine = index.named.get(normal(target))?.();
  return medicine && { kind: 'medicine', name: medicine.name };
}

/** A medicine as it counts in a comparison: the whole, or a part of a combination. */
interface Counted {
  readonly name: string;
  readonly codes: readonly string[];
  readonly medicine: Medicine | undefined;
}

function countedIn(index: MedicineIndex, taken: TakenMedicine): Counted[] {
  const parts = taken.parts.flatMap((name) => {
    const medicine = index.medicines.get(name);
    return medicine ? [{ name, codes: countingCodes(medicine, taken.route), medicine }] : [];
  });
  return [{ name: taken.name, codes: taken.codes, medicine: index.medicines.get(taken.name) }, ...parts];
}

/** Whether a medicine, or a part of it, is what a rule speaks of. A group word holds for certain only if all of it does. */
export function meetsTarget(index: MedicineIndex, taken: TakenMedicine, target: Target): Ternary {
  const group = taken.group === undefined ? undefined : index.group(taken.group);
  if (group) return groupMeets(index, group, target);
  return countedIn(index, taken).some((c) => {
    if (target.kind === 'group') return inGroup(index, target.group, c);
    if (target.kind === 'medicine') return c.name === target.name;
    return (target.old ? withdrawnOf(c) : c.codes).some((code) => code.startsWith(target.prefix));
  });
}

/** An old prefix is read with the codes that were withdrawn with it. */
function withdrawnOf(c: Counted): readonly string[] {
  return c.medicine
    ? [...withdrawnFor(c.medicine, 'oral'), ...withdrawnFor(c.medicine, 'local'), ...c.codes]
    : c.codes;
}

function inGroup(index: MedicineIndex, group: Group, c: Counted): boolean {
  return (
    group.any || c.codes.some((code) => codeInGroup(index, group, code)) || namedInGroup(index, group, c)
  );
}

/** Union, prefixes and added codes; then the exceptions take away, but never an added code. */
function codeInGroup(index: MedicineIndex, group: Group, code: string): boolean {
  if (isUnder(group.plus, code)) return true;
  if (isUnder(group.except, code)) return false;
  return isUnder(group.atc, code) || unionOf(index, group).some((u) => codeInGroup(index, u, code));
}

/** A medicine named in a group counts by its systemic use, or by inhaled, then local use where it has no other. */
function namedInGroup(index: MedicineIndex, group: Group, c: Counted): boolean {
  const named =
    c.medicine &&
    group.named.has(c.name) &&
    definingCodes(c.medicine).some((code) => c.codes.includes(code) && !isUnder(group.except, code));
  return named === true || unionOf(index, group).some((u) => namedInGroup(index, u, c));
}

function definingCodes(m: Medicine): readonly string[] {
  return (
    (['oral', 'inhaled', 'local'] as const)
      .map((route) => codesFor(m, route))
      .find((codes) => codes.length > 0) ?? []
  );
}

function unionOf(index: MedicineIndex, group: Group): Group[] {
  return group.union.flatMap((id) => index.group(id) ?? []);
}

/** Whether a code or prefix stands under one of the prefixes. */
function isUnder(prefixes: ReadonlySet<string>, code: string): boolean {
  for (let length = code.length; length > 0; length -= 1)
    if (prefixes.has(code.slice(0, length))) return true;
  return false;
}

type Cover = 'all' | 'some' | 'none';

function groupMeets(index: MedicineIndex, group: Group, target: Target): Ternary {
  if (target.kind === 'group' && (target.group.any || target.group.id === group.id)) return true;
  if (group.any) return 'unknown';
  if (target.kind === 'medicine' || (target.kind === 'prefix' && target.old))
    return possible(
      [...index.medicines.values()].some((m) => {
        const one: TakenMedicine = { name: m.name, codes: countingCodes(m, undefined), parts: m.parts ?? [] };
        return meetsTarget(index, one, target) === true && inGroup(index, group, { ...one, medicine: m });
      }),
    );
  const covers = coversOf(index, group, target);
  if (covers.length > 0 && covers.every((c) => c === 'all')) return true;
  return possible(covers.some((c) => c !== 'none'));
}

const possible = (is: boolean): Ternary => (is ? 'unknown' : false);

/** How much of each part of a group the target takes in. */
function coversOf(
  index: MedicineIndex,
  group: Group,
  target: Exclude<Target, { kind: 'medicine' }>,
): Cover[] {
  const codes = [...[...group.atc].filter((p) => !isUnder(group.except, p)), ...group.plus];
  const named = [...group.named].map((name): Cover => {
    const m = index.medicines.get(name);
    return m && meetsTarget(index, { name, codes: definingCodes(m), parts: [] }, target) === true
      ? 'all'
      : 'none';
  });
  return [
    ...codes.map((p) => cover(index, target, p, group.except)),
    ...named,
    ...unionOf(index, group).flatMap((u) => coversOf(index, u, target)),
  ];
}

/** How much of the codes under `prefix`, less `without`, a target takes in. */
function cover(
  index: MedicineIndex,
  target: Exclude<Target, { kind: 'medicine' }>,
  prefix: string,
  without: ReadonlySet<string>,
): Cover {
  if (target.kind === 'prefix') {
    if (prefix.startsWith(target.prefix)) return 'all';
    return target.prefix.startsWith(prefix) && !isUnder(without, target.prefix) ? 'some' : 'none';
  }
  const { group } = target;
  const holdsBelow = (codes: Iterable<string>): boolean =>
    [...codes].some((c) => c !== prefix && c.startsWith(prefix) && !isUnder(without, c));
  if (isUnder(group.plus, prefix)) return 'all';
  if (isUnder(group.except, prefix)) return holdsBelow(group.plus) ? 'some' : 'none';
  const covers = unionOf(index, group).map((u) => cover(index, { kind: 'group', group: u }, prefix, without));
  if (isUnder(group.atc, prefix)) covers.push('all');
  const named = [...group.named].flatMap((name) => definingCodes(index.medicines.get(name) ?? { name }));
  if (holdsBelow(group.atc) || holdsBelow(group.plus) || holdsBelow(named) || named.includes(prefix))
    covers.push('some');
  if (covers.includes('all')) return holdsBelow(group.except) ? 'some' : 'all';
  return covers.includes('some') ? 'some' : 'none';
}
