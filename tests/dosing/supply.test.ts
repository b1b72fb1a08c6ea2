import { describe, expect, it } from 'vitest';
import { byDays, byDoses, byMass, made, refused, shown, shownExact } from '../compounding/formula.ts';

const tea = (take: string, times: number): string => `
ingredients: [{herb: chamomile-flower, parts: 1}]
preparation: {kind: infusion, herb: 12 g, water: 600 mL, strained: 500 mL, infuse: 15 min}
directions: {take: ${take}, times: ${times}}`;

const powder = (take: string, times: number): string => `
ingredients: [{herb: ginger-rhizome, parts: 1}]
preparation: {kind: powder}
directions: {take: ${take}, times: ${times}}`;

async function lasts(yaml: string, mass: string): Promise<string[]> {
  const { supply } = await made(yaml, byMass(mass));
  return [shown(supply?.perDay), shown(supply?.days), shownExact(supply?.over), shown(supply?.doses)];
}

describe('how long a powder lasts', () => {
  it('full days, what is over, whole doses', async () => {
    expect(await lasts(powder('1.5 g', 2), '100 g')).toEqual(['3 g', '33 days', '1 g', '66 doses']);
  });

  it('what is over may still be a dose, but not a day', async () => {
    expect(await lasts(powder('1.5 g', 2), '97.5 g')).toEqual(['3 g', '32 days', '1.5 g', '65 doses']);
  });

  it('less than a day is no day', async () => {
    expect(await lasts(powder('1.5 g', 2), '2.9 g')).toEqual(['3 g', '0 days', '2.9 g', '1 dose']);
  });
});

describe('how long a tea lasts', () => {
  it('a day takes whole pots, whatever is left of the last', async () => {
    expect(await lasts(tea('150 mL', 3), '100 g')).toEqual(['12 g', '8 days', '4 g', '24 doses']);
    expect(await lasts(tea('150 mL', 4), '100 g')).toEqual(['24 g', '4 days', '4 g', '24 doses']);
  });

  it('thirds taken three times are one pot and not a second one for the last digit', async () => {
    const { supply } = await made(tea('1/3 of the pot', 3), byMass('84 g'));
    expect([shown(supply?.potsADay), shown(supply?.days), shown(supply?.doses)]).toEqual([
      '1 pot',
      '7 days',
      '21 doses',
    ]);
  });

  it('nor are sixths of 650 mL, whose digits do not end evenly, a dose fewer', async () => {
    const sixths = tea('1/6 of the pot', 6).replace('600 mL', '650 mL').replace('500 mL', '650 mL');
    const { supply } = await made(sixths, byMass('84 g'));
    expect([shown(supply?.potsADay), shown(supply?.days), shown(supply?.doses)]).toEqual([
      '1 pot',
      '7 days',
      '42 doses',
    ]);
  });

  it('the pots of a day are poured together: five doses of two fifths are two pots', async () => {
    const { supply } = await made(tea('200 mL', 5), byMass('24 g'));
    expect([shown(supply?.potsADay), shown(supply?.days), shown(supply?.doses)]).toEqual([
      '2 pots',
      '1 day',
      '5 doses',
    ]);
  });

  it('what one day leaves is not kept for the next, so a last single pot gives only its own doses', async () => {
    expect(await lasts(tea('200 mL', 5), '36 g')).toEqual(['24 g', '1 day', '12 g', '7 doses']);
  });

  it('as many days as were made for, and as many doses', async () => {
    for (const [take, times] of [
      ['150 mL', 3],
      ['200 mL', 5],
      ['1/3 of the pot', 4],
      ['230 mL', 2],
    ] as const) {
      expect(shown((await made(tea(take, times), byDays('9 days'))).supply?.days)).toBe('9 days');
      const doses = (await made(tea(take, times), byDoses('23 doses'))).supply?.doses.value.value;
      expect(doses?.gte(23), `${take} x ${times}`).toBe(true);
    }
  });

  it('no more pots than the doses need', async () => {
    // 2 pots a day give 5 doses of 200 mL; 7 doses are 2 pots and a third one for the other two.
    expect(shown((await made(tea('200 mL', 5), byDoses('7 doses'))).total)).toBe('36 g');
    expect(shown((await made(tea('200 mL', 5), byDoses('8 doses'))).total)).toBe('48 g');
  });

  it('a dose that not even the pots of a day hold is refused', async () => {
    const huge = tea('600 mL', 1).replace('times: 1', 'times: 1/2');
    expect(await refused(huge, byDoses('3 doses'))).toBe('one dose is larger than the pots of a day');
  });
});

describe('without directions', () => {
  it('no supply is told', async () => {
    expect((await made(tea('150 mL', 3).replace(/directions.*/, ''))).supply).toBeNull();
  });
});
