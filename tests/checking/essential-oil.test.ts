import { describe, expect, it } from 'vitest';
import { says, WELL } from './judge.ts';
import { finds, levels, tea } from './small.ts';

/** Children under 30 months, and any child with epilepsy or febrile convulsions: EMA/CHMP/763180/2011. */
const RUB = {
  route: 'cutaneous',
  ingredients:
    '[{herb: chamomile-flower, form: infused-oil, ratio: 1:5 w/w, percent: 80}, {herb: peppermint-oil, percent: 2}, {vehicle: beeswax, parts: 1}]',
  preparation: '{kind: ointment}',
  directions: '{apply: thinly, times: 2, for: 7 days}',
};
const found = (born: string, conditions = '[]', ingredients = RUB.ingredients) =>
  finds('essential-oil', { person: { ...WELL, born, conditions }, files: tea({ ...RUB, ingredients }) });

describe('the rule on essential oils', () => {
  it('fires for a rub with peppermint oil for a child of two, and is quiet for one of three', async () => {
    const [f, ...more] = await found('2023-12-01');
    expect(more).toEqual([]);
    expect([f?.level, f?.herb]).toEqual(['withhold', 'peppermint-oil']);
    expect(says(f)).toContain('not under 30 months, by any route');
    expect(await found('2023-05-01')).toEqual([]);
  });

  it('is exact to the day, and asks where a month of birth leaves it open', async () => {
    expect(levels(await found('2023-11-03'))).toEqual(['withhold']);
    expect(await found('2023-11-02')).toEqual([]);
    expect(levels(await found('2023-11'))).toEqual(['ask']);
  });

  it('keeps it from a child who has had convulsions, and says nothing of an adult who has', async () => {
    expect(levels(await found('2013-05-01', '[epilepsy]'))).toEqual(['withhold']);
    expect(levels(await found('2013-05-01', '[G40]'))).toEqual(['withhold']);
    expect(await found('1984-05-01', '[epilepsy]')).toEqual([]);
  });

  it('knows the oil of a plant without a monograph, and leaves the leaf alone', async () => {
    const of = (herb: string) =>
      finds('essential-oil', {
        person: { ...WELL, born: '2024-12-01' },
        files: tea({ ingredients: `[{herb: ${herb}, parts: 1}]` }),
      });
    expect(levels(await of('eucalyptus-globulus-oil'))).toEqual(['withhold']);
    expect(await of('peppermint-leaf')).toEqual([]);
    expect(await of('eucalyptus-leaf')).toEqual([]);
  });
});
