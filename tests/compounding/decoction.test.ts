import { describe, expect, it } from 'vitest';
import type { Bench } from '../../src/compounding/compound.ts';
import { decoction } from '../../src/compounding/decoction.ts';
import { given } from '../../src/measure/figure.ts';
import {
  BENCH,
  byMass,
  formula,
  made,
  method,
  q,
  refused,
  shown,
  shownExact,
  value,
  why,
} from './formula.ts';

const bark = (preparation: string): string => `
ingredients: [{herb: willow-bark, parts: 2}, {herb: meadowsweet-herb, parts: 1}]
preparation: {kind: decoction, ${preparation}}
directions: {take: 150 mL, times: 3}`;

const strained = (batch: Awaited<ReturnType<typeof made>>): string =>
  batch.making.kind === 'pot' ? shownExact(batch.making.pot.strained) : 'no pot';

describe('a decoction', () => {
  it('loses what the formula says boils off, and what the herbs keep back', async () => {
    const batch = await made(bark('herb: 9 g, water: 700 mL, boil: 20 min, boils_off: 150 mL'));
    expect(strained(batch)).toBe('532 mL');
  });

  it('boiling and herb together may leave nothing, which is refused', async () => {
    expect(await refused(bark('herb: 9 g, water: 200 mL, boil: 20 min, boils_off: 190 mL'))).toBe(
      'nothing strains off: 9 g of herb and the boiling take up all of 200 mL',
    );
  });

  it('says what to do, in order', async () => {
    expect(method(await made(bark('herb: 9 g, water: 700 mL, boil: 20 min, make_up_to: 500 mL')))).toEqual([
      'Put 9 g of the blend into 700 mL of cold water and bring to the boil.',
      'Simmer, covered, for 20 min and strain hot.',
      'Pour water through the strainer to 500 mL in all.',
    ]);
  });

  it('is not strained before it has stood', async () => {
    const stands = bark(
      'herb: 9 g, water: 700 mL, boil: 15 min, stand: 15 min, covered: no, strained: 550 mL',
    );
    expect(method(await made(stands)).slice(1)).toEqual([
      'Simmer, uncovered, for 15 min in all.',
      'Let stand for 15 min and strain.',
    ]);
  });
});

describe('what boils off at the rate that the practice has measured', () => {
  const PRACTICE: Bench = { ...BENCH, boilsOff: q('8 mL/min') };

  /** A decoction whose file states neither what strains off nor what boils off. */
  async function unstated(times: string) {
    const { preparation } = await formula(bark(`herb: 9 g, water: 700 mL, ${times}, boils_off: 1 mL`));
    if (preparation.kind !== 'decoction') throw new Error('not a decoction');
    return { ...preparation, boils_off: undefined };
  }
  const nineGrams = {
    heldBack: BENCH.heldBack,
    shelf: BENCH.shelf,
    ingredients: [],
    base: given(q('9 g'), 'all'),
    masses: () => ({ ok: true as const, value: new Map([['willow-bark', given(q('9 g'), 'all')]]) }),
  };

  it('counts every minute at the boil', async () => {
    // 700 mL - 9 g x 2 mL/g - 20 min x 8 mL/min
    const making = value(
      decoction(await unstated('boil: 20 min'), { ...nineGrams, boilsOff: PRACTICE.boilsOff }),
    );
    expect(making.kind === 'pot' && shownExact(making.pot.strained)).toBe('522 mL');
    expect(making.kind === 'pot' && making.pot.estimated).toBe(true);
  });

  it('of stages it counts those that simmer', async () => {
    const staged = await unstated(
      'stages: [{do: decoct, herbs: [willow-bark], for: 20 min}, {do: infuse, herbs: [meadowsweet-herb], for: 10 min}]',
    );
    const making = value(decoction(staged, { ...nineGrams, boilsOff: q('0.48 L/h') }));
    expect(making.kind === 'pot' && shownExact(making.pot.strained)).toBe('522 mL');
  });

  it('and all of those that simmer', async () => {
    const twice = await unstated(
      'stages: [{do: decoct, herbs: [willow-bark], for: 15 min}, {do: decoct, herbs: [meadowsweet-herb], for: 5 min}]',
    );
    const making = value(decoction(twice, { ...nineGrams, boilsOff: q('8 mL/min') }));
    expect(making.kind === 'pot' && shownExact(making.pot.strained)).toBe('522 mL');
  });

  it('gives way to what the formula itself states', async () => {
    const stated = bark('herb: 9 g, water: 700 mL, boil: 20 min, boils_off: 150 mL');
    expect(strained(await made(stated, undefined, PRACTICE))).toBe('532 mL');
  });

  it('where nobody has measured anything, nothing is guessed', async () => {
    expect(why(decoction(await unstated('boil: 20 min'), nineGrams))).toMatch(
      /^what boils off cannot be told/,
    );
  });
});

