// The steps: The United States Pharmacopoeia, ninth revision, Tinctures, p 444 (damp, stand 6 h, pack, saturate, macerate 24 h,
// percolate to the volume). That three quarters are collected before pressing is of a pharmacognosy course.
import { describe, expect, it } from 'vitest';
import { byMass, made, method, refused, shown } from './formula.ts';
import { added, alsoAdded, figure, herbDose, product, yields } from './product.ts';

const percolate = (more: string, form = 'powder'): string => `
ingredients: [{herb: meadowsweet-herb, form: ${form}, parts: 1}]
preparation: {kind: percolation, ${more}}
directions: {take: 2 mL, times: 3}`;

describe('a percolate', () => {
  const ONE_IN_FIVE = percolate('ratio: 1:5 w/v, spirit: 45 % v/v');

  it('is brought to the volume of its ratio, so that none of it is counted as kept by the marc', async () => {
    const batch = await made(ONE_IN_FIVE, byMass('100 g'));
    expect([shown(product(batch).makes), yields(batch)]).toEqual(['500 mL', 'all of it']);
    // 2 mL / 5 = 0.4 g
    expect(shown(herbDose(batch).amounts?.single)).toBe('0.4 g');
  });

  it('takes spirit to have ready for what the wet powder keeps: at the most 1.83 mL to the g', async () => {
    const batch = await made(ONE_IN_FIVE, byMass('100 g'));
    // 500 + 100 x 1.83 = 683 mL; x 0.93954 g/mL (OIML R 22, table IVa, 45 % v/v) = 641.7 g
    expect([added(batch), alsoAdded(batch)]).toEqual([
      { 'spirit to have ready': '683 mL' },
      { 'spirit to have ready': '641.7 g' },
    ]);
  });

  it('says what to do, with the usual times where the formula gives none', async () => {
    expect(method(await made(ONE_IN_FIVE, byMass('100 g')))).toEqual([
      'Damp 100 g of moderately coarse powder evenly with some of the spirit.',
      'Let stand covered for 6 h , then pack it evenly.',
      'Saturate it, leave a layer of spirit above and let stand for 24 h .',
      'Let it run slowly until 375 mL are in hand, press the marc and add what comes.',
      'Make up to 500 mL with spirit, let settle and filter.',
    ]);
  });

  it('from strong spirit takes as much of it as holds the ethanol of what is poured', async () => {
    const batch = await made(percolate('ratio: 1:5 w/v, spirit: 45 % v/v, from: 96 % v/v'), byMass('100 g'));
    // 683 mL x 45 / 96 = 320.16 mL
    expect(figure(product(batch).spirit?.poured[0]?.volume)).toBeCloseTo(320.16, 2);
  });

  it('is made up to a volume, so that a ratio by weight is refused', async () => {
    expect(await refused(percolate('ratio: 1:5 w/w, spirit: 45 % v/v'))).toBe(
      'a percolate is made up to a volume: write the ratio in w/v, such as ratio: 1:5 w/v',
    );
  });
});

describe('a percolate of fresh herb', () => {
  it('is refused, for the water of the herb would thin the spirit unseen', async () => {
    // 200 mL would hold 80 g of the water of the leaf and 120 mL of spirit: 120 x 25 / 200 = 15 %.
    expect(await refused(percolate('ratio: 1:2 w/v, spirit: 25 % v/v', 'fresh, moisture: 80 %'))).toMatch(
      /^a percolate is drawn from dried herb: write kind: fresh-tincture/,
    );
  });
});
