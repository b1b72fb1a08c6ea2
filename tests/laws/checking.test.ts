import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { LEVELS } from '../../src/checking/level.ts';
import type { Checked } from '../../src/checking/run.ts';
import { judge, told, WELL, WOMAN } from '../checking/judge.ts';

/** What holds of the check whoever is asked about, with the words drawn from the reference tables themselves. */

interface Entry {
  readonly name?: string;
  readonly term?: string;
  readonly also?: readonly string[];
}

function entries(name: string): readonly (Entry & { readonly plain: string })[] {
  const url = new URL(`../../monographs/reference/${name}.yaml`, import.meta.url);
  const listed: readonly Entry[] = parse(readFileSync(url, 'utf8'))[name];
  return listed.map((e) => ({ ...e, plain: (e.name ?? e.term) as string }));
}

const FORMULAS = [
  'after-supper',
  'quiet-evening',
  'steady-journey',
  'stiff-joints',
  'still-night',
  'winter-chest',
];
const formula = fc.constantFrom(...FORMULAS);
const anyone = fc.constantFrom(WELL, WOMAN);
const words = (name: string, maxLength: number) =>
  fc.uniqueArray(fc.constantFrom(...entries(name).map((e) => e.plain)), { maxLength });

const listed = (xs: readonly string[]): string => JSON.stringify(xs);
const grave = (c: Checked): number => {
  const at = (LEVELS as readonly string[]).indexOf(c.verdict);
  return at === -1 ? LEVELS.length : at;
};
const marks = (c: Checked): string[] => c.findings.map((f) => `${f.level} ${f.id}`).sort();

describe('the check', () => {
  it.each(['medicines', 'conditions'])(
    'one more of the %s never makes the verdict milder',
    async (question) => {
      await fc.assert(
        fc.asyncProperty(formula, anyone, words(question, 4), fc.nat(), async (name, who, all, n) => {
          fc.pre(all.length > 0);
          const fewer = all.filter((_, i) => i !== n % all.length);
          const less = await judge({ formula: name, person: { ...who, [question]: listed(fewer) } });
          const more = await judge({ formula: name, person: { ...who, [question]: listed(all) } });
          expect(grave(more), told(more).join('\n')).toBeLessThanOrEqual(grave(less));
        }),
        { numRuns: 25 },
      );
    },
  );

  it('does not depend on the order in which the answers were written', async () => {
    await fc.assert(
      fc.asyncProperty(
        formula,
        anyone,
        words('medicines', 5),
        words('conditions', 5),
        async (name, who, medicines, conditions) => {
          const there = { ...who, medicines: listed(medicines), conditions: listed(conditions) };
          const back = {
            ...Object.fromEntries(Object.entries(who).reverse()),
            conditions: listed([...conditions].reverse()),
            medicines: listed([...medicines].reverse()),
          };
          const one = await judge({ formula: name, person: there });
          const other = await judge({ formula: name, person: back });
          expect(marks(other)).toEqual(marks(one));
        },
      ),
      { numRuns: 25 },
    );
  });

  it.each(['medicines', 'conditions'])(
    'judges another name of one of the %s as it judges the name',
    async (question) => {
      const known = entries(question).filter((e) => (e.also ?? []).length > 0);
      expect(known.length).toBeGreaterThan(20);
      await fc.assert(
        fc.asyncProperty(
          formula,
          fc.constantFrom(...known),
          fc.nat(),
          async (name, { plain, also = [] }, n) => {
            const other = also[n % also.length] as string;
            const a = await judge({ formula: name, person: { ...WELL, [question]: listed([plain]) } });
            const b = await judge({ formula: name, person: { ...WELL, [question]: listed([other]) } });
            expect(b.verdict, other).toBe(a.verdict);
            expect(b.findings.map((f) => `${f.level} ${f.rule} ${f.herb}`)).toEqual(
              a.findings.map((f) => `${f.level} ${f.rule} ${f.herb}`),
            );
          },
        ),
        { numRuns: 25 },
      );
    },
  );

  it('never passes over a word that it does not know', async () => {
    await fc.assert(
      fc.asyncProperty(
        formula,
        fc.constantFrom('medicines', 'conditions', 'allergies'),
        fc.stringMatching(/^zq[a-z]{6,12}x$/),
        async (name, question, word) => {
          const c = await judge({ formula: name, person: { ...WELL, [question]: listed([word]) } });
          expect(['ask', 'withhold']).toContain(c.verdict);
        },
      ),
      { numRuns: 25 },
    );
  });

  it('leaving an answer out never makes the verdict milder than the answer no', async () => {
    await fc.assert(
      fc.asyncProperty(formula, anyone, fc.nat(), async (name, who, n) => {
        const questions = Object.keys(who).filter((k) => !['patient', 'asked', 'born', 'sex'].includes(k));
        const left = questions[n % questions.length] as string;
        const told = await judge({ formula: name, person: who });
        const untold = await judge({ formula: name, person: { ...who, [left]: undefined } });
        expect(grave(untold), left).toBeLessThanOrEqual(grave(told));
      }),
      { numRuns: 25 },
    );
  });
});
