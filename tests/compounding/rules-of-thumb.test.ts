import { describe, expect, it } from 'vitest';
import { strengthOf } from '../../src/measure/strength.ts';
import { write } from '../../src/measure/write.ts';
import { made, q, shown, shownExact, value } from './formula.ts';

// Two rules of thumb serve as check values. They are common practice and have no source.
describe('about 4 g of herb simmered in water made up to one imperial pint', () => {
  const day = (take: string, times: number): string => `
ingredients: [{herb: willow-bark, parts: 1}]
preparation: {kind: decoction, herb: 4 g, water: 750 mL, boil: 15 min, make_up_to: 1 imp pint}
directions: {take: ${take}, times: ${times}}`;

  it('drunk in three portions over the day: 189.4 mL with 1.33 g of herb each', async () => {
    const { taking, supply } = await made(day('1/3 of the pot', 3));
    expect([shown(taking?.dose), shown(taking?.herb), shown(supply?.potsADay)]).toEqual([
      '189.4 mL',
      '1.33 g',
      '1 pot',
    ]);
  });

  it('drunk in two portions: 284.1 mL with 2 g each', async () => {
    const { taking } = await made(day('half of the pot', 2));
    expect([shown(taking?.dose), shownExact(taking?.herb)]).toEqual(['284.1 mL', '2 g']);
  });
});

describe('an avoirdupois ounce to the imperial pint', () => {
  it('is 28.35 g in 568 mL, close to the 1:20 of the old pharmacopoeias', async () => {
    const { making, taking } = await made(`
ingredients: [{herb: chamomile-flower, parts: 1}]
preparation: {kind: infusion, herb: 1 oz av, water: 1 imp pint, strained: 1 imp pint, infuse: 15 min}
directions: {take: all of the pot, times: 1}`);
    if (making.kind !== 'pot') throw new Error('not a pot');
    expect([shown(taking?.herb), making.pot.strained.value.value.toFixed(0)]).toEqual(['28.35 g', '568']);
    const household = value(strengthOf(making.pot.herb.value, making.pot.strained.value));
    expect(write(household)).toBe('4.99 % w/v');
    // Cyclopaedia of practical receipts, sixth edition, volume I, infusion: 1 oz to 1 pint of boiling water.
    // United States general formula of infusions, medical dictionary, entry Infusum: 50 g to 1,000 g of water.
    const official = value(strengthOf(q('50 g'), q('1000 g')));
    expect(write(official)).toBe('5 % m/m');
    expect(household.value.minus(official.value).abs().lt('0.05')).toBe(true);
  });
});

describe('the herb in a dose', () => {
  it('is reckoned with what strains off, not with the water put in', async () => {
    // 12 g x 150 / 500 = 3.6 g; with the 568 mL put in it would look like 3.17 g.
    const { taking } = await made(`
ingredients: [{herb: chamomile-flower, parts: 1}]
preparation: {kind: infusion, herb: 12 g, water: 568 mL, strained: 500 mL, infuse: 15 min}
directions: {take: 150 mL, times: 3}`);
    expect(shownExact(taking?.herb)).toBe('3.6 g');
  });

  // British Pharmaceutical Codex 1911, Decocta: 5 parts of drug boiled 10 minutes in 120 of water, strained, and water
  // passed through the strainer to 100 parts.
  it('of the British Codex decoction, 5 in 120 for 100, is 5 g in 100 mL', async () => {
    const { taking, making } = await made(`
ingredients: [{herb: oak-bark, parts: 1}]
preparation: {kind: decoction, herb: 5 g, water: 120 mL, boil: 10 min, make_up_to: 100 mL}
directions: {take: 50 mL, times: 2}`);
    expect(shownExact(taking?.herb)).toBe('2.5 g');
    if (making.kind !== 'pot') throw new Error('not a pot');
    expect(write(value(strengthOf(making.pot.herb.value, making.pot.strained.value)))).toBe('5 % w/v');
  });
});
