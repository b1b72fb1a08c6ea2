// Honey weighs 1.4 g/mL (British Pharmaceutical Codex 1911); vinegar of 5 % about 1.005, from memory, as its table says.
import { describe, expect, it } from 'vitest';
import { byMass, made, method, refused, shown } from './formula.ts';
import { added, alsoAdded, figure, herbDose, product } from './product.ts';

const oxymel = (more: string, take = '10 mL'): string => `
ingredients: [{herb: thyme-herb, parts: 1}]
preparation: {kind: oxymel, ${more}, marc: pressed}
directions: {take: ${take}, times: 3, for: 7 days}`;

describe('an oxymel', () => {
  const EIGHT = 'ratio: 1:8 w/w, honey: 80 %, acid: 5 % w/v';

  it('shares the liquid by weight between honey and vinegar', async () => {
    const batch = await made(oxymel(EIGHT), byMass('100 g'));
    // 800 g: 640 g of honey, 160 g of vinegar, which are 160 / 1.005 = 159.2 mL
    expect([added(batch), alsoAdded(batch)]).toEqual([
      { honey: '640 g', vinegar: '159.2 mL' },
      { honey: 'none', vinegar: '160 g' },
    ]);
  });

  it('fills what its honey and its vinegar fill', async () => {
    const batch = await made(oxymel(EIGHT), byMass('100 g'));
    // 640 / 1.4 + 159.204 = 616.347 mL, so that 10 mL hold 100 x 10 / 616.347 = 1.6225 g of herb.
    expect(figure(product(batch).makes)).toBeCloseTo(616.347, 2);
    expect(shown(herbDose(batch).amounts?.single)).toBe('1.62 g');
    // 616.347 - 78
    expect(figure(product(batch).yields)).toBeCloseTo(538.347, 2);
  });

  it('taken by weight is the same by its density', async () => {
    const batch = await made(oxymel(EIGHT, '10 g'), byMass('100 g'));
    // 10 g of 800 g belong to 1.25 g of herb.
    expect(figure(herbDose(batch).amounts?.single)).toBeCloseTo(1.25, 12);
  });

  it('of a ratio by volume is so much by volume', async () => {
    const batch = await made(oxymel('ratio: 1:5 w/v, honey: 80 %, acid: 5 % w/v'), byMass('100 g'));
    // 500 mL x 800 / 616.347 g/mL = 648.99 g, 80 % of it honey
    expect(figure(product(batch).added[0]?.amount)).toBeCloseTo(519.19, 1);
    expect(shown(herbDose(batch).amounts?.single)).toBe('2 g');
  });

  it('tells the acid at the end by what the label counts', async () => {
    const acid = async (label: string) => {
      const batch = await made(oxymel(`ratio: 1:8 w/w, honey: 80 %, acid: ${label}`), byMass('100 g'));
      return figure(product(batch).contents.byMass.get('acid'));
    };
    // 159.204 mL x 5 g / 100 mL = 7.960 g of 800 g; 160 g x 5 % = 8 g; the acid of old formularies is a third.
    expect(await acid('5 % w/v')).toBeCloseTo(0.995, 3);
    expect(await acid('5 % m/m')).toBeCloseTo(1, 12);
    expect(await acid('33 % m/m')).toBeCloseTo(6.6, 12);
  });

  it('of honey or of vinegar alone is none', async () => {
    expect(await refused(oxymel('ratio: 1:8 w/w, honey: 100 %, acid: 5 % w/v'))).toMatch(
      /^honey must lie between 0 and 100 %/,
    );
    expect(await refused(oxymel('ratio: 1:8 w/w, honey: 0 %, acid: 5 % w/v'))).toMatch(/^honey must lie/);
  });

  it('says what to do', async () => {
    expect(method(await made(oxymel(`${EIGHT}, macerate: 14 days`), byMass('100 g')))).toEqual([
      'Pour 159.2 mL of vinegar on 100 g of cut or bruised herb, let stand 14 days , shaking daily; strain and press.',
      'Stir in 640 g of honey, warm it gently and let settle.',
    ]);
  });
});

describe('an oxymel of fresh herb', () => {
  it('is refused, for the water of the herb would let it ferment unseen', async () => {
    // 294 g x 18 % + 6 g x 95 % = 58.62 g, and 80 g of the herb: 138.62 / 380 = 36.5 % of water, where honey alone has 19.5 %.
    const fresh = oxymel('ratio: 1:3 w/w, honey: 98 %, acid: 5 % m/m').replace(
      'herb: thyme-herb',
      'herb: thyme-herb, form: fresh, moisture: 80 %',
    );
    expect(await refused(fresh)).toMatch(/^an oxymel is reckoned of dried herb/);
  });
});
