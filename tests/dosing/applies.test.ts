import { describe, expect, it } from 'vitest';
import { compare } from '../../src/dosing/compare.ts';
import { monograph, outcomes, taken, whose } from './monograph.ts';

const TEA = 'preparation: {kind: infusion}, route: oral';

describe('whom an entry is for', () => {
  const BANDS = `
    - {${TEA}, ages: 6-12 years, single: up to 1 g, source: a}
    - {${TEA}, ages: 12+ years, single: up to 3 g, source: a}`;

  it('the band changes on the day of the 12th birthday and not the day before', async () => {
    const m = await monograph(BANDS);
    const dose = await taken('2 g');
    expect(await outcomes(m, dose, whose('2014-05-03', '2026-05-02'))).toEqual([
      'above: single 2 g beside up to 1 g',
    ]);
    expect(await outcomes(m, dose, whose('2014-05-02', '2026-05-02'))).toEqual([
      'within: single 2 g beside up to 3 g',
    ]);
  });

  it('a month of birth that straddles the edge leaves both bands open, and marks them', async () => {
    const m = await monograph(BANDS);
    const compared = compare(m, await taken('2 g'), whose('2014-05', '2026-05-15'));
    expect(compared.map((c) => [c.outcome, c.forAge])).toEqual([
      ['above', 'unknown'],
      ['within', 'unknown'],
    ]);
    const after = compare(m, await taken('2 g'), whose('2014-05', '2026-06-01'));
    expect(after.map((c) => [c.outcome, c.forAge])).toEqual([['within', true]]);
  });

  it('an entry without ages is for adults, from the day of the 18th birthday', async () => {
    const m = await monograph(`- {${TEA}, single: 1-2 g, source: a}`);
    expect(compare(m, await taken('1 g'), whose('2008-05-03', '2026-05-02'))).toEqual([]);
    expect(compare(m, await taken('1 g'), whose('2008-05-02', '2026-05-02'))).toHaveLength(1);
  });

  it('no entry for an age is no dose at all, never the dose of another age', async () => {
    const m = await monograph(BANDS);
    expect(compare(m, await taken('1 g'), whose('2022-01-01'))).toEqual([]);
  });

  it('an entry of another route is another dose', async () => {
    const m = await monograph('- {preparation: {kind: infusion}, route: cutaneous, single: 30 g, source: a}');
    expect(compare(m, await taken('1 g'), whose('1980-01-01'))).toEqual([]);
  });
});

describe('what an entry is for', () => {
  it('millilitres of a stated ratio are never turned into grams of tea', async () => {
    const m = await monograph(
      '- {preparation: {kind: tincture, ratio: "1:5", solvent: ethanol 45 % v/v}, route: oral, single: 2-4 mL, times: 3, of: preparation, source: a}',
    );
    expect(await outcomes(m, await taken('2 g', '3'))).toEqual(['not comparable: it is for the tincture']);
  });

  it('nor is a tincture in grams of herb', async () => {
    const m = await monograph(
      '- {preparation: {kind: tincture}, route: oral, daily: up to 2 g, of: herb, source: a}',
    );
    expect(await outcomes(m, await taken('1 g'))).toEqual(['not comparable: it is for the tincture']);
  });

  it('a figure that counts the finished preparation is no weight of herb', async () => {
    const m = await monograph(`- {${TEA}, single: 2-4 g, of: preparation, source: a}`);
    const why = 'not comparable: it counts the finished preparation, not the herb';
    expect(await outcomes(m, await taken('3 g'))).toEqual([why]);
    expect(await outcomes(m, await taken('3 g', '1', { kind: 'decoction' }))).toEqual([why]);
  });

  it('a powder and a tea are two doses', async () => {
    const m = await monograph('- {preparation: {kind: powder}, route: oral, single: 1 g, source: a}');
    expect(await outcomes(m, await taken('1 g'))).toEqual(['not comparable: it is for the powder']);
    expect((await outcomes(m, await taken('1 g', '1', { kind: 'powder' })))[0]).toMatch(/^within/);
  });

  it('one entry may speak of several kinds', async () => {
    const m = await monograph(
      '- {preparation: {kind: [powder, tincture, decoction]}, route: oral, daily: 3-9 g, source: a}',
    );
    expect((await outcomes(m, await taken('4 g', '1', { kind: 'powder' })))[0]).toMatch(/^within/);
  });
});

