import { describe, expect, it } from 'vitest';
import { fixedAmount } from '../../src/compounding/composition.ts';
import { gram } from '../../src/measure/units.ts';
import { write } from '../../src/measure/write.ts';
import { byMass, exactly, finer, made, q, refused, shownExact, value, weights, why } from './formula.ts';

const POWDER = 'preparation: {kind: powder}';

describe('parts', () => {
  const THREE = `
ingredients:
  - {herb: chamomile-flower, parts: 3}
  - {herb: thyme-herb, parts: 2}
  - {herb: ginger-rhizome, parts: 1}
${POWDER}`;

  it('3:2:1 to 100 g on a balance read to 0.1 g add up to exactly 100 g', async () => {
    const batch = await made(THREE, byMass('100 g'));
    expect(weights(batch)).toEqual({
      'chamomile-flower': '50 g',
      'thyme-herb': '33.3 g',
      'ginger-rhizome': '16.7 g',
    });
    expect(shownExact(batch.total)).toBe('100 g');
  });

  it('keep the exact mass of each line, and by how much the balance misses it', async () => {
    const batch = await made(THREE, byMass('100 g'));
    expect(exactly(batch)).toEqual({
      'chamomile-flower': '50',
      'thyme-herb': '33.3333333333',
      'ginger-rhizome': '16.6666666667',
    });
    expect(batch.lines.map((l) => l.error.value.value.toDecimalPlaces(6).toFixed())).toEqual([
      '0',
      '-0.1',
      '0.2',
    ]);
  });

  it('give the odd step to the largest remainder, and of equal ones to the first name', async () => {
    const thirds = await made(
      `
ingredients:
  - {herb: thyme-herb, parts: 1}
  - {herb: chamomile-flower, parts: 1}
  - {herb: ginger-rhizome, parts: 1}
${POWDER}`,
      byMass('10 g'),
    );
    expect(weights(thirds)).toEqual({
      'thyme-herb': '3.3 g',
      'chamomile-flower': '3.4 g',
      'ginger-rhizome': '3.3 g',
    });
  });

  it('may be fractions: 1 1/2 to 1/2 is 3 to 1', async () => {
    const batch = await made(
      `
ingredients: [{herb: thyme-herb, parts: 1 1/2}, {herb: sage-leaf, parts: 1/2}]
${POWDER}`,
      byMass('80 g'),
    );
    expect(weights(batch)).toEqual({ 'thyme-herb': '60 g', 'sage-leaf': '20 g' });
  });

  it('round the batch itself to the balance before it is shared out', async () => {
    const batch = await made(THREE, byMass('100.04 g'));
    expect(shownExact(batch.total)).toBe('100 g');
    expect(shownExact(batch.size)).toBe('100.04 g');
  });

  it('refuse a line that would round to nothing, and say what helps', async () => {
    const trace = `
ingredients: [{herb: thyme-herb, parts: 999}, {herb: ginger-rhizome, parts: 1}]
${POWDER}`;
    expect(await refused(trace, byMass('30 g'))).toBe(
      'ginger-rhizome would be 0.03 g, which rounds to nothing at 0.1 g: make a larger batch or use a finer balance',
    );
    expect(weights(await made(trace, byMass('30 g'), finer('0.01 g')))).toEqual({
      'thyme-herb': '29.97 g',
      'ginger-rhizome': '0.03 g',
    });
  });
});

