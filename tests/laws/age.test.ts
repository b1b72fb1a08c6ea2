// What holds for every birthday, every day and every question.
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ageOn,
  all,
  any,
  birthFromAge,
  hasReached,
  not,
  parseAge,
  type Ternary,
  withinBand,
} from '../../src/measure/age.ts';
import {
  type CalendarDate,
  compareDates,
  daysBetween,
  monthsBefore,
  plusDays,
  plusMonths,
} from '../../src/measure/calendar.ts';

const day: fc.Arbitrary<CalendarDate> = fc
  .integer({ min: 0, max: 60_000 })
  .map((n) => plusDays({ year: 1930, month: 1, day: 1 }, n));
// Leap days and the ends of months are where calendars go wrong: every third day is one of them.
const anyDay: fc.Arbitrary<CalendarDate> = fc.oneof(
  { weight: 2, arbitrary: day },
  {
    weight: 1,
    arbitrary: fc.integer({ min: 1930, max: 2090 }).map((year) => plusDays({ year, month: 3, day: 1 }, -1)),
  },
);
const birth = fc
  .tuple(anyDay, fc.nat(400))
  .map(([earliest, span]) => ({ earliest, latest: plusDays(earliest, span) }));
const months = fc.nat(1200);
const RANK = new Map<Ternary, number>([
  [false, 0],
  ['unknown', 1],
  [true, 2],
]);
const rank = (t: Ternary): number => RANK.get(t) ?? -1;

describe('an age', () => {
  it('once reached stays reached', () => {
    fc.assert(
      fc.property(birth, months, anyDay, fc.nat(2000), (b, m, on, later) => {
        expect(rank(hasReached(b, m, plusDays(on, later)))).toBeGreaterThanOrEqual(
          rank(hasReached(b, m, on)),
        );
      }),
    );
  });

  it('that is higher is not reached sooner', () => {
    fc.assert(
      fc.property(birth, months, fc.nat(100), anyDay, (b, m, more, on) => {
        expect(rank(hasReached(b, m + more, on))).toBeLessThanOrEqual(rank(hasReached(b, m, on)));
      }),
    );
  });

  it('of a known birthday is never unknown, and the age on a sheet agrees with it', () => {
    fc.assert(
      fc.property(anyDay, anyDay, months, (born, on, m) => {
        const known = { earliest: born, latest: born };
        const reached = hasReached(known, m, on);
        expect(reached).not.toBe('unknown');
        if (compareDates(born, on) <= 0) expect(ageOn(known, on).least >= m).toBe(reached);
      }),
    );
  });

  it('that is given on a day is reached on that day, and the next year of age is not', () => {
    fc.assert(
      fc.property(anyDay, fc.integer({ min: 1, max: 110 }), (asked, years) => {
        const age = parseAge(`${years} years`);
        if (!age.ok) throw new Error(age.why);
        const b = birthFromAge(age.value, asked);
        expect(hasReached(b, years * 12, asked)).toBe(true);
        expect(hasReached(b, (years + 1) * 12, asked)).toBe(false);
        // The interval is as wide as it can be: a day beyond either end would be another age.
        const before = { earliest: plusDays(b.earliest, -1), latest: plusDays(b.earliest, -1) };
        const after = { earliest: plusDays(b.latest, 1), latest: plusDays(b.latest, 1) };
        expect(hasReached(before, (years + 1) * 12, asked)).toBe(true);
        expect(hasReached(after, years * 12, asked)).toBe(false);
      }),
    );
  });

  it('falls into exactly one of two bands that meet', () => {
    fc.assert(
      fc.property(anyDay, anyDay, fc.integer({ min: 1, max: 1200 }), (born, on, edge) => {
        const at = { months: edge, text: '' };
        const known = { earliest: born, latest: born };
        const [under, over] = [
          withinBand(known, { from: null, under: at }, on),
          withinBand(known, { from: at, under: null }, on),
        ];
        expect(under).toBe(not(over));
      }),
    );
  });
});

describe('the calendar', () => {
  it('days forward and back, and counted, agree', () => {
    fc.assert(
      fc.property(anyDay, fc.integer({ min: -5000, max: 5000 }), (d, n) => {
        expect(daysBetween(d, plusDays(d, n))).toBe(n);
        expect(plusDays(plusDays(d, n), -n)).toEqual(d);
      }),
    );
  });

  it('months keep the order of days, and the last day before them is the last', () => {
    fc.assert(
      fc.property(anyDay, fc.nat(400), months, (d, n, m) => {
        expect(compareDates(plusMonths(d, m), plusMonths(plusDays(d, n), m))).toBeLessThanOrEqual(0);
        const last = monthsBefore(d, m);
        expect(compareDates(plusMonths(last, m), d)).toBeLessThanOrEqual(0);
        expect(compareDates(plusMonths(plusDays(last, 1), m), d)).toBeGreaterThan(0);
      }),
    );
  });
});

const answer = fc.constantFrom<Ternary>(true, false, 'unknown');
const answers = fc.array(answer, { maxLength: 6 });

/** Every way in which the missing answers could still turn out. */
function outcomes(terms: readonly Ternary[]): boolean[][] {
  return terms.reduce<boolean[][]>(
    (so, t) => so.flatMap((list) => (t === 'unknown' ? [true, false] : [t]).map((v) => [...list, v])),
    [[]],
  );
}

describe('answers of which some are missing', () => {
  it('are settled exactly when no missing answer could change the outcome', () => {
    fc.assert(
      fc.property(answers, (terms) => {
        const could = (f: (list: boolean[]) => boolean): Ternary => {
          const seen = new Set(outcomes(terms).map(f));
          return seen.size > 1 ? 'unknown' : seen.has(true);
        };
        expect(all(terms)).toBe(could((list) => list.every(Boolean)));
        expect(any(terms)).toBe(could((list) => list.some(Boolean)));
      }),
    );
  });

  it('not all is any not, not any is all not, and not not is the same', () => {
    fc.assert(
      fc.property(answers, answer, (terms, one) => {
        expect(not(all(terms))).toBe(any(terms.map(not)));
        expect(not(any(terms))).toBe(all(terms.map(not)));
        expect(not(not(one))).toBe(one);
      }),
    );
  });

  it('may come in any order, grouped in any way', () => {
    fc.assert(
      fc.property(answer, answer, answer, (a, b, c) => {
        expect(all([a, b])).toBe(all([b, a]));
        expect(any([a, b])).toBe(any([b, a]));
        expect(all([all([a, b]), c])).toBe(all([a, b, c]));
        expect(any([any([a, b]), c])).toBe(any([a, b, c]));
        expect(all([a, any([b, c])])).toBe(any([all([a, b]), all([a, c])]));
        expect(any([a, all([a, b])])).toBe(a);
      }),
    );
  });
});
