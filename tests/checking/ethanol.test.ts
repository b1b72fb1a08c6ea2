import { describe, expect, it } from 'vitest';
import { judge, of, says, WELL, WOMAN } from './judge.ts';

/**
 * hushed-hours: 70 mL for the course are poured as 35, 26 and 9 mL: (35 x 70 + 26 x 45) / 70 = 51.714 % v/v. 5 mL hold
 * 2.5857 mL of ethanol, at 0.78924 g/mL (OIML R 22) 2.0408 g. 15 mg/kg is reached at 136.05 kg or less, 75 mg/kg passed
 * below 27.2 kg.
 */
const FORMULA = 'hushed-hours';
type Answers = Readonly<Record<string, string | undefined>>;

const found = async (person: Answers, formula: string | readonly string[] = FORMULA) =>
  of(await judge({ formula, person }), 'ethanol').map(
    (f) => `${f.level} ${f.id.slice(f.id.lastIndexOf('/') + 1)}`,
  );
const child = (born: string, weight: string): Answers => ({ ...WELL, born, weight });

describe('the two examples', () => {
  it('fires: a tincture for someone on disulfiram', async () => {
    expect(await found({ ...WELL, weight: '70 kg', medicines: '[disulfiram]' })).toContain(
      'withhold hushed-hours-disulfiram',
    );
  });

  it('quiet: a tea for someone on disulfiram', async () => {
    expect(await found({ ...WELL, medicines: '[disulfiram]' }, 'quiet-evening')).toEqual([]);
  });
});

describe('for whom any ethanol matters', () => {
  it.each([
    [{ medicines: '[metronidazole]' }, 'withhold hushed-hours-metronidazole'],
    [{ medicines: '[tinidazole]' }, 'withhold hushed-hours-tinidazole'],
    [{ conditions: '[alcohol dependence]' }, 'withhold hushed-hours-alcohol-dependence'],
    [{ conditions: '[F10.2]' }, 'withhold hushed-hours-alcohol-dependence'],
    [{ conditions: '[cirrhosis]' }, 'decide'],
    [{ conditions: '[epilepsy]' }, 'decide hushed-hours-epilepsy'],
    [{ avoids_alcohol: 'yes' }, 'withhold hushed-hours-avoids-alcohol'],
  ])('%j', async (more, expected) => {
    const all = await found({ ...WELL, weight: '200 kg', ...more });
    expect(all.some((f) => f.startsWith(expected))).toBe(true);
    expect(await found({ ...WELL, weight: '200 kg' })).toEqual([]);
  });

  it.each([
    [{ pregnant: '20 weeks' }, 'decide hushed-hours-pregnant'],
    [{ breastfeeding: 'yes' }, 'decide hushed-hours-breastfeeding'],
    [{ trying_to_conceive: 'yes' }, 'decide hushed-hours-trying-to-conceive'],
  ])('%j', async (more, expected) => {
    expect(await found({ ...WOMAN, weight: '200 kg', ...more })).toEqual([expected]);
  });

  it('a word that may mean such a medicine is asked about', async () => {
    const { findings } = await judge({ formula: FORMULA, person: { ...WELL, medicines: '[antabus]' } });
    expect(findings.some((f) => f.level === 'ask')).toBe(true);
  });
});

describe('by body weight', () => {
  it('is mentioned from 15 mg/kg on, and not below', async () => {
    expect(await found({ ...WELL, weight: '136 kg' })).toEqual(['note hushed-hours-amount']);
    expect(await found({ ...WELL, weight: '137 kg' })).toEqual([]);
  });

  it('is a decision above 75 mg/kg, and more than that for someone who drives', async () => {
    const light = { ...WELL, weight: '27 kg' };
    expect(await found(light)).toEqual(['decide hushed-hours-amount']);
    expect(await found({ ...light, drives: 'yes' })).toEqual(['withhold hushed-hours-amount']);
    expect(await found({ ...light, weight: '28 kg', drives: 'yes' })).toEqual(['note hushed-hours-amount']);
  });

  it('shows the arithmetic: grams in a dose and mg for each kg', async () => {
    const [f] = of(await judge({ formula: FORMULA, person: { ...WELL, weight: '70 kg' } }), 'ethanol');
    // 2040.8 mg / 70 kg
    expect(says(f)).toMatch(/2\.04 g in a dose, 29\.15 mg\/kg/);
  });

  it('without a weight an adult is asked only where even 40 kg would not settle it', async () => {
    // 2041 mg / 40 kg = 51 mg/kg: above 15, so that the note stays open, and below 75, so that nothing graver does.
    const { findings } = await judge({ formula: FORMULA, person: { ...WELL, weight: undefined } });
    expect(findings.map((f) => f.id)).not.toContain('unanswered/formula/weight');
    const young = await judge({
      formula: FORMULA,
      person: { ...WELL, born: '2020-03-01', weight: undefined },
    });
    expect(young.findings.map((f) => f.id)).toContain('unanswered/formula/weight');
  });
});

describe('children', () => {
  it('get as little as can be had, and under 6 no more than 6 mg/kg', async () => {
    // 5 years, 18 kg: 113.4 mg/kg.
    expect(await found(child('2021-02-01', '18 kg'))).toContain('withhold hushed-hours-amount');
    // 16 years, 60 kg: 34 mg/kg.
    expect(await found(child('2010-02-01', '60 kg'))).toEqual(['decide hushed-hours-amount']);
  });

  it('under 2 years get none', async () => {
    expect(await found(child('2024-12-01', '11 kg'))).toContain('withhold hushed-hours-amount');
  });
});

it('a person who avoids alcohol is asked about it before a tincture, and not before a tea', async () => {
  const person = { ...WELL, weight: '70 kg', avoids_alcohol: undefined };
  const ids = async (formula: string) => (await judge({ formula, person })).findings.map((f) => f.id);
  expect(await ids(FORMULA)).toContain('unanswered/formula/avoids-alcohol');
  expect(await ids('winter-chest')).not.toContain('unanswered/formula/avoids-alcohol');
});
