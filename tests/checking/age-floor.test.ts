import { describe, expect, it } from 'vitest';
import { says, WELL, WOMAN } from './judge.ts';
import { finds, herb, levels, tea, teaOf } from './small.ts';

const born = (date: string) => ({ ...WELL, born: date });
/** On 2 May 2026. */
const TODDLER = born('2024-09-01');
const THREE = born('2023-01-10');
const ELEVEN = born('2014-05-03');
const TWELVE = born('2014-05-02');
const FIFTEEN = born('2011-01-01');

const under = (floors: string, person: Record<string, string>, keys: Record<string, string> = {}) =>
  finds('age-floor', { person, files: { ...herb({ ages: floors }), ...tea(keys) } });

describe('the rule on age floors', () => {
  it('fires for willow bark at 15, and is quiet for chamomile tea at 3', async () => {
    const willow = await finds('age-floor', { formula: 'stiff-joints', person: FIFTEEN });
    expect(willow.find((f) => f.herb === 'willow-bark')?.level).toBe('withhold');
    expect(await finds('age-floor', { person: THREE, files: teaOf('chamomile-flower') })).toEqual([]);
  });

  it('withholds under every floor, and decides where all of them rest on want of data', async () => {
    const both = (one: string, other: string) =>
      `[{not_under: 12 years, because: ${one}, source: a}, {not_under: 6 years, because: ${other}, source: b}]`;
    expect(levels(await under(both('no-data', 'contraindicated'), TODDLER))).toEqual(['withhold']);
    expect(levels(await under(both('no-data', 'no-data'), TODDLER))).toEqual(['decide']);
  });

  it('decides under one of two floors, and says which source allows it', async () => {
    const floors =
      '[{not_under: 12 years, because: contraindicated, source: a}, {not_under: 2 years, because: reason-not-read, source: b}]';
    const [f] = await under(floors, THREE);
    expect(f?.level).toBe('decide');
    expect(says(f)).toContain('Body A: not under 12 years (contraindicated); but Body B: from 2 years');
  });

  it('counts the birthday itself as reached, and the day before not', async () => {
    const floor = '[{not_under: 12 years, because: contraindicated, source: a}]';
    expect(await under(floor, TWELVE)).toEqual([]);
    expect(levels(await under(floor, ELEVEN))).toEqual(['withhold']);
  });

  it('asks for the day where a month of birth straddles a limit', async () => {
    const [f] = await under('[{not_under: 12 years, because: contraindicated, source: a}]', born('2014-05'));
    expect(f).toMatchObject({ level: 'ask', id: 'age-floor/test-herb/birth' });
    expect(says(f)).toContain('on which day were they born?');
  });

  it('asks for the day beside a decision that the day could make graver, and not beside a refusal', async () => {
    const open = '{not_under: 12 years, because: contraindicated, source: b}';
    const decided = await under(`[{not_under: 18 years, because: x, source: a}, ${open}]`, born('2014-05'));
    expect(levels(decided).sort()).toEqual(['ask', 'decide']);
    const refused = await under(
      `[{not_under: 18 years, because: x, source: a}, ${open.replace('source: b', 'source: a')}]`,
      born('2014-05'),
    );
    expect(levels(refused)).toEqual(['withhold']);
  });

  it('asks for the day where only the bands of a dose are straddled', async () => {
    const doses =
      '[{preparation: {kind: infusion}, route: oral, ages: 6-12 years, single: 1 g, source: a}, {preparation: {kind: infusion}, route: oral, ages: 12+ years, single: 2 g, source: a}]';
    const files = { ...herb({ doses }), ...tea() };
    expect(levels(await finds('age-floor', { person: born('2014-05'), files }))).toEqual(['ask']);
    expect(await finds('age-floor', { person: TWELVE, files })).toEqual([]);
  });

  it('keeps a floor to its preparation, route and use; where a formula names no use, to any use', async () => {
    const floor = (limit: string) => `[{not_under: 18 years, ${limit}, because: x, source: a}]`;
    expect(await under(floor('preparation: powder'), TODDLER)).toEqual([]);
    expect(await under(floor('route: cutaneous'), TODDLER)).toEqual([]);
    expect(await under(floor('use: sleep'), TODDLER, { use: 'fever' })).toEqual([]);
    expect(levels(await under(floor('use: sleep'), TODDLER, { use: 'sleep' }))).toEqual(['withhold']);
    expect(levels(await under(floor('use: sleep'), TODDLER))).toEqual(['withhold']);
  });

  it('counts a floor of one kind of tea for every kind, unless its source tells them apart', async () => {
    const cold = {
      preparation: '{kind: cold-maceration, herb: 2 g, water: 200 mL, strained: 200 mL, macerate: 8 h}',
    };
    const hot = '{not_under: 12 years, preparation: infusion, because: contraindicated, source: a}';
    expect(levels(await under(`[${hot}]`, TODDLER, cold))).toEqual(['withhold']);
    const apart = '{not_under: 1 year, preparation: cold-maceration, because: x, source: a}';
    expect(await under(`[${hot}, ${apart}]`, TODDLER, cold)).toEqual([]);
  });

  it('says nothing where no age was given: the age is asked for', async () => {
    const person = { ...WOMAN, born: undefined } as unknown as Record<string, string>;
    expect(await under('[{not_under: 18 years, because: x, source: a}]', person)).toEqual([]);
    const files = { ...herb(), ...tea() };
    expect((await finds('unanswered', { person, files })).map((f) => f.id)).toEqual([
      'unanswered/formula/age',
    ]);
  });
});
