// Olive oil weighs about 0.915 g/mL and sunflower oil 0.92, from memory, as their table says.
import { describe, expect, it } from 'vitest';
import { byMass, made, method, refused, shown } from './formula.ts';
import { added, alsoAdded, herbDose, product, yields } from './product.ts';

const oil = (more: string, form = 'form: dried', directions = 'apply: thinly, times: 2'): string => `
route: cutaneous
ingredients: [{herb: st-johns-wort-herb, ${form}, parts: 1}]
preparation: {kind: infused-oil, ${more}, marc: pressed}
directions: {${directions}}`;

describe('an infused oil', () => {
  it('of 1:5 w/w is more than five times in mL', async () => {
    const batch = await made(oil('ratio: 1:5 w/w, oil: olive-oil'), byMass('100 g'));
    // 500 g / 0.915 = 546.45 mL, less 78 mL that the marc keeps
    expect([added(batch), alsoAdded(batch), yields(batch)]).toEqual([
      { 'olive oil': '546.4 mL' },
      { 'olive oil': '500 g' },
      '468.4 mL',
    ]);
  });

  it('of 1:5 w/v is lighter than five times the herb', async () => {
    const batch = await made(oil('ratio: 1:5 w/v, oil: sunflower-oil'), byMass('100 g'));
    expect([added(batch), alsoAdded(batch)]).toEqual([
      { 'sunflower oil': '500 mL' },
      { 'sunflower oil': '460 g' },
    ]);
  });

  it('put on the skin thinly has no dose, and its strength is known all the same', async () => {
    const dose = herbDose(await made(oil('ratio: 1:5 w/v, oil: olive-oil'), byMass('100 g')));
    expect([dose.amounts, dose.route]).toEqual([null, 'cutaneous']);
    expect(dose.concentrations.map(shown)).toEqual(['0.2 g/mL']);
  });

  it('by the spoon holds herb by its ratio, and a weight is turned by its density', async () => {
    const of = (take: string) =>
      made(oil('ratio: 1:5 w/v, oil: olive-oil', undefined, `take: ${take}, times: 1`), byMass('100 g'));
    expect(shown(herbDose(await of('5 mL')).amounts?.single)).toBe('1 g');
  });

  it('of a vehicle that is not in the table is refused, with the nearest that is', async () => {
    expect(await refused(oil('ratio: 1:5 w/w, oil: olve-oil'))).toBe(
      '"olve-oil" is not among the vehicles: did you mean olive-oil?',
    );
    expect(await refused(oil('ratio: 1:5 w/w, oil: hippopotamus-tallow'))).toMatch(
      /^"hippopotamus-tallow" is not among the vehicles: add it to vehicles\.own\.yaml$/,
    );
    expect(await refused(oil('ratio: 1:5 w/w, oil: beeswax'))).toMatch(/^beeswax has no density/);
  });
});

// Consumer food storage card, Herb-infused oil: dried herb 3 months, fresh 7 days in the cold.
describe('how long an infused oil is kept', () => {
  it('of dried herb three months, of fresh seven days, because its water lets it spoil', async () => {
    const [dried, fresh] = [
      await made(oil('ratio: 1:5 w/w, oil: olive-oil'), byMass('100 g')),
      await made(oil('ratio: 1:5 w/w, oil: olive-oil', 'form: fresh'), byMass('100 g')),
    ];
    expect([shown(dried.keeping.time?.for), shown(fresh.keeping.time?.for)]).toEqual(['3 months', '7 days']);
    expect([product(dried).contents.fresh, product(fresh).contents.fresh]).toEqual([false, true]);
    expect(method(fresh)[0]).toMatch(/^Let the fresh herb wilt/);
  });
});
