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

describe('what a kind has to be told, at the line and the column of what is wrong', () => {
  const FRESH = '{herb: sage-leaf, form: fresh, moisture: 80 %, parts: 1}';
  /** The first line of a formula that holds the words, as the file is put together above. */
  const place = (line: 3 | 4, text: string, words: string): string => {
    const start = line === 3 ? 'ingredients: [' : 'preparation: {';
    if (!text.includes(words)) throw new Error(`"${words}" is not in the line`);
    return `f:${line}:${start.length + text.indexOf(words) + 1}: `;
  };

  it.each([
    ['kind: tincture, ratio: 1:5, spirit: 45 % v/v', 'ratio', '"1:5" lacks its basis'],
    ['kind: tincture, ratio: 1:5 w/v, spirit: 120 % v/v', 'spirit', '"120 % v/v" is above 100 %'],
    ['kind: capsule, size: "0"', 'size', 'what does one capsule hold?'],
    ['kind: capsule, size: "0", holds: 300 mg, density: 0.6 g/mL', 'size', 'what does one capsule hold?'],
    ['kind: wash, for: bath, herb: 10 g, water: 1 L', 'kind', 'a wash is infused or boiled'],
    [
      'kind: wash, for: bath, herb: 10 g, water: 1 L, infuse: 10 min, boil: 10 min',
      'kind',
      'a wash is infused or boiled',
    ],
    [
      'kind: syrup, by: infusion, herb: 10 g, water: 1 L, sugar: 65 % m/m',
      'sugar',
      'the sugar is weighed for the strained liquid',
    ],
    [
      'kind: syrup, by: infusion, herb: 10 g, water: 1 L, strained: 900 mL, sugar: 85 % w/v',
      'sugar',
      '"85 % w/v" is in % w/v: here it is % m/m',
    ],
    [
      'kind: suppository, mould: 2 g, base: cocoa-butter, each: 200 mg, displacement: 0.2',
      'displacement',
      'a displacement of "0.2" is the g of base that 1 g of herb displaces',
    ],
    ['kind: oxymel, ratio: 1:8 w/w, honey: 80 %, acid: 5 %', 'acid', '"5 %" lacks its basis'],
  ])('%s: at %s', async (preparation, key, says) => {
    const [problem, ...more] = await told(SAGE, preparation);
    expect(more).toEqual([]);
    expect(problem?.startsWith(place(4, preparation, key) + says), problem).toBe(true);
  });

  it.each([
    ['kind: fresh-tincture, ratio: 1:2 w/v'],
    ['kind: fresh-tincture, ratio: 1:2 w/v, spirit: 95 % v/v, target: 60 % v/v'],
  ])('a fresh tincture has spirit or target, and not both: %s', async (preparation) => {
    expect(await told(FRESH, preparation)).toEqual([
      'f:4:15: write spirit: for the strength that is poured on, or target: for the strength to end at',
    ]);
  });

  it.each([
    [SAGE, 'kind: liquid-blend', 'herb: sage', 'sage-leaf is poured here: say what it stands in'],
    [SAGE, 'kind: fresh-tincture, ratio: 1:2 w/v, spirit: 95 % v/v', 'herb', 'a fresh-tincture is made from'],
    [
      '{herb: sage-leaf, moisture: 80 %, parts: 1}',
      'kind: tincture, ratio: 1:5 w/v, spirit: 45 % v/v',
      'moisture',
      'moisture is that of fresh herb',
    ],
    [
      '{herb: sage-leaf, ratio: 1:5 w/v, parts: 1}',
      'kind: tincture, ratio: 1:5 w/v, spirit: 45 % v/v',
      'ratio',
      'sage-leaf is weighed as the herb itself',
    ],
    [
      TINCTURE.replace('parts', 'of_fresh: yes, parts'),
      'kind: liquid-blend',
      'of_fresh',
      'how much water did the fresh sage-leaf hold?',
    ],
    [
      TINCTURE.replace('parts: 1', 'amount: 10 g'),
      'kind: liquid-blend',
      'amount',
      'sage-leaf is weighed in a formula made by volume: add its density',
    ],
    [
      `${SAGE}, {vehicle: syrup, parts: 1}`,
      'kind: tincture, ratio: 1:5 w/v, spirit: 45 % v/v',
      'vehicle',
      'syrup is no herb',
    ],
    [
      '{vehicle: syrup, ratio: 1:5 w/v, parts: 1}',
      'kind: liquid-blend',
      'ratio',
      'syrup is a vehicle, which has no ratio',
    ],
  ])('%s for %s: at %s', async (ingredients, preparation, key, says) => {
    const [problem, ...more] = await told(ingredients, preparation);
    expect(more).toEqual([]);
    expect(problem?.startsWith(place(3, ingredients, key) + says), problem).toBe(true);
  });

  it('a blend is no batch by weight, and has no share of a pot', async () => {
    expect(await told(TINCTURE, 'kind: liquid-blend', 'makes: 100 g')).toEqual([
      'f:5:1: this formula is made by volume: write such as 100 mL',
    ]);
    expect(
      await told(TINCTURE, 'kind: liquid-blend', 'directions: {take: 1/3 of the batch, times: 3}'),
    ).toEqual([expect.stringMatching(/^f:5:14: a share of the batch fits a pot of tea/)]);
  });
});
