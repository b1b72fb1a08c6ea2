import { describe, expect, it } from 'vitest';
import { type HerbDose, herbDoses } from '../../src/dosing/equivalents.ts';
import { byMass, byVolume, made, shown } from '../compounding/formula.ts';
import { monograph, outcomes } from './monograph.ts';

/** What is taken of trial-herb, alone or beside another, of a formula that is made by volume or by weight. */
async function dose(lines: string[], preparation: string, take: string, more = ''): Promise<HerbDose> {
  const asked = /blend/.test(preparation) ? byVolume('120 mL') : byMass('120 g');
  const batch = await made(
    `${more}
ingredients:
${lines.map((l) => `  - {${l}}`).join('\n')}
preparation: {${preparation}}
directions: {${take.includes('apply') ? take : `take: ${take}`}, times: 3}`,
    asked,
  );
  const found = herbDoses(batch).find((d) => d.herb === 'trial-herb');
  if (found === undefined) throw new Error('no dose');
  return found;
}

const TINCTURE = 'kind: tincture, ratio: 1:5 w/v, spirit: 45 % v/v, marc: pressed';
const tincture = (take: string, more: string[] = []) =>
  dose(['herb: trial-herb, parts: 1', ...more], TINCTURE, take);
const BOTTLE = 'herb: trial-herb, form: tincture, ratio: 1:5 w/v, spirit: 45 % v/v';
const blend = (take: string, line = BOTTLE) =>
  dose([`${line}, parts: 1`, 'vehicle: syrup, parts: 2'], 'kind: liquid-blend', take);

const IN_ML = `- {preparation: {kind: tincture, ratio: "1:5", solvent: ethanol 45 % v/v}, route: oral, single: 2-4 mL, of: preparation, source: a}`;

describe('a published dose in mL of a tincture', () => {
  it('is held against the mL of this one', async () => {
    const m = await monograph(IN_ML);
    expect(await outcomes(m, await tincture('3 mL'))).toEqual(['within: single 3 mL beside 2 to 4 mL']);
    expect(await outcomes(m, await tincture('5 mL'))).toEqual(['above: single 5 mL beside 2 to 4 mL']);
  });

  it('counts of a blend only what of it is this tincture', async () => {
    const m = await monograph(IN_ML);
    // A third of 6 mL and of 15 mL
    expect(await outcomes(m, await blend('6 mL'))).toEqual(['within: single 2 mL beside 2 to 4 mL']);
    expect(await outcomes(m, await blend('15 mL'))).toEqual(['above: single 5 mL beside 2 to 4 mL']);
  });

  it('speaks of no tincture that another herb was drawn in', async () => {
    const both = await tincture('3 mL', ['herb: other-herb, parts: 1']);
    expect(await outcomes(await monograph(IN_ML), both)).toEqual([
      'not comparable: it counts the finished preparation, not the herb',
    ]);
  });

  it('nor of one of fresh herb, of which a mL holds a fraction of the dried', async () => {
    const fresh = await dose(
      ['herb: trial-herb, form: fresh, moisture: 80 %, parts: 1'],
      'kind: fresh-tincture, ratio: 1:5 w/v, spirit: 45 % v/v, marc: pressed',
      '3 mL',
    );
    expect(await outcomes(await monograph(IN_ML), fresh)).toEqual([
      expect.stringMatching(/^not comparable: /),
    ]);
    const bottle = await blend('9 mL', `${BOTTLE}, of_fresh: yes, moisture: 80 %`);
    expect(await outcomes(await monograph(IN_ML), bottle)).toEqual([
      expect.stringMatching(/^not comparable: /),
    ]);
  });

  it('of fresh herb is not one of dried, which holds several times as much', async () => {
    const m = await monograph(IN_ML.replace('ratio:', 'form: fresh leaf, ratio:'));
    expect(await outcomes(m, await tincture('3 mL'))).toEqual([expect.stringMatching(/^not comparable: /)]);
  });
});

