import { describe, expect, it } from 'vitest';
import { takingOf } from '../../src/dosing/directions.ts';
import { herbDoses } from '../../src/dosing/equivalents.ts';
import { exact } from '../../src/measure/exact.ts';
import { workingOf } from '../../src/measure/figure.ts';
import { byMass, made, q, refused, shown, shownExact, why } from '../compounding/formula.ts';

const tea = (directions: string, more = ''): string => `${more}
ingredients: [{herb: chamomile-flower, parts: 3}, {herb: sage-leaf, parts: 2}]
preparation: {kind: infusion, herb: 12 g, water: 600 mL, strained: 480 mL, infuse: 15 min}
directions: {${directions}}`;

describe('how much at once', () => {
  it('a share of the pot is a share of what strains off', async () => {
    const { taking } = await made(tea('take: 1/3 of the pot, times: 3'));
    expect([shown(taking?.dose), shown(taking?.herb)]).toEqual(['160 mL', '4 g']);
  });

  it('a measured dose, in any measure of volume', async () => {
    expect(shownExact((await made(tea('take: 120 mL, times: 3'))).taking?.herb)).toBe('3 g');
    expect(shownExact((await made(tea('take: 1 label cup, times: 1'))).taking?.dose)).toBe('240 mL');
  });

  it("the formula's own measure counts at its size, and the working keeps its name", async () => {
    const { taking } = await made(tea('take: 1 1/2 house cup, times: 1', 'measures: {house cup: 200 mL}'));
    expect([shown(taking?.dose), shown(taking?.herb)]).toEqual(['300 mL', '7.5 g']);
    expect(workingOf(taking ? [taking.dose] : []).map((w) => w.result)).toEqual(['1.5 house cups', '300 mL']);
  });

  it('a powder by a scoop that the practice has weighed', async () => {
    const { taking } = await made(`
measures: {level scoop: 0.5 g}
makes: 20 g
ingredients: [{herb: ginger-rhizome, parts: 1}]
preparation: {kind: powder}
directions: {take: 3 level scoop, times: 2}`);
    expect([shown(taking?.dose), shown(taking?.herb)]).toEqual(['1.5 g', '1.5 g']);
  });

  it('a share of a powder is no dose', () => {
    const take = { kind: 'share', share: exact(1), text: 'all of the batch' } as const;
    const times = { low: exact(1), high: exact(1) };
    expect(why(takingOf({ take, times }, { kind: 'dry', method: [] }))).toMatch(/^a powder is taken by mass/);
  });
});

describe('how often', () => {
  it('a range counts at its high end for the day and the week', async () => {
    const { taking } = await made(tea('take: 120 mL, times: 2-3, days_a_week: 5'));
    expect([shown(taking?.timesLeast), shown(taking?.timesMost), shown(taking?.timesAWeek)]).toEqual([
      '2 times',
      '3 times',
      '15 times',
    ]);
  });

  it('a course of two days is two days of the week, and never more than the days of its week', async () => {
    const week = async (rest: string) =>
      shown((await made(tea(`take: 120 mL, times: 3, ${rest}`))).taking?.timesAWeek);
    expect(await week('for: 2 days')).toBe('6 times');
    expect(await week('for: 36 h')).toBe('6 times');
    expect(await week('for: 2 days, days_a_week: 3')).toBe('6 times');
    expect(await week('for: 6 days, days_a_week: 3')).toBe('9 times');
    expect(await week('for: 7 days')).toBe('21 times');
    expect(await week('for: 5 weeks')).toBe('21 times');
  });

  it('without a highest number no day can be told, and it is not taken for the lowest', async () => {
    expect(await refused(tea('take: 120 mL, times: at least 2'))).toBe(
      'how many times a day at the most? Write such as times: 3 or times: 2-4',
    );
  });

  it('up to three times may be none, and is three for what is too much', async () => {
    const { taking } = await made(tea('take: 120 mL, times: up to 3'));
    expect([shown(taking?.timesLeast), shown(taking?.timesMost)]).toEqual(['0 times', '3 times']);
  });

  it('never is not a dose', () => {
    const take = { kind: 'measured', amount: q('2 g') } as const;
    const never = { low: exact(0), high: exact(0) };
    expect(why(takingOf({ take, times: never }, { kind: 'dry', method: [] }))).toMatch(
      /^times: 0 is no dose/,
    );
  });

  it('a course in weeks is a course in days', async () => {
    const { taking } = await made(tea('take: 120 mL, times: 3, for: 2 weeks'));
    expect([shown(taking?.course), shown(taking?.days)]).toEqual(['14 days', '14 days']);
    expect((await made(tea('take: 120 mL, times: 3'), byMass('12 g'))).taking?.course).toBeNull();
  });
});

describe('each herb in a dose', () => {
  it('follows what is weighed, not the parts as written', async () => {
    // 10 g of 2:1 weigh 6.7 g and 3.3 g; a dose of 1.5 g holds 1.5 x 6.7 / 10 = 1.005 g of the first.
    const batch = await made(
      `
ingredients: [{herb: chamomile-flower, parts: 2}, {herb: sage-leaf, parts: 1}]
preparation: {kind: powder}
directions: {take: 1.5 g, times: 3, days_a_week: 4}`,
      byMass('10 g'),
    );
    expect(
      herbDoses(batch).map((d) => [
        d.herb,
        shownExact(d.amounts?.single),
        shownExact(d.amounts?.daily),
        shownExact(d.amounts?.weekly),
      ]),
    ).toEqual([
      ['chamomile-flower', '1.005 g', '3.015 g', '12.06 g'],
      ['sage-leaf', '0.495 g', '1.485 g', '5.94 g'],
    ]);
  });

  it('is a share of what was weighed, not of the batch that was asked for', async () => {
    const batch = await made(tea('take: 120 mL, times: 3'), byMass('10.04 g'));
    // 10 g on the balance: 6 g and 4 g, so that 3 g of the blend hold 1.8 g and 1.2 g.
    expect(herbDoses(batch).map((d) => shownExact(d.amounts?.single))).toEqual(['1.8 g', '1.2 g']);
  });

  it('adds up to the dose', async () => {
    const batch = await made(tea('take: 120 mL, times: 3'), byMass('99.9 g'));
    const [a, b] = herbDoses(batch);
    expect(
      a?.amounts?.single.value.value
        .plus(b?.amounts?.single.value.value ?? 0)
        .toDecimalPlaces(40)
        .toFixed(),
    ).toBe('3');
  });

  it('carries kind, route, use and whether it is weighed fresh', async () => {
    const [dose] = herbDoses(
      await made(`
use: sore-mouth-throat
route: oromucosal
ingredients: [{herb: sage-leaf, parts: 1, form: fresh}]
preparation: {kind: cold-maceration, herb: 5 g, water: 200 mL, strained: 190 mL, macerate: 8 h}
directions: {take: 95 mL, times: 2, for: 5 days}`),
    );
    expect([dose?.kinds, dose?.route, dose?.use, dose?.fresh, shown(dose?.course)]).toEqual([
      ['cold-maceration'],
      'oromucosal',
      'sore-mouth-throat',
      true,
      '5 days',
    ]);
  });

  it('is not told where the formula gives no directions', async () => {
    const bare = tea('take: 120 mL, times: 3').replace(/directions.*/, '');
    expect(herbDoses(await made(bare))).toEqual([]);
  });
});
