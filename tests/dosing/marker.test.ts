import { describe, expect, it } from 'vitest';
import { compare } from '../../src/dosing/compare.ts';
import { writeProblem } from '../../src/folder/problem.ts';
import { readDocument } from '../../src/folder/read.ts';
import { workingOf } from '../../src/measure/figure.ts';
import { write } from '../../src/measure/write.ts';
import { ADULT, monograph, outcomes, taken } from './monograph.ts';

const SENNOSIDES = 'hydroxyanthracene glycosides as sennoside B';
const TEA = 'preparation: {kind: infusion}, route: oral';
const LIMIT = `- {${TEA}, daily: up to 30 mg, of: ${SENNOSIDES}, limit: safety, source: b}`;
const content = (...stated: string[]): string =>
  `constituents:\n${stated.map((s) => `  - {name: ${SENNOSIDES}, content: ${s}, source: a}`).join('\n')}`;

// Ph. Eur., Sennae folium (10th edition, 2020): at least 2.5 % of hydroxyanthracene glycosides, as sennoside B.
// Germany, standard marketing authorisation, Senna leaf tea: not more than 30 mg a day.
describe('a constituent of which only a least content was read', () => {
  it('1.3 g of senna leaf hold at least 32.5 mg, which surely breaks 30 mg a day', async () => {
    const m = await monograph(LIMIT, content('at least 2.5 % m/m'));
    expect(await outcomes(m, await taken('1.3 g'))).toEqual(['above: daily 32.5 mg beside up to 30 mg']);
  });

  it('1.2 g hold at least just 30 mg, and how much more cannot be bounded', async () => {
    const m = await monograph(LIMIT, content('at least 2.5 % m/m'));
    expect(await outcomes(m, await taken('1.2 g'))).toEqual([
      `not comparable: it counts ${SENNOSIDES}, and only a least content was read: the intake cannot be bounded`,
    ]);
  });

  it('says where the content stands, so that the sum can be followed', async () => {
    const m = await monograph(LIMIT, content('at least 2.5 % m/m'));
    const [c] = compare(m, await taken('1.3 g'), ADULT);
    const line = workingOf(c ? c.against.map((a) => a.dose) : []).find((w) =>
      w.says.startsWith('content of the herb'),
    );
    expect([line?.result, line?.source?.body]).toEqual(['2.5 % m/m', 'First body']);
  });
});

describe('a constituent whose content is a range', () => {
  it('is within where even the most is, above where even the least is', async () => {
    const m = await monograph(LIMIT, content('2.5-3 % m/m'));
    expect(await outcomes(m, await taken('1 g'))).toEqual(['within: daily 30 mg beside up to 30 mg']);
    expect(await outcomes(m, await taken('1.3 g'))).toEqual(['above: daily 32.5 mg beside up to 30 mg']);
  });

  it('on both sides of the limit it is neither, and says so', async () => {
    const m = await monograph(LIMIT, content('2.5-3 % m/m'));
    expect((await outcomes(m, await taken('1.1 g')))[0]).toMatch(
      /^not comparable: .*cannot be bounded closely enough$/,
    );
  });

  it('below a range it is below, by the most that it may hold', async () => {
    const m = await monograph(
      `- {${TEA}, daily: 60-120 mg, of: ${SENNOSIDES}, source: a}`,
      content('1-1.5 % m/m'),
    );
    expect(await outcomes(m, await taken('3 g'))).toEqual(['below: daily 45 mg beside 60 to 120 mg']);
    expect(await outcomes(m, await taken('8 g'))).toEqual(['within: daily 120 mg beside 60 to 120 mg']);
  });

  it('a figure without a top can be missed, but not passed', async () => {
    const m = await monograph(
      `- {${TEA}, daily: at least 60 mg, of: ${SENNOSIDES}, source: a}`,
      content('1-1.5 % m/m'),
    );
    expect(await outcomes(m, await taken('3 g'))).toEqual(['below: daily 45 mg beside at least 60 mg']);
    expect(await outcomes(m, await taken('50 g'))).toEqual(['within: daily 500 mg beside at least 60 mg']);
    expect((await outcomes(m, await taken('5 g')))[0]).toMatch(/cannot be bounded/);
  });
});

