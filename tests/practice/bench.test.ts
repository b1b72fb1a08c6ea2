import { describe, expect, it } from 'vitest';
import { RULES } from '../../src/checking/rules/index.ts';
import { benchCases, isMeant, judgeCase, meets, told } from './bench.ts';

/**
 * What the check does not find yet, or not as the case would have it, each with the reason. A case leaves this list when
 * it passes: one that is listed and passes fails the test.
 */
const OPEN: Readonly<Record<string, string>> = {
  'intake-willow-over-two-things':
    'salicin has a least content of 1.5 %, and 18 g at that are said: the range is open',
  'intake-peppermint-oil-pulegone': 'an essential oil is not dosed by drops',
  'age-peppermint-oil-toddler': 'no formula is inhaled',
  'age-peppermint-oil-thirteen': 'no formula is inhaled',
  'age-peppermint-oil-epileptic-child': 'no formula is inhaled',
  'spacing-oak-bark-amlodipine': 'the hour between is said in the graver finding',
};

const RULES_KNOWN = new Set([...RULES.map((r) => r.name), 'allergy']);

interface Outcome {
  readonly category: string;
  readonly missed: boolean;
  readonly wrongReason: boolean;
  readonly falseAlarm: boolean;
  readonly awaiting: readonly string[];
}

describe('the bench of the check', async () => {
  const cases = benchCases();
  const outcomes: Outcome[] = [];

  it('holds at least 200 cases, two thirds of them unsafe, each by its own name', () => {
    expect(cases.length).toBeGreaterThanOrEqual(200);
    expect(cases.filter((c) => c.unsafe).length / cases.length).toBeGreaterThan(0.6);
    expect(new Set(cases.map((c) => c.id)).size).toBe(cases.length);
    expect(Object.keys(OPEN).filter((id) => !cases.some((c) => c.id === id))).toEqual([]);
  });

  it.each(cases.map((c) => [`${c.category}: ${c.id}`, c] as const))('%s', async (_, c) => {
    const awaiting = c.must.map((e) => e.rule).filter((rule) => !RULES_KNOWN.has(rule));
    const faults = await judgeCase(c).then(
      ({ findings }) => {
        const grave = findings.filter((f) => f.level !== 'note');
        const missed = c.unsafe && findings.length === 0;
        const absent = c.must.filter((e) => RULES_KNOWN.has(e.rule) && !findings.some((f) => meets(f, e)));
        const alarms = [
          ...(c.unsafe ? [] : grave),
          ...findings.filter((f) => (c.must_not ?? []).some((e) => isMeant(f, e))),
        ];
        outcomes.push({
          category: c.category,
          missed,
          wrongReason: absent.length > 0,
          falseAlarm: alarms.length > 0,
          awaiting,
        });
        return [
          ...absent.map((e) => `missing: ${JSON.stringify(e)}`),
          ...alarms.map((f) => `alarm: ${told(f)}`),
        ];
      },
      (e: unknown) => {
        outcomes.push({ category: c.category, missed: true, wrongReason: true, falseAlarm: false, awaiting });
        return [`not judged: ${(e as Error).message.split('\n')[0]}`];
      },
    );
    if (c.id in OPEN)
      expect(faults, 'this case passes: take it off the list of what is open').not.toEqual([]);
    else expect(faults).toEqual([]);
  });

  it('tells what was caught, by category', () => {
    const lines = [...new Set(outcomes.map((o) => o.category))].map((category) => {
      const of = outcomes.filter((o) => o.category === category);
      const count = (is: (o: Outcome) => boolean) => of.filter(is).length;
      return `${category}: ${of.length} cases, not judged or silent ${count((o) => o.missed)}, not all found ${count(
        (o) => o.wrongReason,
      )}, false alarms ${count((o) => o.falseAlarm)}, waiting for a rule ${count((o) => o.awaiting.length > 0)}`;
    });
    console.info(lines.join('\n'));
    expect(outcomes).toHaveLength(cases.length);
  });
});
