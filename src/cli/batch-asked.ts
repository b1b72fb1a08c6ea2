import type { BatchAsked } from '../compounding/batch-size.ts';
import type { Folder } from '../folder/folder.ts';
import { findHerb } from '../folder/herb-names.ts';
import { keyOf } from '../folder/ingredients.ts';
import type { Formula } from '../folder/schema/formula.ts';
import { nearest } from '../measure/nearest.ts';
import { parseNumber, parseQuantity } from '../measure/parse.ts';
import { type Quantity, quantity } from '../measure/quantity.ts';
import { bad, ok, type Result } from '../measure/result.ts';
import type { BatchOptions } from './options.ts';

/** How much is asked for, from --make, --days, --doses and --have; at most one of them. */
export async function batchAsked(
  options: BatchOptions,
  folder: Folder,
  formula: Formula,
): Promise<Result<BatchAsked>> {
  const given = (['make', 'days', 'doses', 'have'] as const).filter((k) => options[k] !== undefined);
  if (given.length > 1) return bad(`--${given.join(' and --')} both set the size: give one`);
  if (options.make !== undefined) {
    const q = parseQuantity(options.make, folder.measures, ['mass', 'volume', 'count']);
    if (!q.ok) return bad(`--make ${q.why}`);
    if (q.value.value.lte(0)) return bad('--make must be above 0');
    if (q.value.unit.dimension === 'count') return ok({ by: 'count', count: q.value });
    return ok(
      q.value.unit.dimension === 'mass' ? { by: 'mass', mass: q.value } : { by: 'volume', volume: q.value },
    );
  }
  if (options.days !== undefined) {
    const n = wholeNumber(options.days.replace(/\s*days?$/, ''), '--days');
    return n.ok ? ok({ by: 'days', days: quantity(n.value, 'd') }) : n;
  }
  if (options.doses !== undefined) {
    const n = wholeNumber(options.doses.replace(/\s*doses?$/, ''), '--doses');
    return n.ok ? ok({ by: 'doses', doses: quantity(n.value, '{dose}') }) : n;
  }
  if (options.have !== undefined) return haveAsked(options.have, folder, formula);
  return ok({ by: 'formula' });
}

function wholeNumber(text: string, option: string): Result<string> {
  const n = parseNumber(text);
  if (!n.ok) return bad(`${option} ${n.why}`);
  return n.value.isInteger() && n.value.gt(0)
    ? ok(n.value.toFixed())
    : bad(`${option} must be a whole number above 0`);
}

async function haveAsked(
  have: readonly string[],
  folder: Folder,
  formula: Formula,
): Promise<Result<BatchAsked>> {
  const inHand = new Map<string, Quantity>();
  for (const item of have) {
    const [, name, amount] = /^\s*([^=]+?)\s*=\s*(.+)$/.exec(item) ?? [];
    if (name === undefined || amount === undefined)
      return bad(
        `--have "${item}": write the herb and what there is of it, such as --have "ginger-rhizome=40 g"`,
      );
    const herb = await herbOf(name, folder, formula);
    if (!herb.ok) return herb;
    const q = parseQuantity(amount, folder.measures, ['mass', 'volume']);
    if (!q.ok) return bad(`--have ${q.why}`);
    if (q.value.value.lte(0)) return bad(`--have "${item}": with none of it nothing can be made`);
    if (inHand.has(herb.value)) return bad(`--have names ${herb.value} twice: add the two up`);
    inHand.set(herb.value, q.value);
  }
  return ok({ by: 'have', have: inHand });
}

/** The ingredient that a name means, by its id or by any of the herb's names. */
async function herbOf(name: string, folder: Folder, formula: Formula): Promise<Result<string>> {
  const ingredients = formula.ingredients.map(keyOf);
  if (ingredients.includes(name)) return ok(name);
  const found = await findHerb(folder, name);
  const ids = found.kind === 'found' ? [found.id] : found.kind === 'several' ? found.ids : [];
  const [only, ...more] = ids.filter((id) => ingredients.includes(id));
  if (only !== undefined && more.length === 0) return ok(only);
  if (only !== undefined)
    return bad(`--have "${name}" could be ${[only, ...more].join(' or ')}: write which`);
  const near = nearest(name, ingredients);
  const hint =
    near.length > 0 ? `did you mean ${near.join(' or ')}?` : `it is made of ${ingredients.join(', ')}`;
  return bad(`--have "${name}" is not in this formula: ${hint}`);
}
