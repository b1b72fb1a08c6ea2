import { describe, expect, it } from 'vitest';
import { made, method, shown } from './formula.ts';
import { herbDose } from './product.ts';

const wash = (more: string, take = 'all of the pot'): string => `
ingredients: [{herb: sage-leaf, parts: 1}]
preparation: {kind: wash, ${more}}
directions: {take: ${take}, times: 1, for: 3 days}`;

describe('a wash', () => {
  it('is infused, or boiled, as a tea is', async () => {
    const infused = await made(
      wash('for: gargle, herb: 2.5 g, water: 120 mL, infuse: 10 min, strained: 100 mL'),
    );
    expect(method(infused)).toEqual([
      'Pour 120 mL of boiling water on 2.5 g of the blend.',
      'Cover, let stand 10 min and strain.',
      'Gargle or rinse with it, and spit it out.',
    ]);
    const boiled = await made(
      wash('for: compress, herb: 10 g, water: 400 mL, boil: 20 min, boils_off: 80 mL'),
    );
    // 400 - 10 x 2 - 80 = 300 mL
    expect(boiled.making.kind === 'pot' && shown(boiled.making.pot.strained)).toBe('300 mL');
    expect(method(boiled).at(-1)).toBe('Soak a clean cloth in it, wring it out and lay it on.');
  });

  it('holds so much herb in a mL', async () => {
    const gargle = await made(
      wash('for: gargle, herb: 2.5 g, water: 120 mL, infuse: 10 min, strained: 100 mL'),
    );
    expect(herbDose(gargle).concentrations.map(shown)).toEqual(['0.025 g/mL']);
    expect([shown(herbDose(gargle).amounts?.single), herbDose(gargle).route]).toEqual([
      '2.5 g',
      'oromucosal',
    ]);
  });
});

describe('a bath', () => {
  const BATH = 'for: bath, herb: 100 g, water: 1 L, infuse: 15 min, strained: 900 mL, into: 100 L';

  it('is as strong as the whole bath, not as what is poured into it', async () => {
    const dose = herbDose(await made(wash(BATH)));
    // 100 g / (100,000 + 900) mL = 0.00099108 g/mL, about 1 g to the litre
    expect(dose.concentrations.map(shown)).toEqual(['0.000991 g/mL']);
    expect(dose.concentrations[0]?.value.value.times(100900).toDecimalPlaces(12).toNumber()).toBe(100);
    expect(dose.route).toBe('bath');
  });

  it('takes all of the pot, and the herb of it all', async () => {
    const batch = await made(wash(BATH));
    expect([shown(batch.total), shown(batch.pots), shown(herbDose(batch).amounts?.single)]).toEqual([
      '300 g',
      '3 pots',
      '100 g',
    ]);
    expect(method(batch).at(-1)).toBe('Pour it into 100 L of warm water.');
  });

  it('of no stated size is poured into the bath, and is told by the strained liquid', async () => {
    const batch = await made(wash(BATH.replace(', into: 100 L', '')));
    expect(method(batch).at(-1)).toBe('Pour it into the bath.');
    expect(herbDose(batch).concentrations.map(shown)).toEqual(['0.111 g/mL']);
  });
});
