import { any, type Ternary } from '../measure/age.ts';
import type { AllergyVocabulary, StatedAllergy } from './allergies.ts';
import { medicineMatches } from './medicines.ts';
import { normal } from './normal.ts';

/**
 * Whether a person's allergies meet what a rule speaks of: the id of a family or substance, or a genus.
 * An allergy to one plant meets a rule on its family, and an allergy to a family meets a rule on each of its plants.
 * Another plant of the same family, a cross link, and a genus that older texts place elsewhere are asked about.
 */
export function allergyHolds(
  v: AllergyVocabulary,
  stated: readonly StatedAllergy[],
  target: string,
): Ternary {
  return any(stated.map((s) => oneHolds(v, s, target)));
}

/** One allergy is held against the same few targets for everyone who has it. */
const met = new WeakMap<AllergyVocabulary['index'], WeakMap<StatedAllergy, Map<string, Ternary>>>();

function oneHolds(v: AllergyVocabulary, s: StatedAllergy, target: string): Ternary {
  const ofTable = met.get(v.index) ?? new WeakMap<StatedAllergy, Map<string, Ternary>>();
  met.set(v.index, ofTable);
  const known = ofTable.get(s) ?? new Map<string, Ternary>();
  ofTable.set(s, known);
  const before = known.get(target);
  if (before !== undefined) return before;
  const family = familyTarget(v, target);
  const holds = v.index.substances.has(target)
    ? substanceHolds
    : family !== undefined
      ? familyHolds
      : genusHolds;
  const is = holds(v, s, family ?? target);
  known.set(target, is);
  return is;
}

/** Whether the table knows what a rule speaks of; a genus that it lacks meets only an allergy to that very genus. */
export function knownAllergyTarget(v: AllergyVocabulary, target: string): boolean {
  return (
    v.index.substances.has(target) ||
    familyTarget(v, target) !== undefined ||
    v.index.genera.has(normal(target))
  );
}

/** How the target of a rule is said in plain English. */
export function allergyTerm(v: AllergyVocabulary, target: string): string {
  const substance = v.index.substances.get(target);
  if (substance) return substance.term;
  const family = v.index.families.get(familyTarget(v, target) ?? '');
  if (!family) return `plants of the genus ${target}`;
  const everyday = family.also?.find((w) => w.endsWith(' family'));
  return everyday === undefined
    ? `plants of the family ${family.term}`
    : `plants of the ${everyday} (${family.term})`;
}

/** The family that a genus belongs to; null where it is not listed. */
export function familyOf(v: AllergyVocabulary, genus: string): string | null {
  return v.index.familyOfGenus.get(genus) ?? null;
}

/** The family that a monograph names, by any of its names: "Viburnaceae (Adoxaceae)". Null where it is not listed. */
export function familyNamed(v: AllergyVocabulary, text: string): string | null {
  return v.index.familyWords.get(normal(text.split('(')[0] ?? '')) ?? null;
}

function familyTarget(v: AllergyVocabulary, target: string): string | undefined {
  return v.index.families.has(target) ? target : v.index.familyWords.get(normal(target));
}

function familyHolds(v: AllergyVocabulary, s: StatedAllergy, family: string): Ternary {
  if (s.families.includes(family) || s.genera.some((g) => v.index.familyOfGenus.get(g) === family))
    return true;
  const wasThere = s.genera.some((g) => v.index.onceIn.get(g)?.includes(family));
  return wasThere || substancesOf(v, s).some((id) => linked(v, family, id)) ? 'unknown' : false;
}

function genusHolds(v: AllergyVocabulary, s: StatedAllergy, genus: string): Ternary {
  const family = v.index.familyOfGenus.get(genus);
  if (s.genera.includes(genus) || (family !== undefined && s.families.includes(family))) return true;
  const relative = family !== undefined && s.genera.some((g) => v.index.familyOfGenus.get(g) === family);
  const wasThere = s.families.some((f) => v.index.onceIn.get(genus)?.includes(f));
  const crosses = substancesOf(v, s).some(
    (id) =>
      v.index.substances.get(id)?.genera?.includes(genus) || (family !== undefined && linked(v, family, id)),
  );
  return relative || wasThere || crosses ? 'unknown' : false;
}

function substanceHolds(v: AllergyVocabulary, s: StatedAllergy, id: string): Ternary {
  const substance = v.index.substances.get(id);
  if (s.substances.includes(id) || (substance?.plant !== undefined && s.genera.includes(substance.plant)))
    return true;
  const asMedicine = medicineHolds(v, s, id);
  if (asMedicine === true || (s.medicine && substance?.sort === 'medicine')) return true;
  const families = [...s.families, ...s.genera.flatMap((g) => v.index.familyOfGenus.get(g) ?? [])];
  const crosses =
    s.genera.some((g) => substance?.genera?.includes(g)) ||
    [...families, ...substancesOf(v, s)].some((other) => linked(v, other, id));
  return asMedicine === 'unknown' || crosses ? 'unknown' : false;
}

/** Whether the medicine that someone is allergic to belongs with a substance, as ibuprofen does with its like. */
function medicineHolds(v: AllergyVocabulary, s: StatedAllergy, id: string): Ternary {
  const { medicine } = s;
  return medicine
    ? any(
        (v.index.substances.get(id)?.medicine_groups ?? []).map((g) =>
          medicineMatches(v.medicines, medicine, g),
        ),
      )
    : false;
}

function substancesOf(v: AllergyVocabulary, s: StatedAllergy): string[] {
  const byMedicine = s.medicine
    ? [...v.index.substances.keys()].filter((id) => medicineHolds(v, s, id) === true)
    : [];
  return [...s.substances, ...byMedicine];
}

/** A cross link counts from either side: it asks, and never bars. */
function linked(v: AllergyVocabulary, one: string, other: string): boolean {
  const crossOf = (id: string) => (v.index.families.get(id) ?? v.index.substances.get(id))?.cross ?? [];
  return crossOf(one).includes(other) || crossOf(other).includes(one);
}
