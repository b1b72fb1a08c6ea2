import { describe, expect, it } from 'vitest';
import { herbDoses } from '../../src/dosing/equivalents.ts';
import { caseFor, says, WELL } from '../checking/judge.ts';
import { finds, tea } from '../checking/small.ts';

/** Peppermint oil: 0.2 to 0.4 mL three times a day by mouth, 0.08 to 0.16 mL inhaled (EMA/HMPC/522410/2013). */
const OIL = {
  use: 'digestive-cramp',
  ingredients: '[{herb: peppermint-oil, form: essential-oil, density: 0.91 g/mL, parts: 1}]',
  preparation: '{kind: liquid-blend}',
  directions: '{take: 0.2 mL, times: 3, for: 14 days}',
};
const made = async (keys: Readonly<Record<string, string>> = {}) => {
  const c = await caseFor({ formula: 'test-tea', person: null, files: tea({ ...OIL, ...keys }) });
  return c.formulas[0] as (typeof c.formulas)[number];
};

describe('an essential oil', () => {
  it('is taken by volume, and weighs what its density says', async () => {
    const { batch } = await made();
    const [dose] = herbDoses(batch);
    expect(dose?.drawn?.daily.value.value.toFixed()).toBe('0.6');
    expect(dose?.amounts?.daily.value.value.toFixed()).toBe('0.546');
    expect(dose?.kinds).toEqual(['essential-oil']);
  });

  it('is set beside what is published of the oil by mouth, and inhaled', async () => {
    const outcome = async (keys: Readonly<Record<string, string>>) => {
      const { herbs } = await made(keys);
      return herbs[0]?.compared.filter((x) => x.cited.body === 'EMA/HMPC').map((x) => x.outcome);
    };
    expect(await outcome({})).toEqual(['within']);
    expect(await outcome({ directions: '{take: 0.5 mL, times: 3, for: 14 days}' })).toEqual(['above']);
    const inhaled = { route: 'inhalation', use: 'common-cold' };
    expect(await outcome({ ...inhaled, directions: '{take: 0.08 mL, times: 1, for: 3 days}' })).toEqual([
      'within',
    ]);
    expect(await outcome({ ...inhaled, directions: '{take: 0.2 mL, times: 1, for: 3 days}' })).toEqual([
      'above',
    ]);
  });

  // Its contents are printed as a percent whose basis the source does not say.
  it('has its pulegone and menthofuran said, though how much cannot be told', async () => {
    const [f] = await finds('intake-limit', { person: WELL, files: tea(OIL) });
    expect(f?.level).toBe('note');
    expect(says(f)).toContain('37.5 mg a day at the most');
  });

  it.each([
    ['ratio: 1:5 w/v, density: 0.91 g/mL', 'is itself: leave ratio out'],
    ['spirit: 45 % v/v, density: 0.91 g/mL', 'is itself: leave spirit out'],
    ['note: x', 'how heavy is 1 mL'],
  ])('is refused with %s', async (keys, why) => {
    const ingredients = `[{herb: peppermint-oil, form: essential-oil, ${keys}, parts: 1}]`;
    await expect(made({ ingredients })).rejects.toThrow(why);
  });

  it('in a salve is weighed as itself', async () => {
    const { batch } = await made({
      use: 'headache',
      route: 'cutaneous',
      ingredients:
        '[{herb: chamomile-flower, form: infused-oil, ratio: 1:5 w/w, percent: 80}, {herb: peppermint-oil, form: essential-oil, density: 0.91 g/mL, percent: 2}, {vehicle: beeswax, parts: 1}]',
      preparation: '{kind: ointment}',
      directions: '{apply: thinly, times: 2, for: 7 days}',
    });
    const oil = herbDoses(batch).find((d) => d.herb === 'peppermint-oil');
    expect(oil?.concentrations.map((x) => x.value.value.toFixed())).toContain('2');
  });
});
