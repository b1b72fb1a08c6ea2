import { describe, expect, it } from 'vitest';
import type { Bench } from '../../src/compounding/compound.ts';
import type { Making } from '../../src/compounding/making.ts';
import { workingOf } from '../../src/measure/figure.ts';
import { BENCH, made, method, q, refused, shown, shownExact } from './formula.ts';

const pot = (m: Making) => {
  if (m.kind !== 'pot') throw new Error('not a pot');
  return m.pot;
};

const tea = (preparation: string): string => `
ingredients: [{herb: chamomile-flower, parts: 3}, {herb: sage-leaf, parts: 1}]
preparation: {kind: infusion, infuse: 10 min, ${preparation}}
directions: {take: 150 mL, times: 2}`;

const HELD: Record<string, string> = { 'chamomile-flower': '3.4 mL/g', 'sage-leaf': '3.3 mL/g' };
const EACH_ITS_OWN: Bench = {
  ...BENCH,
  heldBack: (herb) => ({ perGram: q(HELD[herb] ?? '0 mL/g'), says: 'water kept back by the herb' }),
};

describe('what strains off a pot', () => {
  it('is what was measured, where it was', async () => {
    const p = pot((await made(tea('herb: 12 g, water: 600 mL, strained: 500 mL'))).making);
    expect([shown(p.strained), p.estimated, p.makeUpTo]).toEqual(['500 mL', false, undefined]);
  });

  it('is what it is made up to, and the method says so', async () => {
    const batch = await made(tea('herb: 12 g, water: 600 mL, make_up_to: 1 imp pint'));
    expect([shownExact(pot(batch.making).strained), pot(batch.making).estimated]).toEqual([
      '568.26125 mL',
      false,
    ]);
    expect(method(batch).at(-1)).toBe('Pour water through the strainer to 568.3 mL in all.');
  });

  it('is estimated from what each herb keeps back, and marked', async () => {
    // 9 g x 3.4 mL/g + 3 g x 3.3 mL/g = 40.5 mL
    const p = pot((await made(tea('herb: 12 g, water: 500 mL'), undefined, EACH_ITS_OWN)).making);
    expect([shownExact(p.strained), p.estimated]).toEqual(['459.5 mL', true]);
    const working = workingOf([p.strained]);
    expect(working.filter((w) => w.says.startsWith('water held back by')).map((w) => w.result)).toEqual([
      '30.6 mL',
      '9.9 mL',
    ]);
    expect(working.at(-1)?.sum).toMatch(/^500 mL \[\d+\] - 30\.6 mL \[\d+\] - 9\.9 mL \[\d+\]$/);
  });

  it("the formula's own figure for the blend counts before the herbs' figures", async () => {
    const p = pot(
      (await made(tea('herb: 12 g, water: 500 mL, holds: 2.5 mL/g'), undefined, EACH_ITS_OWN)).making,
    );
    expect([shownExact(p.strained), p.estimated]).toEqual(['470 mL', true]);
  });

  it('a figure in another unit is the same figure', async () => {
    const p = pot((await made(tea('herb: 12 g, water: 0.5 L, holds: 2500 mL/kg'))).making);
    expect(shownExact(p.strained)).toBe('470 mL');
  });

  it('more than was put in is refused', async () => {
    expect(await refused(tea('herb: 12 g, water: 500 mL, strained: 1 imp pint'))).toBe(
      '1 imp pint strained off is more than the 500 mL of water put in',
    );
  });

  it('nothing left to strain is refused', async () => {
    expect(await refused(tea('herb: 100 g, water: 200 mL'))).toBe(
      'nothing strains off: 100 g of herb takes up all of 200 mL',
    );
  });
});

// The water to take for a wanted volume, worked example: Russian medical e-library, module on herbal drugs,
// 14-MOD-0486-0005 (Adonis herb 5.65 g at 2.8 mL/g for 180 mL: printed 195.8 mL of water, in full 195.82 mL).
describe('the worked example of Adonis herb', () => {
  const adonis = (water: string): string => `
ingredients: [{herb: adonis-herb, parts: 1}]
preparation: {kind: infusion, infuse: 15 min, herb: 5.65 g, water: ${water}, holds: 2.8 mL/g}`;

  it('195.82 mL of water on 5.65 g give the 180 mL that are wanted', async () => {
    const p = pot(
      (
        await made(adonis('195.82 mL'), undefined, {
          ...BENCH,
          balance: { ...BENCH.balance, step: q('0.01 g') },
        })
      ).making,
    );
    expect(shownExact(p.strained)).toBe('180 mL');
  });

  it('and the herb keeps back 15.8 mL', async () => {
    const p = pot((await made(adonis('195.8 mL'))).making);
    const keeps = workingOf([p.strained]).find((w) => w.says.startsWith('water held back'));
    expect(keeps?.result).toBe('15.82 mL');
  });
});

describe('cold maceration', () => {
  const COLD = `
ingredients: [{herb: marshmallow-root, parts: 1}]
preparation: {kind: cold-maceration, herb: 10 g, water: 250 mL, macerate: 8 h, boil_before_use: yes}
directions: {take: all of the pot, times: 1}`;

  it('boils nothing off, and tells how the water is made safe', async () => {
    const batch = await made(COLD);
    expect(shown(pot(batch.making).strained)).toBe('230 mL');
    expect(method(batch)).toEqual([
      'Pour 250 mL of boiled and cooled water on 10 g of the blend.',
      'Let stand 8 h cold, stirring now and then, and strain.',
      'Bring the strained liquid to the boil once before use.',
    ]);
  });
});
