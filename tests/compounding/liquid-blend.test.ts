import { describe, expect, it } from 'vitest';
import {
  byDays,
  byDoses,
  byHave,
  byMass,
  byVolume,
  finer,
  made,
  method,
  q,
  refused,
  shown,
  weights,
} from './formula.ts';
import { figure, limits, product, single } from './product.ts';

const blend = (lines: string, more = ''): string => `
ingredients:
${lines.trim().replace(/^ */gm, '  ')}
preparation: {kind: liquid-blend${more}}
directions: {take: 5 mL, times: 3, for: 7 days}`;

const WEAK = blend(`
- {herb: thyme-herb, form: liquid-extract, ratio: 1:1 w/v, spirit: 25 % v/v, parts: 70}
- {vehicle: syrup, parts: 30}`);

const THREE = blend(`
- {herb: valerian-root, form: tincture, ratio: 1:5 w/v, spirit: 70 % v/v, parts: 1}
- {herb: lemon-balm-leaf, form: tincture, ratio: 1:5 w/v, spirit: 45 % v/v, parts: 1}
- {herb: ginger-rhizome, form: liquid-extract, ratio: 1:2 w/v, spirit: 60 % v/v, parts: 1}`);

describe('the strength of a blend', () => {
  it('of 70 mL at 25 % with 30 mL of syrup is 17.5 %', async () => {
    // (70 x 25 + 30 x 0) / 100
    expect(shown(product(await made(WEAK, byVolume('100 mL'))).strength as never)).toBe('17.5 % v/v');
  });

  // University of North Carolina, Preservation (15 % in slightly acid, 18 % in neutral liquids); Belgian pharmacy
  // compounding reference, Preservatives (15 % by mass). 17.5 % v/v is 14.2 % m/m (OIML R 22: 17.5 x 789.24 / 976).
  it('and it is that by which it is judged: 15 % v/v is met, 18 % v/v and 15 % m/m are not', async () => {
    const batch = await made(WEAK, byVolume('100 mL'));
    expect(limits(batch).slice(0, 3)).toEqual([
      'ethanol 17.5 % v/v, at least 15 % v/v: met',
      'ethanol 17.5 % v/v, at least 18 % v/v: not met',
      expect.stringMatching(/^ethanol 14\.1\d % m\/m, at least 15 % m\/m: not met$/),
    ]);
    expect(batch.keeping.keeps).toBe('by some sources');
  });

  it('of 80 mL with 20 mL of syrup is 20 %, which every source takes to keep', async () => {
    const stronger = await made(WEAK.replace('parts: 70', 'parts: 80').replace('parts: 30', 'parts: 20'));
    expect([stronger.keeping.keeps, stronger.keeping.time]).toEqual(['by itself', null]);
  });

  it('of three tinctures alike is their mean', async () => {
    // (70 + 45 + 60) / 3 = 58.333 % of what is meant; poured are 33, 33 and 34 mL of 100.
    const { strength } = product(await made(THREE, byVolume('300 mL')));
    expect(figure(strength)).toBeCloseTo(175 / 3, 12);
  });

  it('counts a strength by mass as what it is by volume', async () => {
    // OIML R 22, table IVb: 62.39 % m/m is 70 % v/v.
    const byMass = THREE.replace('70 % v/v', '62.39 % m/m');
    expect(figure(product(await made(byMass, byVolume('300 mL'))).strength)).toBeCloseTo(175 / 3, 2);
  });

  it('is none where nothing in it holds ethanol', async () => {
    const sweet = blend(`
      - {herb: lemon-balm-leaf, form: glycerite, ratio: 1:5 w/v, glycerol: 65 % v/v, parts: 1}
      - {vehicle: glycerol, parts: 1}`);
    const { strength, ethanol } = product(await made(sweet, byVolume('100 mL')));
    expect([strength, ethanol]).toEqual([null, null]);
  });
});