describe('a published dose in g of herb, as tincture', () => {
  const IN_GRAMS = `- {preparation: {kind: tincture}, route: oral, single: 0.5-1 g, of: herb, source: a}`;

  it('is held against the herb in it, by its ratio', async () => {
    const m = await monograph(IN_GRAMS);
    // 3 mL / 5 and 15 mL / 3 / 5
    expect(await outcomes(m, await tincture('3 mL'))).toEqual(['within: single 0.6 g beside 0.5 to 1 g']);
    expect(await outcomes(m, await blend('15 mL'))).toEqual(['within: single 1 g beside 0.5 to 1 g']);
    expect(await outcomes(m, await blend('15.3 mL'))).toEqual(['above: single 1.02 g beside 0.5 to 1 g']);
  });

  it('counts of fresh herb the dried that it comes to', async () => {
    const fresh = (moisture: string, take: string) =>
      dose(
        [`herb: trial-herb, form: fresh, moisture: ${moisture}, parts: 1`],
        'kind: fresh-tincture, ratio: 1:2 w/v, spirit: 95 % v/v, marc: pressed',
        take,
      );
    const m = await monograph(IN_GRAMS);
    // 5 mL: 2.5 g fresh x 20 / 88 = 0.568 g; of 70 to 80 % the driest: 2.5 x 30 / 88 = 0.852 g
    expect(await outcomes(m, await fresh('80 %', '5 mL'))).toEqual([
      'within: single 0.568 g beside 0.5 to 1 g',
    ]);
    expect(await outcomes(m, await fresh('70-80 %', '5 mL'))).toEqual([
      'within: single 0.852 g beside 0.5 to 1 g',
    ]);
    // 6 mL at 70 %: 3 x 30 / 88 = 1.023 g
    expect((await outcomes(m, await fresh('70-80 %', '6 mL')))[0]).toMatch(/^above: single 1\.02 g/);
  });

  it('that counts fresh herb takes the fresh as it was weighed', async () => {
    const m = await monograph(IN_GRAMS.replace('{kind: tincture}', '{kind: tincture, form: fresh leaf}'));
    const fresh = await dose(
      ['herb: trial-herb, form: fresh, moisture: 80 %, parts: 1'],
      'kind: fresh-tincture, ratio: 1:2 w/v, spirit: 95 % v/v, marc: pressed',
      '2 mL',
    );
    expect(await outcomes(m, fresh)).toEqual(['within: single 1 g beside 0.5 to 1 g']);
  });

  it('counts a bottle that was made of fresh herb by its moisture', async () => {
    const made2 = await blend('15 mL', `${BOTTLE}, of_fresh: yes, moisture: 80 %`);
    // 5 mL / 5 = 1 g fresh x 20 / 88 = 0.227 g
    expect([shown(made2.amounts?.single), shown(made2.dried?.single)]).toEqual(['1 g', '0.227 g']);
    expect(await outcomes(await monograph(IN_GRAMS), made2)).toEqual([
      'below: single 0.227 g beside 0.5 to 1 g',
    ]);
  });
});

describe('a published concentration', () => {
  const SKIN = 'route: cutaneous';
  const ointment = (percent: number) =>
    dose(
      [`herb: trial-herb, form: powder, percent: ${percent}`, 'vehicle: wool-fat, parts: 1'],
      'kind: ointment',
      'apply: thinly',
      SKIN,
    );

  it('in per cent is held against an ointment, though it has no dose', async () => {
    const m = await monograph(
      `- {preparation: {kind: ointment}, route: cutaneous, concentration: 2-10 %, source: a}`,
    );
    expect(await outcomes(m, await ointment(10))).toEqual([
      expect.stringMatching(/^within: concentration 10 %/),
    ]);
    expect(await outcomes(m, await ointment(12))).toEqual([
      expect.stringMatching(/^above: concentration 12 %/),
    ]);
  });

  it('in g to the litre is held against a bath by all of its water', async () => {
    const bath = (herb: string) =>
      dose(
        ['herb: trial-herb, parts: 1'],
        `kind: wash, for: bath, herb: ${herb}, water: 1 L, strained: 1 L, infuse: 15 min, into: 99 L`,
        'all of the pot',
      );
    const m = await monograph(
      `- {preparation: {kind: bath}, route: bath, concentration: 1-2 g/L, source: a}`,
    );
    // 100 g and 250 g in 100 L
    expect(await outcomes(m, await bath('100 g'))).toEqual([expect.stringMatching(/^within: concentration/)]);
    expect(await outcomes(m, await bath('250 g'))).toEqual([expect.stringMatching(/^above: concentration/)]);
    expect(await outcomes(m, await bath('90 g'))).toEqual([expect.stringMatching(/^below: concentration/)]);
  });

  it('of another route is none of this', async () => {
    const m = await monograph(
      `- {preparation: {kind: ointment}, route: oral, concentration: 2-10 %, source: a}`,
    );
    expect(await outcomes(m, await ointment(10))).toEqual([]);
  });
});
