import { describe, expect, it } from 'vitest';
import { compare } from '../../src/dosing/compare.ts';
import type { Amounts } from '../../src/dosing/equivalents.ts';
import type { Exact } from '../../src/measure/exact.ts';
import type { Figure } from '../../src/measure/figure.ts';
import type { Quantity } from '../../src/measure/quantity.ts';
import { writeRange } from '../../src/measure/write.ts';
import { ADULT, monograph, outcomes, taken, whose } from './monograph.ts';

const TEA = 'preparation: {kind: infusion}, route: oral';

describe('a dose beside a published range', () => {
  it('is below, within or above, the ends of the range included', async () => {
    const m = await monograph(`- {${TEA}, single: 1-2 g, source: a}`);
    expect(await outcomes(m, await taken('0.9 g'))).toEqual(['below: single 0.9 g beside 1 to 2 g']);
    expect(await outcomes(m, await taken('1 g'))).toEqual(['within: single 1 g beside 1 to 2 g']);
    expect(await outcomes(m, await taken('2 g'))).toEqual(['within: single 2 g beside 1 to 2 g']);
    expect(await outcomes(m, await taken('2.1 g'))).toEqual(['above: single 2.1 g beside 1 to 2 g']);
  });

  it('an end that the source leaves open stays open', async () => {
    const upTo = await monograph(`- {${TEA}, single: up to 2 g, source: a}`);
    expect(await outcomes(upTo, await taken('0.1 g'))).toEqual(['within: single 0.1 g beside up to 2 g']);
    const atLeast = await monograph(`- {${TEA}, single: at least 2 g, source: a}`);
    expect(await outcomes(atLeast, await taken('50 g'))).toEqual(['within: single 50 g beside at least 2 g']);
  });

  it('a figure in mg and a dose in g are one thing', async () => {
    const m = await monograph(`- {${TEA}, single: 500-1000 mg, source: a}`);
    expect(await outcomes(m, await taken('1 g'))).toEqual(['within: single 1 g beside 500 to 1,000 mg']);
    expect(await outcomes(m, await taken('1.1 g'))).toEqual(['above: single 1.1 g beside 500 to 1,000 mg']);
  });

  it('a third of the day taken three times is the whole and not a hair above it', async () => {
    const m = await monograph(`- {${TEA}, daily: up to 1 g, source: a}`);
    const dose = await taken('1 g', '3');
    const amounts = dose.amounts as Amounts;
    const as = (f: Figure<Quantity>, v: Exact) => ({ ...f, value: { ...f.value, value: v } });
    const single = as(amounts.single, amounts.single.value.value.div(3));
    const daily = as(amounts.daily, single.value.value.times(3));
    expect(daily.value.value.eq(1)).toBe(false);
    const third = { ...dose, amounts: { ...amounts, single, daily } };
    expect(compare(m, third, ADULT).map((c) => c.outcome)).toEqual(['within']);
  });
});

describe('single dose, daily dose and frequency are independent', () => {
  it('the day is told from single dose and times where the source prints no daily dose', async () => {
    const m = await monograph(`- {${TEA}, single: 1-2 g, times: 2-3, source: a}`);
    const [c] = compare(m, await taken('2 g', '4'), ADULT);
    expect(
      c?.against.map((a) => `${a.measure} ${writeRange(a.published.value)} ${a.outcome} ${a.implied}`),
    ).toEqual([
      'single 1 to 2 g within false',
      'daily 2 to 6 g above true',
      'times a day 2 to 3 times above false',
    ]);
    expect(c?.against[1]?.published.step.source?.reading).toBe('computed');
  });

  it('a daily cap below single dose times frequency counts', async () => {
    const m = await monograph(`- {${TEA}, single: 2-3 g, times: up to 4, daily: up to 8 g, source: a}`);
    expect(await outcomes(m, await taken('3 g', '3'))).toEqual(['above: daily 9 g beside up to 8 g']);
  });

  it('a daily cap above single dose times frequency does not excuse a large single dose', async () => {
    const m = await monograph(`- {${TEA}, single: 1-2 g, times: 3, daily: up to 18 g, source: a}`);
    expect(await outcomes(m, await taken('6 g', '3'))).toEqual(['above: single 6 g beside 1 to 2 g']);
    expect((await outcomes(m, await taken('2 g', '3')))[0]).toMatch(/^within/);
  });

  it('without an upper number of times no upper daily dose is made up', async () => {
    const m = await monograph(`- {${TEA}, single: 2-3 g, times: at least 1, source: a}`);
    expect((await outcomes(m, await taken('3 g', '9')))[0]).toMatch(/^within/);
  });

  it('directions that are a range count at their high end', async () => {
    const m = await monograph(`- {${TEA}, daily: up to 5 g, source: a}`);
    expect(await outcomes(m, await taken('2 g', '2-3'))).toEqual(['above: daily 6 g beside up to 5 g']);
  });

  it('weekly dose and times a week count the days on which it is taken', async () => {
    const m = await monograph(`- {${TEA}, weekly: up to 10 g, times_a_week: 2-3, source: a}`);
    expect(await outcomes(m, await taken('2 g', '1'))).toEqual([
      'above: weekly 14 g beside up to 10 g; times a week 7 times beside 2 to 3 times',
    ]);
    expect((await outcomes(m, await taken('2 g', '1', { week: '3' })))[0]).toMatch(/^within/);
    expect(await outcomes(m, await taken('4 g', '1', { week: '3' }))).toEqual([
      'above: weekly 12 g beside up to 10 g',
    ]);
  });
});

