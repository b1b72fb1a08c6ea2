import { describe, expect, it } from 'vitest';
import { byDays, byDoses, byMass, byVolume, made, refused, shown, shownExact } from './formula.ts';

const TEA = `
ingredients: [{herb: chamomile-flower, parts: 3}, {herb: sage-leaf, parts: 2}]
preparation: {kind: infusion, herb: 12 g, water: 600 mL, strained: 500 mL, infuse: 15 min}
directions: {take: 150 mL, times: 3, for: 7 days}`;

const POWDER = `
ingredients: [{herb: ginger-rhizome, parts: 1}, {herb: sage-leaf, parts: 1}]
preparation: {kind: powder}
directions: {take: 1.5 g, times: 2, for: 10 days}`;

describe('the size of a batch of tea', () => {
  it('by mass, and how many whole pots that is', async () => {
    const batch = await made(TEA, byMass('100 g'));
    expect([shown(batch.total), shown(batch.pots), shown(batch.water)]).toEqual([
      '100 g',
      '8 pots',
      '5,000 mL',
    ]);
  });

  it('by the volume of finished tea, which is what strains off and not the water put in', async () => {
    const batch = await made(TEA, byVolume('1 L'));
    expect([shown(batch.total), shown(batch.water)]).toEqual(['24 g', '1,200 mL']);
  });

  it('by days: whole pots, because a pot is not kept for the next day', async () => {
    expect(shown((await made(TEA, byDays('5 days'))).total)).toBe('60 g');
    const twice = TEA.replace('times: 3', 'times: 4');
    expect(shown((await made(twice, byDays('5 days'))).total)).toBe('120 g');
  });

  it('by doses: whole pots again', async () => {
    expect(shown((await made(TEA, byDoses('20 doses'))).total)).toBe('84 g');
    expect(shown((await made(TEA, byDoses('21 doses'))).total)).toBe('84 g');
    expect(shown((await made(TEA, byDoses('22 doses'))).total)).toBe('96 g');
  });

  it('with nothing said, the course of the directions', async () => {
    expect(shown((await made(TEA)).total)).toBe('84 g');
  });

  it('with nothing said and no course, one pot', async () => {
    expect(shown((await made(TEA.replace(', for: 7 days', ''))).total)).toBe('12 g');
    expect(shown((await made(TEA.replace(/directions.*/, ''))).total)).toBe('12 g');
  });

  it('doses and days need directions', async () => {
    const bare = TEA.replace(/directions.*/, '');
    expect(await refused(bare, byDays('5 days'))).toMatch(/no directions, so a day has no amount/);
    expect(await refused(bare, byDoses('5 doses'))).toMatch(/no directions, so a dose has no size/);
  });
});

describe('what has to be enough is never rounded short', () => {
  const ODD = TEA.replace('herb: 12 g', 'herb: 3.33 g');

  it('seven days asked for are seven days, though the balance cannot show 23.31 g', async () => {
    const batch = await made(ODD, byDays('7 days'));
    expect([shownExact(batch.total), shown(batch.supply?.days)]).toEqual(['23.4 g', '7 days']);
  });

  it('one pot is one pot, and gives its doses', async () => {
    const batch = await made(ODD.replace(', for: 7 days', ''));
    expect([shownExact(batch.total), shown(batch.pots), shown(batch.supply?.doses)]).toEqual([
      '3.4 g',
      '1 pot',
      '3 doses',
    ]);
  });

  it('a volume of tea and a number of doses are enough too', async () => {
    expect(shownExact((await made(ODD, byVolume('500 mL'))).total)).toBe('3.4 g');
    expect(shown((await made(ODD, byDoses('12 doses'))).supply?.doses)).toBe('12 doses');
  });

  it('a mass asked for stays what was asked for, to the nearest step', async () => {
    expect(shownExact((await made(ODD, byMass('23.31 g'))).total)).toBe('23.3 g');
  });
});

describe('the size of a batch of powder', () => {
  it('by doses and by days is what is taken', async () => {
    expect(shown((await made(POWDER, byDoses('25 doses'))).total)).toBe('37.5 g');
    expect(shown((await made(POWDER, byDays('14 days'))).total)).toBe('42 g');
    expect(shown((await made(POWDER)).total)).toBe('30 g');
  });

  it('is not asked for by volume', async () => {
    expect(await refused(POWDER, byVolume('1 L'))).toMatch(/^a powder is made by mass/);
  });

  it('with no course is the size of the formula as written, else it has to be said', async () => {
    const open = POWDER.replace(', for: 10 days', '');
    expect(await refused(open)).toMatch(/^how much is to be made/);
    expect(shown((await made(`\nmakes: 80 g${open}`)).total)).toBe('80 g');
  });

  it('is never nothing', async () => {
    expect(await refused(POWDER, byMass('0 g'))).toMatch(/nothing to make$/);
    expect(await refused(POWDER, byDays('0 days'))).toMatch(/nothing to make$/);
  });
});

describe('a course', () => {
  it('that is not a whole number of days is made for every day it touches', async () => {
    const month = POWDER.replace('10 days', '1 month');
    const batch = await made(month);
    expect([shown(batch.total), shown(batch.supply?.days)]).toEqual(['93 g', '31 days']);
  });

  it('on some days of the week is made for as many as it may hold', async () => {
    const week = (days: string, a: string): string =>
      POWDER.replace('for: 10 days', `for: ${days}, days_a_week: ${a}`);
    // Monday to Friday over two weeks are 10 days; so are they over 12 days that start on a Monday.
    expect(shown((await made(week('14 days', '5'))).taking?.days)).toBe('10 days');
    expect(shown((await made(week('12 days', '5'))).taking?.days)).toBe('10 days');
    expect(shown((await made(week('3 days', '5'))).taking?.days)).toBe('3 days');
    expect(shown((await made(week('14 days', '3.5'))).taking?.days)).toBe('7 days');
  });
});