describe('percents, fixed amounts and what takes the rest', () => {
  it('a percent is of the whole batch by mass; parts share what it leaves', async () => {
    const batch = await made(
      `
ingredients:
  - {herb: ginger-rhizome, percent: 5}
  - {herb: chamomile-flower, parts: 2}
  - {herb: thyme-herb, parts: 1}
${POWDER}`,
      byMass('200 g'),
    );
    expect(weights(batch)).toEqual({
      'ginger-rhizome': '10 g',
      'chamomile-flower': '126.7 g',
      'thyme-herb': '63.3 g',
    });
  });

  const MIXED = `
makes: 100 g
ingredients:
  - {herb: liquorice-root, amount: 12 g}
  - {herb: ginger-rhizome, percent: 8}
  - {herb: chamomile-flower, parts: 3}
  - {herb: thyme-herb, parts: 1}
${POWDER}`;

  it('an amount belongs to the size under makes: and grows with the batch', async () => {
    expect(weights(await made(MIXED))).toEqual({
      'liquorice-root': '12 g',
      'ginger-rhizome': '8 g',
      'chamomile-flower': '60 g',
      'thyme-herb': '20 g',
    });
    expect(weights(await made(MIXED, byMass('250 g')))).toEqual({
      'liquorice-root': '30 g',
      'ginger-rhizome': '20 g',
      'chamomile-flower': '150 g',
      'thyme-herb': '50 g',
    });
  });

  it('amounts alone are a formula of their own sum', async () => {
    const amounts = `
ingredients: [{herb: thyme-herb, amount: 30 g}, {herb: sage-leaf, amount: 1 oz av}]
${POWDER}`;
    expect(shownExact((await made(amounts)).size)).toBe('58.349523125 g');
    expect(weights(await made(amounts, byMass('100 g')))).toEqual({
      'thyme-herb': '51.4 g',
      'sage-leaf': '48.6 g',
    });
  });

  it('one ingredient may make up the total', async () => {
    const toMake = `
ingredients:
  - {herb: ginger-rhizome, amount: 10 g}
  - {herb: liquorice-root, percent: 20}
  - {herb: chamomile-flower, make_up_to: 80 g}
${POWDER}`;
    expect(weights(await made(toMake))).toEqual({
      'ginger-rhizome': '10 g',
      'liquorice-root': '16 g',
      'chamomile-flower': '54 g',
    });
  });

  it('an amount by volume is weighed by its density', async () => {
    const oil = `
ingredients:
  - {herb: thyme-oil, amount: 15 mL, density: 0.92 g/mL}
  - {herb: ginger-rhizome, make_up_to: 100 g}
${POWDER}`;
    expect(weights(await made(oil))).toEqual({ 'thyme-oil': '13.8 g', 'ginger-rhizome': '86.2 g' });
  });

  it('a volume without a density has no weight, and a density of nothing is none', () => {
    expect(write(value(fixedAmount(q('1 tsp'), gram, q('0.92 kg/L'))))).toBe('4.6 g');
    expect(write(value(fixedAmount(q('5 mL'), gram, q('920 g/L'))))).toBe('4.6 g');
    expect(why(fixedAmount(q('15 mL'), gram))).toMatch(/only with a density/);
    expect(why(fixedAmount(q('15 mL'), gram, q('0 g/mL')))).toMatch(/^a density must be above 0/);
    expect(why(fixedAmount(q('3 doses'), gram))).toMatch(/neither a mass nor a volume/);
  });

  it('two sizes of one formula are refused: which of them do the amounts belong to?', async () => {
    const twice = `
makes: 200 g
ingredients: [{herb: ginger-rhizome, amount: 10 g}, {herb: chamomile-flower, make_up_to: 100 g}]
${POWDER}`;
    expect(await refused(twice)).toBe(
      'makes: 200 g and make_up_to: 100 g are two sizes of one formula: keep the right one',
    );
  });

  it('amounts that do not come to the size are refused with both figures', async () => {
    const short = `
makes: 100 g
ingredients: [{herb: ginger-rhizome, amount: 10 g}, {herb: thyme-herb, amount: 70 g}]
${POWDER}`;
    expect(await refused(short)).toMatch(/^the amounts come to 80 g and the whole to 100 g/);
  });

  it('nothing left for the parts is refused, and so is less than nothing', async () => {
    const full = (amount: string): string => `
makes: 100 g
ingredients: [{herb: ginger-rhizome, amount: ${amount}}, {herb: thyme-herb, parts: 1}]
${POWDER}`;
    expect(await refused(full('100 g'))).toMatch(/nothing is left to share/);
    expect(await refused(full('130 g'))).toMatch(/nothing is left to share/);
  });
});
