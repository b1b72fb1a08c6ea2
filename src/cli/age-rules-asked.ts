import { type RulesForPerson, rulesForPerson } from '../checking/by-age-rule.ts';
import type { Case } from '../checking/case.ts';
import type { AgeRule } from '../dosing/age-rules.ts';
import { type Folder, readTable } from '../folder/folder.ts';
import type { AgeRules } from '../folder/schema/reference.ts';
import { nearest } from '../measure/nearest.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { failedLoading, type Loading } from './load.ts';
import { usage } from './outcome.ts';

/** The rules of age that were asked for, in the order of their table. */
export interface RulesAsked {
  readonly table: AgeRules;
  readonly rules: readonly AgeRule[];
}

const ALL = 'all';

/**
 * Rules by id, by name or by another name, however it is written; a comma parts several. `all` is every rule, by one of the
 * figures in print for it.
 */
export async function ageRulesAsked(folder: Folder, given: readonly string[]): Promise<Loading<RulesAsked>> {
  const names = given.flatMap((g) => g.split(','));
  const read = await readTable(folder, 'age-rules');
  if (!read.ok) return failedLoading(read.why);
  const table = read.value.value;
  const asked = new Set(names.map(asKnown));
  const keysOf = (r: AgeRule): string[] => [r.id, r.name, ...(r.also ?? [])].map(asKnown);
  const known = table.rules.map((rule) => ({ rule, keys: keysOf(rule) }));
  const wrong = names.filter((n) => asKnown(n) !== ALL && !known.some((k) => k.keys.includes(asKnown(n))));
  if (wrong.length > 0) return failedLoading(wrong.map((n) => usage(notKnown(n, known))));
  const rules = known
    .filter(
      ({ rule, keys }) => keys.some((k) => asked.has(k)) || (asked.has(ALL) && rule.variant_of === undefined),
    )
    .map((k) => k.rule);
  return { ok: true, value: { table, rules } };
}

/** `Clark's rule`, `CLARK` and `clark` are one name. */
const asKnown = (name: string): string =>
  name
    .toLowerCase()
    .replace(/['\u2019]s\b/g, '')
    .replace(/[\s-]+/g, ' ')
    .replace(/ rule$/, '')
    .trim();

function notKnown(name: string, known: readonly { rule: AgeRule; keys: readonly string[] }[]): string {
  const near = nearest(
    asKnown(name),
    known.flatMap((k) => k.keys),
  );
  const meant = [...new Set(near.flatMap((n) => known.find((k) => k.keys.includes(n))?.rule.id ?? []))];
  const hint = meant.length > 0 ? `did you mean ${meant.join(' or ')}? ` : '';
  return `--age-rule "${name.trim()}" is no rule: ${hint}there are ${ALL}, ${known.map((k) => k.rule.id).join(', ')}`;
}

/** The rules for the person of the case; or what has to be said of them first. */
export function rulesForCase({ person, on }: Case, { table, rules }: RulesAsked): Result<RulesForPerson> {
  if (person === null)
    return bad(
      '--age-rule is for a person of some age: say --age 7y (with --weight 24kg and --height "122 cm" for the rules that go by them), or --patient FILE',
    );
  if (person.birth === null)
    return bad(
      `--age-rule is for a person of some age, and that of ${person.code} was not given: say --age, or born: or age: in the file`,
    );
  const who = { birth: person.birth, on, weight: person.weight, height: person.source.height ?? null };
  return ok(rulesForPerson(rules, table, who));
}
