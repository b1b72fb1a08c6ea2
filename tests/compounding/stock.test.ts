import { describe, expect, it } from 'vitest';
import { herbIn, stockDensity } from '../../src/compounding/stock.ts';
import { gram, millilitre } from '../../src/measure/units.ts';
import { formula, shown, value, why } from './formula.ts';
import { figure } from './product.ts';

/** What stands on the shelf, as a line of a blend has it. */
async function bottle(line: string) {
  const kind = line.includes('infused-oil') ? 'ointment' : 'liquid-blend';
  const { ingredients } = await formula(
    `ingredients: [{herb: thyme-herb, ${line}, parts: 1}]\npreparation: {kind: ${kind}}`,
  );
  const [first] = ingredients;
  if (first === undefined) throw new Error('no line');
  return first;
}

const inOne = async (line: string, unit = millilitre) => value(herbIn(await bottle(line), unit));

describe('the herb in a mL of what stands on the shelf', () => {
  it.each([
    ['form: tincture, ratio: 1:5 w/v, spirit: 45 % v/v', 0.2],
    ['form: tincture, ratio: 1:2 w/v, spirit: 95 % v/v', 0.5],
    // United States Pharmacopeia, general chapter 1151: each mL of a fluidextract holds 1 g.
    ['form: liquid-extract, ratio: 1:1 w/v, spirit: 60 % v/v', 1],
    ['form: glycerite, ratio: 2:9 w/v, glycerol: 65 % v/v', 2 / 9],
  ])('%s', async (line, grams) => {
    expect(figure(await inOne(line))).toBeCloseTo(grams, 12);
  });

  it('by weight is turned by the density of the spirit, or by the one that the formula gives', async () => {
    // OIML R 22, table IVa: 60 % v/v weighs 0.90911 g/mL; / 5 = 0.181822 g. With what is dissolved it is 0.93: 0.186.
    const tincture = 'form: tincture, ratio: 1:5 w/w, spirit: 60 % v/v';
    expect(figure(await inOne(tincture))).toBeCloseTo(0.181822, 5);
    expect(figure(await inOne(`${tincture}, density: 0.93 g/mL`))).toBeCloseTo(0.186, 12);
    expect(figure(await inOne(`${tincture}, density: 930 g/L`))).toBeCloseTo(0.186, 12);
  });

  it('by weight of what nobody knows the weight is refused', async () => {
    expect(why(herbIn(await bottle('form: syrup, ratio: 1:10 w/w'), millilitre))).toBe(
      'thyme-herb: a ratio of 1:10 w/w is counted by the other measure than the line is: add the density: of its syrup',
    );
  });
});

describe('the herb in a g of it', () => {
  it('is herb over oil where both are weighed', async () => {
    expect(figure(await inOne('form: infused-oil, ratio: 1:5 w/w', gram))).toBeCloseTo(0.2, 12);
  });

  it('is more than by volume where a mL weighs less than a g', async () => {
    // 1 / (5 x 0.92) = 0.217391
    const oil = 'form: infused-oil, ratio: 1:5 w/v, density: 0.92 g/mL';
    expect(figure(await inOne(oil, gram))).toBeCloseTo(0.217391, 6);
  });
});

describe('the weight of a mL of it', () => {
  it('is what the formula says, else that of its spirit, else not known', async () => {
    const spirit = await bottle('form: tincture, ratio: 1:5 w/v, spirit: 70 % v/v');
    // OIML R 22, table IVa: 885.56 kg/m3
    expect(figure(stockDensity(spirit))).toBeCloseTo(0.88556, 5);
    const stated = await bottle('form: tincture, ratio: 1:5 w/v, spirit: 70 % v/v, density: 0.9 g/mL');
    expect(shown(stockDensity(stated))).toBe('0.9 g/mL');
    expect(stockDensity(await bottle('form: syrup, ratio: 1:10 w/v'))).toBeNull();
  });
});

describe('the herb itself', () => {
  it('is no stock, and is weighed as it is', async () => {
    const { ingredients } = await formula(
      'ingredients: [{herb: thyme-herb, form: powder, parts: 1}]\npreparation: {kind: powder}',
    );
    expect(ingredients.map((i) => herbIn(i, gram))).toEqual([{ ok: true, value: null }]);
  });
});
