import { describe, expect, it } from 'vitest';
import { judge, says, WELL } from './judge.ts';
import { finds, herb, levels, tea } from './small.ts';

// Each level that a dose can come to stands in doses.test.ts; here is what its sentence and its id say.

const entry = (keys: string, source = 'a') =>
  `{preparation: {kind: infusion}, route: oral, ${keys}, source: ${source}}`;

const pot = (grams: string, times = 3) => ({
  preparation: `{kind: infusion, herb: ${grams}, water: 200 mL, strained: 200 mL, infuse: 10 min}`,
  directions: `{take: all of the pot, times: ${times}, for: 7 days}`,
});

const found = (doses: string, grams: string, times = 3, more: Record<string, string> = {}) =>
  finds('dose', { person: WELL, files: { ...herb({ doses, ...more }), ...tea(pot(grams, times)) } });

describe('the rule on doses', () => {
  it('fires for four grams where every source stops at three, and is quiet inside every range', async () => {
    const doses = `[${entry('single: 1-3 g')}, ${entry('single: 2-3 g', 'b')}]`;
    expect(levels(await found(doses, '4 g'))).toEqual(['withhold']);
    expect(await found(doses, '2.5 g')).toEqual([]);
  });

  it('says the dose in the unit of the source, whose band it is and what else covers it', async () => {
    const doses = `[${entry('ages: 12+ years, single: 500-900 mg')}, ${entry('single: 1-3 g', 'b')}]`;
    const [f] = await found(doses, '1.5 g');
    expect(says(f)).toBe(
      'test-herb: 1,500 mg in one dose, and Body A gives 500 to 900 mg for 12 years and over; Body B gives 1 to 3 g',
    );
  });

  it('says that a daily figure is only the product of single dose and times', async () => {
    const [f] = await found(`[${entry('single: 1-3 g, times: 1-2')}]`, '3 g', 3);
    expect(says(f)).toContain('9 g a day, and Body A gives 1 to 6 g (single dose x times) for adults');
  });

  it('covers a usual dose with a larger usual dose of another source', async () => {
    const doses = `[${entry('single: 1.5 g')}, ${entry('single: 2 g', 'b')}]`;
    expect(levels(await found(doses, '2 g'))).toEqual(['note']);
    expect(levels(await found(doses, '2.1 g'))).toEqual(['decide']);
  });

  it('never lets a limit for safety cover a dose: it allows nothing', async () => {
    const doses = `[${entry('single: 1.5 g')}, ${entry('single: up to 4 g, limit: safety', 'b')}]`;
    expect(levels(await found(doses, '2 g'))).toEqual(['decide']);
  });

  it('judges what is weighed, after rounding to the balance', async () => {
    // 49 % of a scoop of 0.5 g are 0.245 g; of 7.5 g for five days 3.675 g, which are weighed as 3.7 g: 0.2467 g a scoop.
    const powder = (single: string) =>
      `[{preparation: {kind: powder}, route: oral, single: ${single}, source: a}]`;
    const scoop = (single: string) =>
      finds('dose', {
        person: WELL,
        files: {
          ...herb({ doses: powder(single) }),
          ...herb({ doses: powder('1 g') }, 'other-herb'),
          ...tea({
            ingredients:
              '[{herb: test-herb, form: powder, percent: 49}, {herb: other-herb, form: powder, parts: 1}]',
            preparation: '{kind: powder}',
            directions: '{take: 0.5 g, times: 3, for: 5 days}',
          }),
        },
      });
    expect(says((await scoop('up to 0.246 g'))[0])).toContain('0.247 g in one dose');
    expect(await scoop('up to 0.247 g')).toEqual([]);
  });

  it('keeps apart the doses of two formulas with the same herb', async () => {
    const files = {
      ...herb({ doses: `[${entry('single: up to 1 g')}]` }),
      ...tea(pot('2 g')),
      ...tea(pot('1.5 g'), 'other-tea'),
    };
    const c = await judge({ formula: ['test-tea', 'other-tea'], person: WELL, files });
    expect(c.findings.filter((f) => f.rule === 'dose').map((f) => f.id)).toEqual([
      'dose/test-herb/other-tea-single',
      'dose/test-herb/test-tea-single',
    ]);
  });

  it('does not say the same of a child twice: under a floor no dose is missed', async () => {
    const files = {
      ...herb({
        doses: `[${entry('single: 1-3 g')}]`,
        ages: '[{not_under: 18 years, because: no-data, source: a}]',
      }),
      ...tea(pot('2 g')),
    };
    const child = { ...WELL, born: '2018-01-01' };
    expect(await finds('dose', { person: child, files })).toEqual([]);
    expect(levels(await finds('age-floor', { person: child, files }))).toEqual(['decide']);
  });

  it('says why nothing can be compared', async () => {
    const why = async (doses: string) => says((await found(doses, '2 g'))[0]);
    expect(await why('none-read')).toContain('no dose was read');
    expect(await why(`[${entry('ages: 2-6 years, single: 1 g')}]`)).toContain(
      'no dose is published for this age',
    );
    expect(await why('[{preparation: {kind: powder}, route: oral, single: 1 g, source: a}]')).toContain(
      'Body A: it is for the powder',
    );
  });

  it('says which figure stands that an intake cannot be held against', async () => {
    const doses = `[${entry('single: 1-3 g')}, ${entry('daily: up to 30 mg, of: testin', 'b')}]`;
    const constituents = '[{name: testin, content: at least 0.1 % m/m, source: a}]';
    const [f, ...more] = await found(doses, '2 g', 3, { constituents });
    expect(more).toEqual([]);
    expect(f).toMatchObject({ level: 'note', source: { key: 'b' } });
    expect(says(f)).toBe(
      'how much testin a dose of test-herb holds cannot be told closely enough for Body B (up to 30 mg a day); only a least content was read: the intake cannot be bounded',
    );
  });

  it('judges nothing without directions, which another rule asks for', async () => {
    const files = { ...herb(), ...tea({ directions: undefined }) };
    expect(await finds('dose', { person: WELL, files })).toEqual([]);
  });
});