describe('one printed figure', () => {
  it('is marked as a usual dose and not as a range with a top', async () => {
    const m = await monograph(`- {${TEA}, single: 2.5 g, times: 1-3, source: a}`);
    const [c] = compare(m, await taken('3 g', '2'), ADULT);
    expect(c?.against.map((a) => [a.measure, a.usual])).toEqual([
      ['single', true],
      ['daily', false],
      ['times a day', false],
    ]);
    expect(c?.outcome).toBe('above');
  });
});

describe('sources that disagree', () => {
  it('both are compared, each keeps its own figures and citation', async () => {
    const m = await monograph(`
      - {${TEA}, daily: 3-9 g, source: a}
      - {${TEA}, daily: up to 2.5 g, limit: safety, source: b}`);
    const compared = compare(m, await taken('1 g', '3'), ADULT);
    expect(compared.map((c) => [c.cited.body, c.cited.reading, c.outcome])).toEqual([
      ['First body', 'original', 'within'],
      ['Second body', 'restated', 'above'],
    ]);
  });

  it("a figure's own reading counts before its source's", async () => {
    const m = await monograph(`- {${TEA}, daily: 3-9 g, source: a, reading: memory}`);
    expect(compare(m, await taken('1 g', '3'), ADULT)[0]?.cited.reading).toBe('memory');
  });
});

describe('an entry of which no amount can be compared', () => {
  it('says so, though how often it is taken would fit', async () => {
    const cups = await monograph(`- {${TEA}, single: 150 mL, times: 3, source: a}`);
    expect(await outcomes(cups, await taken('2 g', '3'))).toEqual([
      'not comparable: its amount is in mL, which is no weight of herb',
    ]);
    const often = await monograph(`- {${TEA}, times: 1-3, source: a}`);
    expect(await outcomes(often, await taken('200 g', '3'))).toEqual([
      'not comparable: it states no amount of herb',
    ]);
    const strength = await monograph(`- {${TEA}, concentration: 5 %, source: a}`);
    expect(await outcomes(strength, await taken('2 g'))).toEqual([
      'not comparable: it states no amount of herb',
    ]);
  });

  it('is still above where it is taken too often', async () => {
    const m = await monograph(`- {${TEA}, times: up to 3, limit: safety, source: a}`);
    expect(await outcomes(m, await taken('2 g', '4'))).toEqual([
      'above: times a day 4 times beside up to 3 times',
    ]);
  });

  it('a dose for the weight of the body is not a weight of herb', async () => {
    const m = await monograph(`- {${TEA}, single: 20 mg/kg, source: a}`);
    expect((await outcomes(m, await taken('2 g')))[0]).toMatch(/^not comparable: its amount is in mg\/kg/);
  });
});

describe('nobody named, and nothing read', () => {
  it('without a person the entries for adults count', async () => {
    const m = await monograph(`
      - {${TEA}, single: 1-2 g, source: a}
      - {${TEA}, ages: 6-12 years, single: 0.5 g, source: a}
      - {${TEA}, ages: 12+ years, single: 1-3 g, source: b}`);
    expect(await outcomes(m, await taken('2.5 g'), null)).toEqual([
      'above: single 2.5 g beside 1 to 2 g',
      'within: single 2.5 g beside 1 to 3 g',
    ]);
  });

  it('no dose read gives nothing to compare with', async () => {
    const m = { ...(await monograph(`- {${TEA}, single: 1 g, source: a}`)), doses: 'none-read' as const };
    expect(compare(m, await taken('1 g'), whose('1980-01-01'))).toEqual([]);
  });
});