describe('contents that several sources state', () => {
  it('in different measures are one content: % m/m and mg/g', async () => {
    const m = await monograph(LIMIT, content('25-27.5 mg/g'));
    expect(await outcomes(m, await taken('1 g'))).toEqual(['within: daily 27.5 mg beside up to 30 mg']);
    const both = await monograph(LIMIT, content('at least 2.5 % m/m', '25-27.5 mg/g'));
    expect(await outcomes(both, await taken('1.3 g'))).toEqual(['above: daily 32.5 mg beside up to 30 mg']);
  });

  it('count at their widest: the lowest decides what is surely above, the highest what is within', async () => {
    const m = await monograph(LIMIT, content('1-2 % m/m', '2-4 % m/m'));
    expect((await outcomes(m, await taken('1 g')))[0]).toMatch(/cannot be bounded/);
    expect(await outcomes(m, await taken('3.1 g'))).toEqual(['above: daily 31 mg beside up to 30 mg']);
    expect(await outcomes(m, await taken('0.7 g'))).toEqual(['within: daily 28 mg beside up to 30 mg']);
  });

  it('an end that one of them leaves open is open', async () => {
    const m = await monograph(LIMIT, content('at least 2.5 % m/m', '2-2.5 % m/m'));
    expect((await outcomes(m, await taken('0.5 g')))[0]).toMatch(/only a least content was read/);
  });
});

describe('what a content can be set against', () => {
  it('essential oil by volume is set against a volume, never against a weight', async () => {
    const oil = 'constituents:\n  - {name: essential oil, content: 10-20 mL/kg, source: a}';
    const volume = await monograph(`- {${TEA}, daily: up to 0.1 mL, of: essential oil, source: a}`, oil);
    expect(await outcomes(volume, await taken('5 g'))).toEqual(['within: daily 0.1 mL beside up to 0.1 mL']);
    const weight = await monograph(`- {${TEA}, daily: up to 0.1 g, of: essential oil, source: a}`, oil);
    expect((await outcomes(weight, await taken('5 g')))[0]).toMatch(
      /no content was read in a measure that this figure can be set against/,
    );
  });

  it('a content of the oil is no content of the herb, and none read is not none there', async () => {
    const inOil = 'constituents:\n  - {name: thujone, content: 10-60 %, in: essential oil, source: a}';
    const m = await monograph(`- {${TEA}, daily: up to 6 mg, of: thujone, limit: safety, source: a}`, inOil);
    expect(await outcomes(m, await taken('5 g'))).toEqual([
      'not comparable: it counts thujone, and how much of it the herb holds was not read',
    ]);
  });

  it('any preparation of the herb counts for the constituent', async () => {
    const any = `- {preparation: {kind: [dry-extract, other]}, route: oral, daily: up to 30 mg, of: ${SENNOSIDES}, source: a}`;
    const m = await monograph(any, content('2.5-3 % m/m'));
    expect((await outcomes(m, await taken('1.3 g')))[0]).toMatch(/^above/);
    const extract = await monograph(any.replace(', other', ''), content('2.5-3 % m/m'));
    expect(await outcomes(extract, await taken('1.3 g'))).toEqual([
      'not comparable: it is for the dry-extract',
    ]);
  });

  it('how often it is taken does not hang on the content', async () => {
    const often = `- {${TEA}, daily: up to 30 mg, of: ${SENNOSIDES}, times: 1, times_a_week: 2-3, source: a}`;
    const m = await monograph(often, content('at least 2.5 % m/m'));
    expect(await outcomes(m, await taken('0.5 g', '1'))).toEqual([
      'above: times a week 7 times beside 2 to 3 times',
    ]);
    expect((await outcomes(m, await taken('0.5 g', '1', { week: '3' })))[0]).toMatch(/cannot be bounded$/);
  });
});

describe('the senna monograph as it is shipped', () => {
  it('1.3 g of leaf a day break every limit of 30 mg, by contents in % m/m and in mg/g', async () => {
    const path = 'monographs/senna-leaf.yaml';
    const read = await readDocument('monograph', path, path);
    if (!read.ok) throw new Error(read.why.map(writeProblem).join('\n'));
    const markers = compare(read.value.value, await taken('1.3 g'), ADULT).filter(
      (c) => c.entry.of === SENNOSIDES,
    );
    const limits = markers.flatMap((c) => c.against.filter((a) => a.measure === 'daily'));
    expect(limits.map((a) => `${a.outcome} ${write(a.dose.value)}`)).toEqual(
      limits.map(() => 'above 32.5 mg'),
    );
    expect(limits.length).toBeGreaterThanOrEqual(4);
  });
});