describe('teas', () => {
  const DECOCTION = 'preparation: {kind: decoction}, route: oral, single: 4 g';

  it('count together, as the pharmacopoeia counts them, where a source tells none apart', async () => {
    const m = await monograph(`- {${DECOCTION}, source: a}`);
    expect((await outcomes(m, await taken('4 g')))[0]).toMatch(/^within/);
    expect((await outcomes(m, await taken('5 g', '1', { kind: 'cold-maceration' })))[0]).toMatch(/^above/);
  });

  it('a source that has a dose for this kind of its own has told them apart', async () => {
    const m = await monograph(`
      - {${TEA}, single: 1-3 g, source: a}
      - {${DECOCTION}, source: a}`);
    expect(await outcomes(m, await taken('4 g'))).toEqual([
      'above: single 4 g beside 1 to 3 g',
      'not comparable: it is for the decoction, and its source has a dose for the infusion itself',
    ]);
  });

  it('what one source tells apart, another has not', async () => {
    const m = await monograph(`
      - {${TEA}, single: 1-3 g, source: a}
      - {${DECOCTION}, source: b}`);
    expect((await outcomes(m, await taken('5 g')))[1]).toBe('above: single 5 g beside 4 g');
  });

  it('a count of a constituent for every kind does not tell the teas apart in grams', async () => {
    const m = await monograph(`
      - {preparation: {kind: [infusion, decoction]}, route: oral, daily: 45-240 mg, of: total salicin, source: a}
      - {${DECOCTION}, source: a}`);
    expect((await outcomes(m, await taken('5 g')))[1]).toBe('above: single 5 g beside 4 g');
  });
});

describe('fresh and dried herb', () => {
  it('the grams of a fresh herb are not those of a dried one', async () => {
    const m = await monograph(
      `- {preparation: {kind: infusion, form: cut dried herb}, route: oral, single: 1-2 g, source: a}`,
    );
    expect(await outcomes(m, await taken('8 g', '1', { form: 'fresh' }))).toEqual([
      'not comparable: it counts the herb dried, and the formula weighs it fresh',
    ]);
  });

  it('nor the other way round, where a dried herb would look harmless', async () => {
    const m = await monograph(
      `- {preparation: {kind: infusion, form: fresh leaf}, route: oral, single: 10-20 g, source: a}`,
    );
    expect(await outcomes(m, await taken('15 g'))).toEqual([
      'not comparable: it counts the herb fresh, and the formula weighs it dried',
    ]);
    expect((await outcomes(m, await taken('15 g', '1', { form: 'fresh' })))[0]).toMatch(/^within/);
  });

  it('freshly ground is not fresh', async () => {
    const m = await monograph(
      `- {preparation: {kind: infusion, form: freshly comminuted dried fruit}, route: oral, single: 1-2 g, source: a}`,
    );
    expect((await outcomes(m, await taken('2 g')))[0]).toMatch(/^within/);
  });
});

describe('naming a use', () => {
  const USES = `
    - {use: sleep, ${TEA}, single: 2-3 g, source: a}
    - {use: mild-stress, ${TEA}, single: 1 g, source: a}
    - {${TEA}, single: up to 4 g, source: b}`;

  it('selects the customary entries for it, and those for no use in particular', async () => {
    const m = await monograph(USES);
    expect(await outcomes(m, await taken('3 g', '1', { use: 'sleep' }))).toEqual([
      'within: single 3 g beside 2 to 3 g',
      'within: single 3 g beside up to 4 g',
    ]);
    expect(await outcomes(m, await taken('3 g'))).toHaveLength(3);
  });

  it('never hides a safety limit of another use', async () => {
    const m = await monograph(`${USES}
    - {use: mild-stress, ${TEA}, single: up to 2.5 g, limit: safety, source: b}`);
    expect((await outcomes(m, await taken('3 g', '1', { use: 'sleep' }))).at(-1)).toBe(
      'above: single 3 g beside up to 2.5 g',
    );
  });

  it('that only another preparation is for selects nothing either', async () => {
    const m = await monograph(`${USES}
    - {use: joint-pain, preparation: {kind: tincture}, route: oral, single: 2 mL, of: preparation, source: a}`);
    const beside = await outcomes(m, await taken('3 g', '1', { use: 'joint-pain' }));
    expect(beside.filter((o) => !o.startsWith('not comparable'))).toHaveLength(3);
  });

  it('that no customary entry speaks of selects nothing', async () => {
    const m = await monograph(USES);
    expect(await outcomes(m, await taken('3 g', '1', { use: 'joint-pain' }))).toHaveLength(3);
    const limited = await monograph(`${USES}
    - {use: joint-pain, ${TEA}, single: up to 8 g, limit: safety, source: b}`);
    expect(await outcomes(limited, await taken('3 g', '1', { use: 'joint-pain' }))).toHaveLength(4);
  });
});
