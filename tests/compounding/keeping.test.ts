// Limits: University of North Carolina, Preservation, and Preserving syrups; Belgian compounding reference,
// Preservatives; Austrian pharmacy newsletter (glycerites). Times: a Russian course text (teas 24 h, from its table 6), a
// consumer card (oils).
import { describe, expect, it } from 'vitest';
import { keepingOf } from '../../src/compounding/keeping.ts';
import type { Held } from '../../src/folder/held.ts';
import type { Kind } from '../../src/folder/schema/formula.ts';
import { given } from '../../src/measure/figure.ts';
import { BENCH, byVolume, made, q, shown } from './formula.ts';
import { limits } from './product.ts';

const TABLE = BENCH.shelf.keeping;

/** A liquid that holds so much. */
const liquid = (ethanol: string | null, byMass: Partial<Record<Held, string>> = {}, fresh = false) => ({
  ...(ethanol ? { ethanol: given(q(ethanol), 'ethanol') } : {}),
  byMass: new Map(Object.entries(byMass).map(([what, share]) => [what as Held, given(q(share), what)])),
  fresh,
});

const keeps = (ethanol: string | null, byMass: Partial<Record<Held, string>> = {}) =>
  keepingOf('liquid-blend', liquid(ethanol, byMass), TABLE).keeps;

describe('ethanol that keeps a mixture', () => {
  // 15 % by mass is 18.5 % by volume (computed with OIML R 22), so that 18.4 % v/v meets two of three limits.
  it.each([
    ['14.9 % v/v', 'not by itself'],
    ['15 % v/v', 'by some sources'],
    ['18 % v/v', 'by some sources'],
    ['18.4 % v/v', 'by some sources'],
    ['18.6 % v/v', 'by itself'],
    ['96 % v/v', 'by itself'],
  ])('%s: %s', (strength, outcome) => {
    expect(keeps(strength)).toBe(outcome);
  });

  it('is held against each limit in its own measure, with its source', () => {
    const held = keepingOf('tincture', liquid('18.4 % v/v'), TABLE).limits;
    expect(held.map((l) => [shown(l.limit), l.met, l.where, l.source.body])).toEqual([
      ['15 % v/v', true, 'slightly acid liquids', expect.stringMatching(/North Carolina/)],
      ['18 % v/v', true, 'neutral or slightly alkaline liquids', expect.stringMatching(/North Carolina/)],
      ['15 % m/m', false, null, expect.stringMatching(/Belgian/)],
    ]);
  });
});

describe('one thing in it that keeps it is enough', () => {
  it('weak in spirit and strong in sugar', () => {
    expect(keeps('5 % v/v', { sucrose: '65 % m/m' })).toBe('by itself');
    expect(keeps('5 % v/v', { sucrose: '63 % m/m' })).toBe('by some sources');
    expect(keeps('5 % v/v', { sucrose: '40 % m/m', glycerol: '20 % m/m' })).toBe('not by itself');
  });

  it('water counts only in honey', () => {
    expect(keeps(null, { water: '10 % m/m' })).toBeNull();
    expect(keeps(null, { water: '20 % m/m', honey: '90 % m/m' })).toBe('by itself');
    expect(keeps(null, { water: '20.1 % m/m', honey: '90 % m/m' })).toBe('not by itself');
  });

  it('nothing known of it says nothing', () => {
    expect([keeps(null), keepingOf('powder', null, TABLE).keeps]).toEqual([null, null]);
  });
});

describe('how long it is kept', () => {
  const time = (kind: Kind, contents: ReturnType<typeof liquid> | null) =>
    shown(keepingOf(kind, contents, TABLE).time?.for);

  it('a tea 24 h', () => {
    for (const tea of ['infusion', 'decoction', 'cold-maceration', 'wash'] as const)
      expect(time(tea, null)).toBe('24 h');
  });

  it('a blend that does not keep, or not by every source, as a tea is', () => {
    expect(time('liquid-blend', liquid('10 % v/v'))).toBe('24 h');
    expect(time('liquid-blend', liquid('17.5 % v/v'))).toBe('24 h');
    expect(time('liquid-blend', liquid(null))).toBe('24 h');
    expect(time('liquid-blend', liquid('40 % v/v'))).toBe('none');
  });

  it('an oil by whether its herb was fresh', () => {
    expect([time('infused-oil', liquid(null, {}, true)), time('infused-oil', liquid(null))]).toEqual([
      '7 days',
      '3 months',
    ]);
  });

  it('a powder or capsules without a time of their own', () => {
    expect([time('powder', null), time('capsule', liquid(null))]).toEqual(['none', 'none']);
  });
});

describe('a blend with honey in it', () => {
  const mixed = (parts: number) => `
ingredients:
  - {herb: thyme-herb, form: tincture, ratio: 1:5 w/v, spirit: 10 % v/v, parts: ${parts}}
  - {vehicle: honey, parts: 1}
preparation: {kind: liquid-blend}`;

  it('holds the water of the tincture as well, so that half of each ferments', async () => {
    // 50 mL at 10 % v/v weigh about 49 g, of which some 45 g are water; 70 g of honey hold 12.6 g: 58 / 119 = 48 %.
    const batch = await made(mixed(1), byVolume('100 mL'));
    expect(limits(batch).filter((l) => l.startsWith('water') && !l.includes('not met'))).toEqual([]);
    expect(batch.keeping.keeps).toBe('not by itself');
  });
});
