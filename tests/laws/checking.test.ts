import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/checking/finding.ts';
import { LEVELS, type Verdict } from '../../src/checking/level.ts';
import type { Checked } from '../../src/checking/run.ts';
import type { Formula } from '../../src/folder/schema/formula.ts';
import { told, WELL, WOMAN } from '../checking/judge.ts';
import { type Answers, formulaOf, HERBS, judge, lines, SHIPPED, taking, wordOf } from './judge.ts';

/** What holds of the check whoever is asked about, with the words drawn from the reference tables themselves. */

const SEED = { seed: 20260502 };
const WORDS = {
  medicines: lines('medicines', 'medicines').map(wordOf),
  conditions: lines('conditions', 'conditions').map(wordOf),
  allergies: [...lines('allergies', 'families'), ...lines('allergies', 'substances')].map(wordOf),
  taking: HERBS,
} as const;
type List = keyof typeof WORDS;
const LISTS = Object.keys(WORDS) as List[];

const listed = (list: List, xs: readonly string[]): string =>
  JSON.stringify(list === 'taking' ? xs.map((herb) => ({ herb, since: '2026-04-20' })) : xs);

const some = (list: List, maxLength: number, minLength = 0) =>
  fc.uniqueArray(fc.constantFrom(...WORDS[list]), { minLength, maxLength });

const KINDS = {
  infusion: 'kind: infusion, herb: 20 g, water: 600 mL, strained: 500 mL, infuse: 10 min',
  decoction: 'kind: decoction, herb: 20 g, water: 700 mL, boil: 10 min, make_up_to: 500 mL',
  'cold-maceration': 'kind: cold-maceration, herb: 20 g, water: 600 mL, macerate: 8 h, strained: 500 mL',
  powder: 'kind: powder',
} as const;
const USES = [
  'digestive-upset',
  'sleep',
  'joint-pain',
  'productive-cough',
  'constipation',
  undefined,
] as const;

interface Recipe {
  readonly kind: keyof typeof KINDS;
  readonly herbs: readonly string[];
  readonly use: (typeof USES)[number];
  readonly take: number;
}

/** A formula of any shipped herbs; its first herb counts double, whatever the order they are written in. */
const written = ({ kind, herbs, use, take }: Recipe, order = herbs): Promise<Formula> =>
  formulaOf(
    [
      'formula: any-herbs',
      'title: Any herbs',
      'version: 1',
      ...(use ? [`use: ${use}`] : []),
      `ingredients: [${order.map((h) => `{herb: ${h}, parts: ${h === herbs[0] ? 2 : 1}${kind === 'powder' ? ', form: powder' : ''}}`).join(', ')}]`,
      `preparation: {${KINDS[kind]}}`,
      `directions: {take: ${kind === 'powder' ? `${take / 10} g` : `${take * 10} mL`}, times: 3, for: 14 days}`,
    ].join('\n'),
  );

const recipe: fc.Arbitrary<Recipe> = fc.record({
  kind: fc.constantFrom(...(Object.keys(KINDS) as (keyof typeof KINDS)[])),
  herbs: fc.uniqueArray(fc.constantFrom(...HERBS), { minLength: 1, maxLength: 4 }),
  use: fc.constantFrom(...USES),
  take: fc.integer({ min: 1, max: 15 }),
});
/** One in two is a formula that ships. */
const formula: fc.Arbitrary<() => Promise<Formula>> = fc.oneof(
  fc.constantFrom(...SHIPPED).map((f) => async () => f),
  recipe.map((r) => () => written(r)),
);

const EXPECTING: Answers = { ...WOMAN, pregnant: '30 weeks' };
const NURSING: Answers = { ...WOMAN, breastfeeding: 'yes', drives: 'yes', surgery: '2026-05-10' };
const CHILD: Answers = { ...WELL, born: '2017-05-01' };
const UNASKED: Answers = { patient: 'T-2', asked: '2026-05-02', born: '1996-01', sex: undefined };
const ASKED = [WELL, WOMAN, EXPECTING, NURSING, CHILD];
const anyone = fc.constantFrom<Answers>(...ASKED);

const gravity = (level: Verdict): number => (level === 'clear' ? LEVELS.length : LEVELS.indexOf(level));
const marks = (c: Checked): string[] => c.findings.map((f) => `${f.level} ${f.id}`);

