import { describe, expect, it } from 'vitest';
import { benchCases, isMeant, judgeCase, meets, told } from './bench.ts';

interface Outcome {
  readonly category: string;
  readonly unsafe: boolean;
  readonly missed: boolean;
  readonly wrongReason: boolean;
  readonly falseAlarm: boolean;
}

describe('the bench of the check', async () => {
  const cases = benchCases();
  const outcomes: Outcome[] = [];

  it('holds at least 200 cases, two thirds of them unsafe, each by its own name', () => {
    expect(cases.length).toBeGreaterThanOrEqual(200);
    expect(cases.filter((c) => c.unsafe).length / cases.length).toBeGreaterThan(0.6);
    expect(new Set(cases.map((c) => c.id)).size).toBe(cases.length);
  });

  it.each(cases.map((c) => [`${c.category}: ${c.id}`, c] as const))('%s', async (_, c) => {
    const faults = await judgeCase(c).then(
      ({ findings }) => {
        const grave = findings.filter((f) => f.level !== 'note');
        const missed = c.unsafe && findings.length === 0;
        const absent = c.must.filter((e) => !findings.some((f) => meets(f, e)));
        const alarms = [
          ...(c.unsafe ? [] : grave),
          ...findings.filter((f) => (c.must_not ?? []).some((e) => isMeant(f, e))),
        ];
        outcomes.push({
          category: c.category,
          unsafe: c.unsafe,
          missed,
          wrongReason: !missed && absent.length > 0,
          falseAlarm: alarms.length > 0,
        });
        return [
          ...absent.map((e) => `missing: ${JSON.stringify(e)}`),
          ...alarms.map((f) => `alarm: ${told(f)}`),
        ];
      },
      (e: unknown) => {
        outcomes.push({
          category: c.category,
          unsafe: c.unsafe,
          missed: true,
          wrongReason: false,
          falseAlarm: false,
        });
        return [`not judged: ${(e as Error).message.split('\n')[0]}`];
      },
    );
    expect(faults).toEqual([]);
  });

  it('tells what was caught, by category', () => {
    const lines = [...new Set(outcomes.map((o) => o.category))].map((category) => {
      const of = outcomes.filter((o) => o.category === category);
      const count = (is: (o: Outcome) => boolean): string => String(of.filter(is).length).padStart(3);
      const caught = count((o) => o.unsafe && !o.missed && !o.wrongReason);
      return `${category.padEnd(26)} ${of.length} cases, ${count((o) => o.unsafe)} unsafe: caught ${caught}, wrong reason ${count(
        (o) => o.wrongReason,
      )}, missed ${count((o) => o.missed)}, false alarms ${count((o) => o.falseAlarm)}`;
    });
    console.info(lines.join('\n'));
    expect(outcomes).toHaveLength(cases.length);
  });
});
