import type { Finding } from '../../src/checking/finding.ts';
import { RULES } from '../../src/checking/rules/index.ts';
import { type Asked, caseFor } from './judge.ts';

/** Herbs that nobody grows and formulas of a line, so that all that a case rests on stands in the case. */

type Keys = Readonly<Record<string, string | undefined>>;

const HERB: Keys = {
  names: '{latin: Testia vera L., common: [test herb]}',
  family: 'Testiaceae',
  part: 'herb',
  checked: 'null',
  sources: '{a: {body: Body A, title: A, reading: original}, b: {body: Body B, title: B, reading: original}}',
  doses: '[{preparation: {kind: [infusion, powder]}, route: oral, ages: all ages, single: 1-3 g, source: a}]',
  interactions: '{says: none-known, source: a}',
  pregnancy: '{says: acceptable, source: a}',
  breastfeeding: '{says: acceptable, source: a}',
};

const FORMULA: Keys = {
  title: 'Test tea',
  ingredients: '[{herb: test-herb, parts: 1}]',
  preparation: '{kind: infusion, herb: 2 g, water: 200 mL, strained: 200 mL, infuse: 10 min}',
  directions: '{take: all of the pot, times: 3, for: 7 days}',
};

const text = (keys: Keys): string =>
  Object.entries(keys)
    .flatMap(([k, v]) => (v === undefined ? [] : [`${k}: ${v}`]))
    .join('\n');

/** The monograph `test-herb`, with other keys where a test says so. */
export const herb = (keys: Keys = {}, id = 'test-herb'): Record<string, string> => ({
  [`monographs/${id}.yaml`]: text({ id, ...HERB, ...keys }),
});

/** The formula `test-tea` of that herb. */
export const tea = (keys: Keys = {}, id = 'test-tea'): Record<string, string> => ({
  [`formulas/${id}.yaml`]: text({ formula: id, ...FORMULA, ...keys }),
});

/** A tea of one herb of the library, 2 g in a pot, three times a day for a week. */
export const teaOf = (herbId: string, keys: Keys = {}): Record<string, string> =>
  tea({ ingredients: `[{herb: ${herbId}, parts: 1}]`, ...keys });

/** What one rule alone finds. */
export async function finds(rule: string, asked: Partial<Asked> & Pick<Asked, 'person'>): Promise<Finding[]> {
  const found = RULES.find((r) => r.name === rule);
  if (!found) throw new Error(`there is no rule ${rule}`);
  return [...found.find(await caseFor({ formula: 'test-tea', ...asked }))];
}

export const levels = (found: readonly Finding[]): string[] => found.map((f) => f.level);
