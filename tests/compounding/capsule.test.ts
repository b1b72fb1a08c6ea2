// University of North Carolina, Hard gelatin capsules: a shell of size 0 holds 0.68 mL, of size 2 0.37 mL.
import { describe, expect, it } from 'vitest';
import { byDays, byMass, byVolume, made, method, q, refused, shown } from './formula.ts';
import { herbDose, product } from './product.ts';

const capsules = (more: string, take = '2 capsules'): string => `
ingredients: [{herb: ginger-rhizome, form: powder, parts: 3}, {herb: lemon-balm-leaf, form: powder, parts: 1}]
preparation: {kind: capsule, ${more}}
directions: {take: ${take}, times: 2, for: 3 days}`;

const one = (yaml: string): string =>
  yaml.replace(/ingredients.*/, 'ingredients: [{herb: ginger-rhizome, form: powder, parts: 1}]');

describe('capsules', () => {
  const WEIGHED = capsules('size: "2", holds: 250 mg');

  it('hold what some were found to hold, shared by the parts', async () => {
    const batch = await made(WEIGHED, byMass('10 g'));
    expect(shown(product(batch).makes)).toBe('40 capsules');
    // 2 x 250 mg = 500 mg, three quarters of it ginger
    expect(shown(herbDose(await made(one(WEIGHED), byMass('10 g'))).amounts?.single)).toBe('0.5 g');
    expect(shown(batch.taking?.herb)).toBe('0.5 g');
  });

  it('hold the volume of their shell of a powder of this density', async () => {
    const batch = await made(capsules('size: "0", density: 0.6 g/mL'), byMass('40.8 g'));
    // 0.68 mL x 0.6 = 0.408 g; 40.8 / 0.408 = 100
    expect(product(batch).facts.map((f) => shown(f.value as never))).toEqual(['0.408 g']);
    expect(shown(product(batch).makes)).toBe('100 capsules');
    const perLitre = await made(capsules('size: "0", density: 600 g/L'), byMass('40.8 g'));
    expect(shown(product(perLitre).makes)).toBe('100 capsules');
  });

  it('are counted whole: what does not fill one is over', async () => {
    const { supply, making } = await made(capsules('size: "1", holds: 325 mg'), byMass('10 g'));
    // 10 / 0.325 = 30.77; 4 a day: 7 days of 28, 2 over; 15 doses of 2
    expect([supply?.inHand, supply?.days, supply?.over, supply?.doses].map(shown)).toEqual([
      '30 capsules',
      '7 days',
      '2 capsules',
      '15 doses',
    ]);
    expect(
      making.method
        .at(-1)
        ?.slice(0, 2)
        .map((p) => (typeof p === 'string' ? p : shown(p as never))),
    ).toEqual(['Fill', '30 capsules']);
    // A bottle is for liquids.
    expect([shown(supply?.course?.needs), supply?.course?.bottle]).toEqual(['12 capsules', null]);
  });

  it('by number and by days take the powder that they need', async () => {
    expect(shown((await made(WEIGHED, { by: 'count', count: q('100 capsules') })).total)).toBe('25 g');
    expect(shown((await made(WEIGHED, byDays('3 days'))).total)).toBe('3 g');
    expect(shown((await made(WEIGHED)).total)).toBe('3 g');
    // 7 x 325 mg = 2.275 g, to the next 0.1 g, so that the seventh is full.
    const seven = await made(capsules('size: "1", holds: 325 mg'), { by: 'count', count: q('7 capsules') });
    expect([shown(seven.total), shown(seven.supply?.inHand)]).toEqual(['2.3 g', '7 capsules']);
  });

  it('of a size that is not in the table are refused, and so is a volume of them', async () => {
    expect(await refused(capsules('size: "6", holds: 250 mg'))).toBe(
      'there is no capsule of size 6: write one of 000, 00, 0, 1, 2, 3, 4, 5',
    );
    expect(await refused(WEIGHED, byVolume('100 mL'))).toMatch(/^this is weighed, not measured/);
    expect(await refused(WEIGHED, { by: 'count', count: q('3 suppositories') })).toMatch(
      /^this makes no suppositories/,
    );
  });

  it('are filled with herb that was ground whole and mixed by doubling', async () => {
    expect(
      method(await made(capsules('size: "2", holds: 250 mg, sieve: 355 micrometres'))).slice(0, 2),
    ).toEqual([
      'Grind each herb, pass it through the sieve (355 micrometres), grind what stays behind and mix it back.',
      'Mix the smallest amount first with an equal bulk of another, then double up until all is in.',
    ]);
  });
});
