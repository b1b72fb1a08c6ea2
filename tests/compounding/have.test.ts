import { describe, expect, it } from 'vitest';
import { workingOf } from '../../src/measure/figure.ts';
import { byHave, made, refused, shownExact, weights } from './formula.ts';

const THREE = `
ingredients:
  - {herb: chamomile-flower, parts: 3}
  - {herb: thyme-herb, parts: 2}
  - {herb: ginger-rhizome, parts: 1}
preparation: {kind: powder}`;

describe('the largest batch from what is in hand', () => {
  it('the scarcest ingredient decides, and what is not named is not scarce', async () => {
    const batch = await made(THREE, byHave({ 'chamomile-flower': '25 g', 'ginger-rhizome': '10 g' }));
    expect(shownExact(batch.total)).toBe('50 g');
    expect(weights(batch)['chamomile-flower']).toBe('25 g');
    expect(shownExact((await made(THREE, byHave({ 'ginger-rhizome': '10 g' }))).total)).toBe('60 g');
  });

  it('scarce is by what the formula needs, not by what weighs least', async () => {
    const batch = await made(THREE, byHave({ 'chamomile-flower': '30 g', 'ginger-rhizome': '11 g' }));
    expect(weights(batch)).toEqual({
      'chamomile-flower': '30 g',
      'thyme-herb': '20 g',
      'ginger-rhizome': '10 g',
    });
  });

  const THIRDS = `
ingredients:
  - {herb: chamomile-flower, parts: 1}
  - {herb: thyme-herb, parts: 1}
  - {herb: ginger-rhizome, parts: 1}
preparation: {kind: powder}`;

  it('where rounding would ask for more than there is, the batch is a step smaller', async () => {
    // Rounded down to the balance 33.35 g are enough for 100 g, of which the first line would be 33.4 g.
    const batch = await made(THIRDS, byHave({ 'chamomile-flower': '33.35 g' }));
    expect(shownExact(batch.total)).toBe('99.9 g');
    expect(weights(batch)['chamomile-flower']).toBe('33.3 g');
    expect(shownExact(batch.size)).toBe('100 g');
  });

  it('a small share may need many steps less', async () => {
    const trace = `
ingredients: [{herb: thyme-herb, parts: 99}, {herb: ginger-rhizome, parts: 1}]
preparation: {kind: powder}`;
    // 0.99 g is a hundredth of 99 g, whose line would be 1 g; only 41 steps lower, at 94.9 g, is it 0.9 g.
    const batch = await made(trace, byHave({ 'ginger-rhizome': '0.99 g' }));
    expect(weights(batch)).toEqual({ 'thyme-herb': '94 g', 'ginger-rhizome': '0.9 g' });
    const chain = workingOf([batch.total]).map((line) => line.says);
    expect(chain.filter((says) => says.includes('steps of the balance less'))).toHaveLength(1);
  });

  it('counts what percents and fixed amounts need', async () => {
    const mixed = `
makes: 100 g
ingredients:
  - {herb: liquorice-root, amount: 20 g}
  - {herb: ginger-rhizome, percent: 5}
  - {herb: chamomile-flower, parts: 1}
preparation: {kind: powder}`;
    const batch = await made(mixed, byHave({ 'liquorice-root': '50 g', 'ginger-rhizome': '10 g' }));
    expect(weights(batch)).toEqual({
      'liquorice-root': '40 g',
      'ginger-rhizome': '10 g',
      'chamomile-flower': '150 g',
    });
  });

  it('refuses a herb that the formula does not hold, a measured volume, and too little for any batch', async () => {
    expect(await refused(THREE, byHave({ 'sage-leaf': '10 g' }))).toBe('sage-leaf is not in this formula');
    expect(await refused(THREE, byHave({ 'thyme-herb': '40 mL' }))).toMatch(
      /^40 mL of thyme-herb: .*made by mass/,
    );
    expect(await refused(THREE, byHave({ 'thyme-herb': '0.01 g' }))).toMatch(
      /^0\.01 g of thyme-herb is too little/,
    );
    expect(await refused(THREE, byHave({}))).toMatch(/^say what is in hand/);
  });
});