describe('stages in one pot', () => {
  const STAGED = bark(`herb: 9 g, water: 700 mL, make_up_to: 1 imp pint,
  stages: [{do: decoct, herbs: [willow-bark], for: 20 min}, {do: infuse, herbs: [meadowsweet-herb], for: 10 min, covered: yes}]`);

  it('each herb goes in at its own time, in the amount that one pot needs', async () => {
    const batch = await made(STAGED, byMass('90 g'));
    expect(method(batch)).toEqual([
      'Put 6 g willow-bark into 700 mL of cold water, bring to the boil and simmer, covered, for 20 min before the next step.',
      'Take off the heat, add 3 g meadowsweet-herb and let stand, covered, for 10 min and strain.',
      'Pour water through the strainer to 568.3 mL in all.',
    ]);
    expect(shown(batch.pots)).toBe('10 pots');
  });

  it('a soak comes before the boil, and several herbs may go in together', async () => {
    const soaked = `
ingredients: [{herb: willow-bark, parts: 1}, {herb: liquorice-root, parts: 1}, {herb: thyme-herb, parts: 1}]
preparation:
  kind: decoction
  herb: 9 g
  water: 700 mL
  strained: 500 mL
  stages:
    - {do: macerate, herbs: [willow-bark], for: 2 h}
    - {do: decoct, herbs: [liquorice-root, thyme-herb], for: 10 min, covered: no}`;
    expect(method(await made(soaked))).toEqual([
      'Put 3 g willow-bark into 700 mL of cold water and let stand for 2 h before the next step.',
      'Add 3 g liquorice-root and 3 g thyme-herb and bring to the boil, then simmer, uncovered, for 10 min and strain.',
    ]);
  });

  it('a first stage that only infuses gets its water boiling', async () => {
    const poured = bark(`herb: 9 g, water: 700 mL, strained: 500 mL,
  stages: [{do: infuse, herbs: [meadowsweet-herb], for: 10 min}, {do: macerate, herbs: [willow-bark], for: 2 h}]`);
    expect(method(await made(poured))).toEqual([
      'Pour 700 mL of boiling water on 3 g meadowsweet-herb and let stand, covered, for 10 min before the next step.',
      'Let cool, add 6 g willow-bark and let stand cold for 2 h and strain.',
    ]);
  });
});

describe('a powder', () => {
  it('is ground whole: nothing that stays on the sieve is thrown away', async () => {
    // USP 32-NF 27, general chapter 811: no part of a vegetable drug may be rejected while milling.
    const batch = await made(
      'ingredients: [{herb: ginger-rhizome, parts: 1}]\npreparation: {kind: powder, sieve: 355 micrometres}',
      byMass('50 g'),
    );
    expect(method(batch)[0]).toBe(
      'Grind each herb, pass it through the sieve (355 micrometres), grind what stays behind and mix it back.',
    );
  });
});
