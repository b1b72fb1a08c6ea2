import type { Amendment } from '../folder/amend.ts';
import type { Folder } from '../folder/folder.ts';
import { findHerb } from '../folder/herb-names.ts';
import { keyOf } from '../folder/ingredients.ts';
import type { Formula } from '../folder/schema/formula.ts';
import { parseQuantity } from '../measure/parse.ts';
import { comparable, inUnit, minus, plus, type Quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import { write } from '../measure/write.ts';
import type { Lot } from '../recording/draw.ts';
import { ownOf } from '../recording/needs.ts';
import { quantityText } from '../recording/quantity-text.ts';

/** What was in the remedy that is repeated: each line with its amount. */
export type Before = ReadonlyMap<string, Quantity>;

/**
 * Changes to what was handed over before: `valerian-root -10 mL, hops-flower +10 mL`. A name alone with `out` takes it
 * out; what was not in it comes as it stands on the shelf. Every line then stands with its own amount.
 */
export async function changesAsked(
  text: string,
  formula: Formula,
  before: Before,
  folder: Folder,
  shelf: (herb: string) => readonly Lot[],
): Promise<Result<{ readonly amendments: readonly Amendment[]; readonly says: readonly string[] }>> {
  const amounts = new Map(before);
  const added = new Map<string, Lot>();
  const says: string[] = [];
  for (const part of text.split(',').map((p) => p.trim())) {
    const [, name = '', sign = '', amount = ''] = /^(.+?)\s+([-+\u2212]|=|out$)\s*(.*)$/.exec(part) ?? [];
    if (name === '')
      return bad(
        `"${part}": write the herb and how much more or less, such as "valerian-root -10 mL", or "valerian-root out"`,
      );
    const key = await keyNamed(name, formula, folder);
    if (!key.ok) return key;
    const was = amounts.get(key.value);
    if (sign === 'out') {
      if (!was) return bad(`${key.value} was not in it`);
      amounts.delete(key.value);
      says.push(`${key.value} out`);
      continue;
    }
    const q = parseQuantity(amount, folder.measures, ['mass', 'volume']);
    if (!q.ok) return bad(`${key.value}: ${q.why}`);
    if (!was) {
      if (sign !== '+') return bad(`${key.value} was not in it: write "${key.value} +${amount}" to add it`);
      const lot = onlyKind(key.value, shelf(key.value));
      if (!lot.ok) return lot;
      added.set(key.value, lot.value);
      amounts.set(key.value, q.value);
      says.push(`${key.value} +${quantityText(q.value)}`);
      continue;
    }
    const next = changed(was, sign, q.value);
    if (!next.ok) return bad(`${key.value} ${next.why}`);
    amounts.set(key.value, next.value);
    says.push(`${key.value} ${sign === '=' ? '=' : sign === '+' ? '+' : '-'} ${quantityText(q.value)}`);
  }
  if (amounts.size === 0) return bad('nothing is left of it');
  return ok({ amendments: amendmentsFor(formula, amounts, added), says });
}

function changed(was: Quantity, sign: string, by: Quantity): Result<Quantity> {
  if (!comparable(was.unit, by.unit)) return bad(`was measured in ${was.unit.symbol}`);
  const same = inUnit(by, was.unit);
  if (sign === '=') return same.value.gt(0) ? ok(same) : bad('would be nothing: write out to leave it out');
  const next = sign === '+' ? plus(was, same) : minus(was, same);
  return next.value.gt(0)
    ? ok(next)
    : bad(
        `had ${write(was, 'exact')}, and ${write(same, 'exact')} less leaves nothing: write out to leave it out`,
      );
}

async function keyNamed(name: string, formula: Formula, folder: Folder): Promise<Result<string>> {
  if (formula.ingredients.some((i) => keyOf(i) === name)) return ok(name);
  const found = await findHerb(folder, name);
  if (found.kind === 'found') return ok(found.id);
  const ids = found.kind === 'several' ? found.ids : found.near;
  const own = ids.filter((id) => formula.ingredients.some((i) => keyOf(i) === id));
  if (own.length === 1 && own[0]) return ok(own[0]);
  return bad(
    `"${name}" ${ids.length > 0 ? `could be ${ids.join(' or ')}: write which` : 'is no herb that is known here'}`,
  );
}

/** Of several kinds on the shelf nobody can tell which is meant. */
function onlyKind(herb: string, lots: readonly Lot[]): Result<Lot> {
  const [first, ...more] = lots;
  if (!first)
    return bad(`no lot of ${herb} is on the shelf: book it in, or write it into a formula of its own`);
  const kinds = new Set(
    [first, ...more].map((l) => `${l.form} ${l.ratio?.text} ${l.spirit && write(l.spirit)}`),
  );
  return kinds.size === 1
    ? ok(first)
    : bad(
        `${herb} stands on the shelf in several forms or strengths: write a formula of its own that says which`,
      );
}

function amendmentsFor(formula: Formula, amounts: Before, added: ReadonlyMap<string, Lot>): Amendment[] {
  const kept = formula.ingredients.map((i): Amendment => {
    const amount = amounts.get(keyOf(i));
    const as = i.herb === undefined ? ('vehicle' as const) : ('herb' as const);
    if (!amount) return { of: keyOf(i), as, gone: true };
    return {
      of: keyOf(i),
      as,
      set: { amount: quantityText(amount) },
      unset: ['parts', 'percent', 'make_up_to'],
    };
  });
  const fresh = [...added].map(
    ([of, lot]): Amendment => ({
      of,
      as: lot.herb === undefined ? 'vehicle' : 'herb',
      set: {
        amount: quantityText(amounts.get(of) as Quantity),
        ...(lot.form ? { form: lot.form } : {}),
        ...ownOf(lot),
      },
    }),
  );
  return [...kept, ...fresh];
}
