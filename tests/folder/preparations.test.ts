import { describe, expect, it } from 'vitest';
import { writeProblem } from '../../src/folder/problem.ts';
import { readText } from '../../src/folder/read.ts';

/** What a formula file says of its preparation, and what is said of it where that cannot be. */
async function told(ingredients: string, preparation: string, more = ''): Promise<string[]> {
  const text = `formula: trial\ntitle: Trial\ningredients: [${ingredients}]\npreparation: {${preparation}}\n${more}`;
  const read = await readText('formula', text, 'f', null, 'none');
  return read.ok ? [] : read.why.map((p) => writeProblem(p).split('\n')[0] as string);
}

const SAGE = '{herb: sage-leaf, parts: 1}';
const TINCTURE = '{herb: sage-leaf, form: tincture, ratio: 1:5 w/v, spirit: 45 % v/v, parts: 1}';

describe('a ratio', () => {
  it.each([
    ['1:5', /"1:5" lacks its basis: write 1:5 w\/v \(g of herb in mL\) or 1:5 w\/w \(g in g\)/],
    ['strong', /"strong" is not a ratio/],
    ['1:4-5 w/v', /has a range in it/],
    ['0:5 w/v', /each side needs figures above 0/],
  ])('%s is refused in words', async (ratio, says) => {
    expect(await told(SAGE, `kind: tincture, ratio: ${ratio}, spirit: 45 % v/v`)).toEqual([
      expect.stringMatching(says),
    ]);
  });

  it('by volume and by weight is read', async () => {
    for (const basis of ['w/v', 'w/w', 'W/V'])
      expect(await told(SAGE, `kind: tincture, ratio: 1:5 ${basis}, spirit: 45 % v/v`)).toEqual([]);
  });
});

describe('a strength', () => {
  it.each([
    ['45 %', /lacks its basis/],
    ['120 % v/v', /is above 100 %/],
    ['0 % v/v', /must be above 0/],
    ['45 % w/v', /here it is % v\/v or % m\/m/],
  ])('%s is refused in words', async (spirit, says) => {
    expect(await told(SAGE, `kind: tincture, ratio: 1:5 w/v, spirit: ${spirit}`)).toEqual([
      expect.stringMatching(says),
    ]);
  });
});

describe('the moisture of fresh herb', () => {
  const fresh = (moisture: string) =>
    told(
      `{herb: sage-leaf, form: fresh, ${moisture}parts: 1}`,
      'kind: fresh-tincture, ratio: 1:2 w/v, spirit: 96 % v/v',
    );

  it.each([
    ['moisture: 1.2, ', /"1.2" has no unit/],
    ['moisture: 120 %, ', /write from 0 to below 100 %/],
    ['moisture: up to 80 %, ', /open at one end/],
    ['', /how much water does the fresh sage-leaf hold/],
  ])('%s is refused, once', async (moisture, says) => {
    expect(await fresh(moisture)).toEqual([expect.stringMatching(says)]);
  });

  it('is one figure or a range', async () => {
    expect(await fresh('moisture: 78 %, ')).toEqual([]);
    expect(await fresh('moisture: 75-80 % m/m, ')).toEqual([]);
  });
});

describe('what stands on the shelf', () => {
  it('says how strong it is', async () => {
    expect(await told('{herb: sage-leaf, form: tincture, parts: 1}', 'kind: liquid-blend')).toEqual([
      expect.stringMatching(/how strong is the tincture of sage-leaf/),
      expect.stringMatching(/what spirit is the tincture of sage-leaf made with/),
    ]);
  });

  it('is not what a tincture is made from, and a herb itself is not poured', async () => {
    expect(await told(TINCTURE, 'kind: tincture, ratio: 1:5 w/v, spirit: 45 % v/v')).toEqual([
      expect.stringMatching(/a tincture is made from the herb itself/),
    ]);
    expect(await told(SAGE, 'kind: liquid-blend')).toEqual([
      expect.stringMatching(/sage-leaf is poured here: say what it stands in/),
    ]);
  });

  it('is a herb or a vehicle, never both and never neither', async () => {
    expect(await told('{herb: sage-leaf, vehicle: syrup, parts: 1}', 'kind: ointment')).toEqual([
      expect.stringMatching(/is a herb or a vehicle/),
    ]);
    expect(await told('{parts: 1}', 'kind: ointment')).toEqual([expect.stringMatching(/which herb\?/)]);
  });
});

describe('how it is taken', () => {
  const of = (kind: string, take: string) => told(TINCTURE, kind, `directions: {take: ${take}, times: 3}`);

  it('a drop has no size of its own', async () => {
    expect(await of('kind: liquid-blend', '20 drops')).toEqual([
      expect.stringMatching(/a drop has no size of its own: make it a preparation of kind: drops/),
    ]);
    expect(await of('kind: drops, drops_per_ml: 35 drops/mL', '20 drops')).toEqual([]);
  });

  it('by the measure of its kind', async () => {
    expect(await of('kind: liquid-blend', '5 g')).toEqual([expect.stringMatching(/measured by volume/)]);
    const capsule = 'kind: capsule, size: "0", holds: 300 mg';
    const powder = '{herb: sage-leaf, form: powder, parts: 1}';
    expect(await told(powder, capsule, 'directions: {take: 2 tablets, times: 3}')).toEqual([
      expect.stringMatching(/capsules are counted/),
    ]);
    expect(await told(powder, capsule, 'directions: {take: 2 capsules, times: 3}')).toEqual([]);
  });

  it('on the skin without measure, and never so by mouth', async () => {
    const balm =
      '{herb: sage-leaf, form: infused-oil, ratio: 1:5 w/w, parts: 4}, {vehicle: beeswax, parts: 1}';
    const apply = 'directions: {apply: thinly, times: 2}';
    expect(await told(balm, 'kind: ointment', `route: cutaneous\n${apply}`)).toEqual([]);
    expect(await told(balm, 'kind: ointment', apply)).toEqual([
      expect.stringMatching(/apply is for the skin/),
    ]);
  });
});
