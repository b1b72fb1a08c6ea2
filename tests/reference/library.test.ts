import { beforeAll, describe, expect, it } from 'vitest';
import { type Folder, idsOf, readById, readTable } from '../../src/folder/folder.ts';
import { parseId } from '../../src/folder/id.ts';
import { writeProblem } from '../../src/folder/problem.ts';
import type { ReadResult } from '../../src/folder/read.ts';
import { type Known, missingInMonograph } from '../../src/folder/references.ts';
import type { DoseEntry, Monograph } from '../../src/folder/schema/monograph.ts';
import { DEFAULT_SETTINGS } from '../../src/folder/settings.ts';
import type { AgeBand } from '../../src/measure/age.ts';
import { NO_MEASURES } from '../../src/measure/parse.ts';
import { comparable, compareQuantities, type Quantity, times } from '../../src/measure/quantity.ts';
import { rangeJson } from '../../src/measure/write.ts';
import { allergyVocabulary, knownAllergyTarget } from '../../src/vocabulary/allergies.ts';
import { conditionVocabulary, knownConditionTarget } from '../../src/vocabulary/conditions.ts';
import { knownMedicineTarget, medicineVocabulary } from '../../src/vocabulary/medicines.ts';

/** Laws that every monograph of the library keeps, and all of them together. */

const root = new URL('../../', import.meta.url).pathname;
const folder: Folder = { root, settings: DEFAULT_SETTINGS, measures: NO_MEASURES };
const ids = idsOf(folder, 'monograph');
const library = new Map<string, Monograph>();
let known: Known;

const valueIn = <T>(read: ReadResult<T>): T => {
  if (!read.ok) throw new Error(read.why.map(writeProblem).join('\n'));
  return read.value.value;
};

beforeAll(async () => {
  for (const id of ids) library.set(id, valueIn(await readById(folder, 'monograph', id)));
  const medicines = medicineVocabulary(
    valueIn(await readTable(folder, 'medicines')),
    valueIn(await readTable(folder, 'medicine-groups')),
  );
  const conditions = conditionVocabulary(valueIn(await readTable(folder, 'conditions')));
  const allergies = allergyVocabulary(valueIn(await readTable(folder, 'allergies')), medicines);
  known = {
    herbs: ids,
    uses: valueIn(await readTable(folder, 'uses')).uses.map((u) => u.id),
    effects: valueIn(await readTable(folder, 'additive-effects')).effects.map((e) => e.id),
    medicine: (t) => knownMedicineTarget(medicines, t),
    condition: (t) => knownConditionTarget(conditions, t),
    allergy: (t) => knownAllergyTarget(allergies, t) || /^[A-Z][a-z-]+$/.test(t),
  };
});

const dosesOf = (m: Monograph): readonly DoseEntry[] => (m.doses === 'none-read' ? [] : m.doses);
const faultsOf = (law: (m: Monograph) => readonly string[]): string[] =>
  [...library].flatMap(([id, m]) => law(m).map((fault) => `${id}: ${fault}`));

/** Every `source` at any depth, with where it stands. */
function sourcesNamed(value: unknown, at: string): { key: string; at: string }[] {
  if (Array.isArray(value)) return value.flatMap((v, i) => sourcesNamed(v, `${at}[${i}]`));
  if (value === null || typeof value !== 'object') return [];
  return Object.entries(value).flatMap(([k, v]) =>
    k === 'source' && typeof v === 'string' ? [{ key: v, at }] : sourcesNamed(v, `${at}.${k}`),
  );
}

/** Two bands that hold some age in common. */
function overlap(a: AgeBand | undefined, b: AgeBand | undefined): boolean {
  const from = (x: AgeBand | undefined): number => x?.from?.months ?? 0;
  const under = (x: AgeBand | undefined): number => x?.under?.months ?? Number.POSITIVE_INFINITY;
  // An entry without ages says nothing of any.
  return a !== undefined && b !== undefined && from(a) < under(b) && from(b) < under(a);
}

const RANGES = ['single', 'daily', 'weekly', 'in', 'concentration', 'steep'] as const;
const NUMBERS = ['times', 'times_a_week'] as const;

/** The figures that both state, and not alike. */
const unlike = (a: DoseEntry, b: DoseEntry): string[] => [
  ...RANGES.filter((k) => {
    const [x, y] = [a[k], b[k]];
    return x && y && JSON.stringify(rangeJson(x)) !== JSON.stringify(rangeJson(y));
  }),
  ...NUMBERS.filter((k) => {
    const [x, y] = [a[k], b[k]];
    return x && y && JSON.stringify(x) !== JSON.stringify(y);
  }),
];

