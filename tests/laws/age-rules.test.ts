// What holds of every rule of age, whoever it is reckoned for.
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { byAgeRules, rulesForPerson } from '../../src/checking/by-age-rule.ts';
import { byShare, type Grown, shareFor } from '../../src/dosing/age-rules.ts';
import { openFolder, readTable } from '../../src/folder/folder.ts';
import { birthFromAge, hasReached, parseAge } from '../../src/measure/age.ts';
import { parseDate, parseDateInterval, plusDays, writeDate } from '../../src/measure/calendar.ts';
import { exact } from '../../src/measure/exact.ts';
import { given } from '../../src/measure/figure.ts';
import { compareQuantities, quantity } from '../../src/measure/quantity.ts';
import { caseFor, WELL } from '../checking/judge.ts';
import { teaOf } from '../checking/small.ts';
import { must } from '../must.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const TABLE = must(await readTable(must(await openFolder(ROOT, ROOT)), 'age-rules')).value;
const ON = must(parseDate('2026-05-02'));
const who = (months: number, kg: string, cm: string): Grown => ({
  birth: birthFromAge(must(parseAge(`${months} months`)), ON),
  on: ON,
  weight: quantity(exact(kg), 'kg'),
  height: quantity(exact(cm), 'cm'),
});
const rules = fc.constantFrom(...TABLE.rules);
const months = fc.integer({ min: 0, max: 1200 });
const childMonths = fc.integer({ min: 24, max: 215 });
const tenths = (min: number, max: number) =>
  fc.integer({ min: min * 10, max: max * 10 }).map((n) => `${Math.floor(n / 10)}.${n % 10}`);
const kg = tenths(1, 320);
const cm = tenths(30, 250);

describe('a rule of age', () => {
  it('never comes to more than the adult dose, nor to nothing', () => {
    fc.assert(
      fc.property(rules, months, kg, cm, (rule, m, w, h) => {
        const share = shareFor(rule, TABLE, who(m, w, h));
        if (!share.ok) {
          expect(share.why).not.toBe('');
          return;
        }
        const dose = byShare(given(quantity(3, 'g'), 'adult dose'), share.share, 'dose').value.value;
        expect(dose.gt(0) && dose.lte(3)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  it('never gives a heavier child less', () => {
    const byWeight = TABLE.rules.filter((r) => /^weight|^surface/.test(r.input));
    let told = 0;
    fc.assert(
      fc.property(fc.constantFrom(...byWeight), childMonths, kg, kg, cm, (rule, m, a, b, h) => {
        const [light, heavy] = exact(a).lt(exact(b)) ? [a, b] : [b, a];
        const [x, y] = [shareFor(rule, TABLE, who(m, light, h)), shareFor(rule, TABLE, who(m, heavy, h))];
        if (!x.ok || !y.ok) return;
        told += 1;
        expect(compareQuantities(y.share.value, x.share.value)).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 2000 },
    );
    expect(told).toBeGreaterThan(50);
  });

  it("is Clark's, and twice the weight is twice the dose until the adult dose is reached", () => {
    const clark = TABLE.rules.find((r) => r.id === 'clark');
    if (!clark) throw new Error('no Clark');
    fc.assert(
      fc.property(tenths(14, 34), (w) => {
        const [x, y] = [w, exact(w).times(2).toFixed()].map((k) =>
          shareFor(clark, TABLE, who(120, k, '140')),
        );
        if (!x?.ok || !y?.ok) throw new Error('no share');
        const doubled = quantity(x.share.value.value.times(2), '%');
        expect(compareQuantities(y.share.value, doubled)).toBe(0);
      }),
    );
  });

  it('never gives an older child less, at the same weight and height', () => {
    const forChildren = TABLE.rules.filter((r) => r.id !== 'older');
    fc.assert(
      fc.property(fc.constantFrom(...forChildren), childMonths, childMonths, kg, cm, (rule, a, b, w, h) => {
        const [x, y] = [Math.min(a, b), Math.max(a, b)].map((m) => shareFor(rule, TABLE, who(m, w, h)));
        if (x?.ok && y?.ok) expect(compareQuantities(y.share.value, x.share.value)).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 1000 },
    );
  });

  it('under 2 years is one for infants', () => {
    fc.assert(
      fc.property(rules, fc.integer({ min: 0, max: 23 }), kg, cm, (rule, m, w, h) => {
        if (shareFor(rule, TABLE, who(m, w, h)).ok) expect(rule.for_infants).toBe(true);
      }),
      { numRuns: 1000 },
    );
  });

  it('of a birth that is only roughly known gives no more than on any of its days', () => {
    const byAge = TABLE.rules.filter((r) => /years$|months$|birthday$|^band$/.test(r.input));
    fc.assert(
      fc.property(
        fc.constantFrom(...byAge),
        fc.integer({ min: 0, max: 30_000 }),
        fc.integer({ min: 0, max: 364 }),
        fc.integer({ min: 0, max: 364 }),
        (rule, ago, span, at) => {
          const latest = plusDays(ON, -ago);
          const earliest = plusDays(latest, -span);
          const nobody = { on: ON, weight: null, height: null };
          const rough = shareFor(rule, TABLE, { ...nobody, birth: { earliest, latest } });
          const day = plusDays(latest, -Math.min(at, span));
          const sure = shareFor(rule, TABLE, { ...nobody, birth: { earliest: day, latest: day } });
          if (!rough.ok) return;
          if (!sure.ok) throw new Error(`${rule.id}: ${sure.why}`);
          expect(compareQuantities(rough.share.value, sure.share.value)).toBeLessThanOrEqual(0);
        },
      ),
      { numRuns: 3000 },
    );
  });
});

describe('a lowest age of a monograph', () => {
  // Each has an adult dose of its tea and a lowest age for it, for one reason or another.
  const barred = ['liquorice-root', 'thyme-herb', 'willow-bark', 'peppermint-leaf', 'lemon-balm-leaf'];

  it('is never gone under, whatever the day of birth and however roughly it is known', async () => {
    let open = 0;
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...barred),
        fc.integer({ min: 0, max: 7000 }),
        // A day, a month, a year.
        fc.constantFrom(10, 10, 7, 4),
        async (id, ago, known) => {
          const born = writeDate(plusDays(ON, -ago)).slice(0, known);
          const birth = must(parseDateInterval(born));
          const first = plusDays(ON, -ago).year === ON.year && known === 4;
          if (first) return;
          const c = await caseFor({ formula: 'test-tea', person: { ...WELL, born }, files: teaOf(id) });
          const person = rulesForPerson(TABLE.rules, TABLE, { ...who(90, '25', '125'), birth });
          const [h] = byAgeRules(c, person);
          const floors = (c.formulas[0]?.herbs[0]?.monograph?.ages ?? []).filter(
            (f) => f.preparation === undefined || f.preparation.includes('infusion'),
          );
          if (floors.every((f) => hasReached(birth, f.not_under.months, ON) === true)) return;
          if (person.named.length > 0) open += 1;
          expect([id, h?.rules]).toEqual([id, []]);
        },
      ),
      { numRuns: 300 },
    );
    expect(open).toBeGreaterThan(50);
  });
});