describe('pouring', () => {
  it('to a cylinder with a line for each mL, the lines adding up to the batch', async () => {
    const batch = await made(THREE, byVolume('100 mL'));
    // 33 1/3 mL each; the mL that is left goes to the first by name.
    expect(weights(batch)).toEqual({
      'valerian-root': '33 mL',
      'lemon-balm-leaf': '33 mL',
      'ginger-rhizome': '34 mL',
    });
    expect([shown(batch.total), batch.lineUnit.symbol]).toEqual(['100 mL', 'mL']);
  });

  it('marks what is too little for the cylinder: 0.5 mL off is 5 % of 10 mL', async () => {
    const small = THREE.replace(/parts: 1}$/m, 'parts: 12}');
    const batch = await made(small, byVolume('60 mL'));
    expect(batch.lines.map((l) => [l.key, shown(l.weigh), shown(l.tooSmall?.least)])).toEqual([
      ['valerian-root', '52 mL', 'none'],
      ['lemon-balm-leaf', '4 mL', '10 mL'],
      ['ginger-rhizome', '4 mL', '10 mL'],
    ]);
    // A liquid is not triturated.
    expect(batch.lines[1]?.tooSmall?.trituration).toBeNull();
  });

  it('fills the bottle that the formula names, else what is asked for', async () => {
    const bottled = blend(
      THREE.split('\n')
        .filter((l) => l.includes('- {'))
        .join('\n'),
      ', bottle: 90 mL',
    );
    expect(shown((await made(bottled)).total)).toBe('90 mL');
    expect(shown((await made(bottled, byVolume('200 mL'))).total)).toBe('200 mL');
    // A finer balance is not a finer cylinder.
    expect(shown((await made(THREE, byVolume('100 mL'), finer('0.01 g'))).lines[0]?.weigh)).toBe('33 mL');
  });

  it('is enough for as long as is asked, and as much as what is in hand allows', async () => {
    expect(shown((await made(THREE, byDays('7 days'))).total)).toBe('105 mL');
    expect(shown((await made(THREE, byDoses('7 doses'))).total)).toBe('35 mL');
    // 20 mL x 3
    expect(shown((await made(THREE, byHave({ 'valerian-root': '20 mL' }))).total)).toBe('60 mL');
    expect(await refused(THREE, byHave({ 'valerian-root': '20 g' }))).toMatch(/made by volume.*40 mL$/);
    expect(await refused(THREE, { by: 'count', count: q('10 capsules') })).toMatch(/^this makes no capsules/);
    expect(await refused(THREE, byMass('100 g'))).toMatch(/^this is poured by volume/);
  });
});

describe('100 mL at 5 mL three times a day', () => {
  it('last 6 full days with 10 mL over; 7 days need 105 mL, which the bottle of 150 mL is the smallest to hold', async () => {
    const { supply } = await made(THREE, byVolume('100 mL'));
    // 15 mL a day; 100 - 6 x 15 = 10; 100 / 5 = 20 doses
    expect([supply?.perDay, supply?.days, supply?.over, supply?.doses].map(shown)).toEqual([
      '15 mL',
      '6 days',
      '10 mL',
      '20 doses',
    ]);
    expect([shown(supply?.course?.needs), shown(supply?.course?.bottle)]).toEqual(['105 mL', '150 mL']);
  });

  it('of a course that just fills a bottle it is that bottle, and above the largest there is none', async () => {
    const of = async (course: string) =>
      shown((await made(THREE.replace('7 days', course))).supply?.course?.bottle);
    expect(await of('10 days')).toBe('150 mL');
    expect(await of('2 days')).toBe('30 mL');
    expect(await of('67 days')).toBe('none');
  });
});

describe('herb in a dose of a blend', () => {
  it('is counted by the ratio of each liquid', async () => {
    // 5 mL hold 5/3 mL of each: / 5 = 0.3333 g, / 5, and / 2 = 0.8333 g.
    expect(single(await made(THREE, byVolume('300 mL')))).toEqual({
      'valerian-root': '0.333 g',
      'lemon-balm-leaf': '0.333 g',
      'ginger-rhizome': '0.833 g',
    });
    // 3.5 mL of a 1:1 extract is 3.5 g.
    expect(single(await made(WEAK, byVolume('100 mL')))).toEqual({ 'thyme-herb': '3.5 g' });
  });
});

describe('strengths that stand far apart', () => {
  it('may let a sediment fall, which is said from 30 % apart on', async () => {
    const said = async (yaml: string) => method(await made(yaml, byVolume('100 mL'))).length;
    const apart = (spirit: string) => said(THREE.replace('45 % v/v', spirit));
    expect([await apart('41 % v/v'), await apart('40 % v/v')]).toEqual([1, 2]);
    expect(method(await made(THREE.replace('45 % v/v', '25 % v/v'), byVolume('100 mL')))[0]).toMatch(
      /^Strengths from 25 % v\/v to 70 % v\/v meet: a sediment may fall/,
    );
  });
});