const sameThing = (a: DoseEntry, b: DoseEntry): boolean =>
  a.source === b.source &&
  a.route === b.route &&
  a.of === b.of &&
  JSON.stringify(a.preparation) === JSON.stringify(b.preparation) &&
  // No use named is a use of its own, which the note tells.
  (a.use ?? ['']).some((u) => (b.use ?? ['']).includes(u));

const explained = (d: DoseEntry): boolean => d.note !== undefined || d.limit !== undefined;

/** The dose of a day, worked out from single and times, beside the day as printed: true where they agree. */
function dayAgrees(d: DoseEntry): boolean {
  const { single, times: often, daily } = d;
  if (single === undefined || often === undefined || daily === undefined) return true;
  const day = (q: Quantity | null, n: typeof often.low): Quantity | null =>
    q === null || n === null ? null : times(q, n);
  const same = (a: Quantity | null, b: Quantity | null): boolean =>
    a === null || b === null ? a === b : comparable(a.unit, b.unit) && compareQuantities(a, b) === 0;
  return same(day(single.low, often.low), daily.low) && same(day(single.high, often.high), daily.high);
}

describe('every monograph of the library', () => {
  it('is named as its file is', () => {
    expect([...library].filter(([id, m]) => m.id !== id)).toEqual([]);
  });

  it('has a family, a part and a Latin name with its author', () => {
    expect(faultsOf((m) => (/^\p{Lu}[a-z]+aceae$/u.test(m.family) ? [] : [`family "${m.family}"`]))).toEqual(
      [],
    );
    expect(faultsOf((m) => (/^[a-z][a-z ,()-]+$/.test(m.part) ? [] : [`part "${m.part}"`]))).toEqual([]);
    // Genus and species, then an author: `L.`, `(L.) Maxim.`, `Roth`; what follows is a rank or another species.
    const latin = /^\p{Lu}[a-z]+ (?:x )?[a-z]+(?:-[a-z]+)* (?:\(\p{Lu}[\p{L}.& ]*\) )?\p{Lu}[\p{L}.]+/u;
    expect(faultsOf((m) => (latin.test(m.names.latin) ? [] : [`Latin name "${m.names.latin}"`]))).toEqual([]);
  });

  it('names only sources that it lists, at every depth', () => {
    expect(
      faultsOf((m) =>
        sourcesNamed(m, '')
          .filter(({ key }) => !Object.hasOwn(m.sources, key))
          .map(({ key, at }) => `${at} names "${key}"`),
      ),
    ).toEqual([]);
  });

  it('is written in words of the shared tables: uses, medicines, conditions, allergies, herbs', () => {
    expect(faultsOf((m) => missingInMonograph(m, known).map((w) => w.message))).toEqual([]);
  });

  it('has effects that look like ids', () => {
    expect(
      faultsOf((m) =>
        (m.effects ?? [])
          .filter((e) => !parseId(e).ok || !/^[a-z]+(?:-[a-z]+)*$/.test(e))
          .map((e) => `"${e}"`),
      ),
    ).toEqual([]);
  });
});

describe('the doses of one source, use and preparation', () => {
  it('do not overlap in age with other figures, unless a note or a limit tells why', () => {
    expect(
      faultsOf((m) => {
        const doses = dosesOf(m);
        return doses.flatMap((a, i) =>
          doses
            .slice(i + 1)
            .filter((b) => sameThing(a, b) && overlap(a.ages, b.ages))
            .filter((b) => unlike(a, b).length > 0 && !explained(a) && !explained(b))
            .map(
              (b) =>
                `${a.preparation.kind.join('/')} from ${a.source}: ${unlike(a, b).join(', ')} of two entries`,
            ),
        );
      }),
    ).toEqual(OVERLAPPING);
  });
});

describe('a dose, how often, and the day', () => {
  it('agree, unless a note tells of it or each is printed so', () => {
    expect(
      faultsOf((m) =>
        dosesOf(m)
          .filter((d) => !dayAgrees(d) && d.note === undefined)
          .map((d) => `${d.preparation.kind.join('/')} from ${d.source}`),
      ),
    ).toEqual(DAYS_PRINTED_APART);
  });
});

const OVERLAPPING: readonly string[] = [];
/** Each source here prints the dose, how often and a day (most often the most in a day) that is not their product. */
const DAYS_PRINTED_APART: readonly string[] = [
  'ginger-rhizome: powder from product-uk',
  'meadowsweet-flower: infusion from product-pl',
  'meadowsweet-flower: infusion from product-pl',
  'passionflower-herb: dry-extract from product-se',
  'peppermint-leaf: infusion from product-pl-2',
  'peppermint-leaf: infusion from product-pl-2',
  'valerian-root: tincture from product-uk',
];