describe('the check', () => {
  it.each(LISTS)('is never milder for one more of the %s, and loses nothing but questions', async (list) => {
    const others = LISTS.filter((l) => l !== list);
    const beside = fc.tuple(...others.map((l) => some(l, 2)));
    await fc.assert(
      fc.asyncProperty(formula, anyone, some(list, 4, 1), beside, async (made, who, all, besides) => {
        const given = Object.fromEntries(others.map((l, i) => [l, listed(l, besides[i] ?? [])]));
        const f = await made();
        const less = await judge(f, { ...who, ...given, [list]: listed(list, all.slice(1)) });
        const more = await judge(f, { ...who, ...given, [list]: listed(list, all) });
        expect(gravity(more.verdict), told(more).join('\n')).toBeLessThanOrEqual(gravity(less.verdict));
        const ids = new Set(more.findings.map((x) => x.id));
        expect(less.findings.filter((x) => x.level !== 'ask' && !ids.has(x.id)).map((x) => x.id)).toEqual([]);
      }),
      { ...SEED, numRuns: 120 },
    );
  });

  it('is never milder about a dose that is larger', async () => {
    const TOO_MUCH = ['dose', 'intake-limit', 'legal-limit', 'additive-effect', 'ethanol'];
    const doses = (c: Checked): readonly Finding[] => c.findings.filter((f) => TOO_MUCH.includes(f.rule));
    await fc.assert(
      fc.asyncProperty(
        formula,
        anyone,
        fc.double({ min: 1.01, max: 12, noNaN: true }),
        async (made, who, by) => {
          const f = await made();
          const less = doses(await judge(f, who));
          const more = doses(await judge(taking(f, by.toFixed(2)), who));
          for (const x of less) {
            const same = more.find((y) => y.id === x.id);
            // What could not be told of a constituent may be told of more of it: then another finding says so.
            const left = same ? [same] : more.filter((y) => y.herb === x.herb && y.rule === x.rule);
            const now = Math.min(...left.map((y) => gravity(y.level)));
            expect(now, `${x.level} ${x.id}`).toBeLessThanOrEqual(gravity(x.level));
          }
        },
      ),
      { ...SEED, numRuns: 150 },
    );
  });

  it('is never milder about more of what is taken already', async () => {
    const grams = fc.double({ min: 0.05, max: 20, noNaN: true }).map((g) => g.toFixed(2));
    await fc.assert(
      fc.asyncProperty(
        formula,
        anyone,
        fc.constantFrom(...HERBS),
        grams,
        grams,
        async (made, who, herb, a, b) => {
          const f = await made();
          const [small, large] = [a, b].sort((x, y) => Number(x) - Number(y));
          // The herb itself, and one of the formula's own, which then is taken twice.
          for (const taken of [herb, f.ingredients.find((i) => i.herb)?.herb]) {
            const of = (daily: string | undefined) =>
              judge(f, {
                ...who,
                taking: JSON.stringify([{ herb: taken, daily: `${daily} g`, since: '2026-04-20' }]),
              });
            const [less, more] = [await of(small), await of(large)];
            expect(gravity(more.verdict), `${small} and ${large} g of ${taken}`).toBeLessThanOrEqual(
              gravity(less.verdict),
            );
            for (const x of less.findings) {
              const y = more.findings.find((z) => z.id === x.id);
              expect(y && gravity(y.level), `${x.level} ${x.id}`).toBeLessThanOrEqual(gravity(x.level));
            }
          }
        },
      ),
      { ...SEED, numRuns: 80 },
    );
  });

  it('does not depend on the order in which anything was written', async () => {
    await fc.assert(
      fc.asyncProperty(
        recipe,
        anyone,
        some('medicines', 4),
        some('conditions', 4),
        some('allergies', 4),
        async (r, who, medicines, conditions, allergies) => {
          const there = {
            ...who,
            medicines: listed('medicines', medicines),
            conditions: listed('conditions', conditions),
            allergies: listed('allergies', allergies),
          };
          const back = {
            ...Object.fromEntries(Object.entries(who).reverse()),
            allergies: listed('allergies', allergies.toReversed()),
            conditions: listed('conditions', conditions.toReversed()),
            medicines: listed('medicines', medicines.toReversed()),
          };
          const one = await judge(await written(r), there);
          const other = await judge(await written(r, r.herbs.toReversed()), back);
          expect(marks(other)).toEqual(marks(one));
        },
      ),
      { ...SEED, numRuns: 120 },
    );
  });

  const named = (table: string, list: string) =>
    lines(table, list).flatMap((l) =>
      (l.also ?? [])
        // Willow bark is a herb of the library too: the allergy is then one to that plant, under its own id.
        .filter((other) => !HERBS.includes(other.replace(/ /g, '-')))
        .map((other) => [wordOf(l), other] as const),
    );
  const coded = lines('medicines', 'medicines').flatMap((l) =>
    l.atc?.length === 1 ? [[wordOf(l), l.atc[0] as string] as const] : [],
  );
  it.each([
    ['medicines', 'another name', named('medicines', 'medicines')],
    ['medicines', 'the code', coded],
    ['conditions', 'another name', named('conditions', 'conditions')],
    ['allergies', 'another name', [...named('allergies', 'families'), ...named('allergies', 'substances')]],
  ] as const)('judges one of the %s alike by %s', async (list, _by, pairs) => {
    expect(pairs.length).toBeGreaterThan(20);
    await fc.assert(
      fc.asyncProperty(formula, anyone, fc.constantFrom(...pairs), async (made, who, [name, other]) => {
        const f = await made();
        const one = await judge(f, { ...who, [list]: listed(list, [name]) });
        const two = await judge(f, { ...who, [list]: listed(list, [other]) });
        expect(marks(two), `${name} as ${other}`).toEqual(marks(one));
      }),
      { ...SEED, numRuns: 150 },
    );
  });

  it('does not ask again what was answered', async () => {
    const asked = (c: Checked): string[] =>
      c.findings.flatMap((x) =>
        x.rule === 'unanswered' ? [(x.id.split('/')[2] as string).replace(/-/g, '_')] : [],
      );
    await fc.assert(
      fc.asyncProperty(
        formula,
        anyone,
        fc.subarray(Object.keys(NURSING).slice(2)),
        async (made, who, left) => {
          const f = await made();
          const without = { ...who, ...Object.fromEntries(left.map((q) => [q, undefined])) };
          for (const q of asked(await judge(f, without))) {
            const key = q === 'age' ? 'born' : q;
            const answered = { ...without, [key]: { ...NURSING, ...who }[key] };
            expect(asked(await judge(f, answered))).not.toContain(q);
          }
        },
      ),
      { ...SEED, numRuns: 120 },
    );
  });

  it('is never milder for an answer left out than for the answer no', async () => {
    const questions = Object.keys(WELL).filter(
      (k) => !['patient', 'asked', 'born', 'sex', 'weight'].includes(k),
    );
    await fc.assert(
      fc.asyncProperty(
        formula,
        fc.constantFrom<Answers>(WELL, WOMAN),
        fc.constantFrom(...questions),
        async (made, who, left) => {
          const f = await made();
          const answered = await judge(f, who);
          const open = await judge(f, { ...who, [left]: undefined });
          expect(gravity(open.verdict), left).toBeLessThanOrEqual(gravity(answered.verdict));
        },
      ),
      { ...SEED, numRuns: 120 },
    );
  });

  it('never passes over a word that it does not know', async () => {
    await fc.assert(
      fc.asyncProperty(
        formula,
        fc.constantFrom(...LISTS),
        fc.stringMatching(/^zq[a-z]{6,12}x$/),
        async (made, list, word) => {
          const c = await judge(await made(), { ...WELL, [list]: listed(list, [word]) });
          expect(['ask', 'withhold']).toContain(c.verdict);
        },
      ),
      { ...SEED, numRuns: 40 },
    );
  });

  it('comes to a verdict for anyone, and finds nothing twice', async () => {
    const lists = fc.record({
      medicines: some('medicines', 6),
      conditions: some('conditions', 6),
      allergies: some('allergies', 6),
      taking: some('taking', 4),
    });
    await fc.assert(
      fc.asyncProperty(
        formula,
        fc.constantFrom<Answers>(...ASKED, UNASKED),
        lists,
        fc.subarray(LISTS),
        async (made, who, all, said) => {
          const given = Object.fromEntries(said.map((l) => [l, listed(l, all[l])]));
          const c = await judge(await made(), { ...who, ...given });
          expect([...LEVELS, 'clear']).toContain(c.verdict);
          const ids = c.findings.map((x) => x.id);
          expect(new Set(ids).size).toBe(ids.length);
        },
      ),
      { ...SEED, numRuns: 120 },
    );
  });
});
