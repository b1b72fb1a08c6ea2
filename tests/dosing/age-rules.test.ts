import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type AgeRule, type Grown, shareFor } from '../../src/dosing/age-rules.ts';
import { openFolder, readTable } from '../../src/folder/folder.ts';
import { birthFromAge, parseAge } from '../../src/measure/age.ts';
import { parseDate, parseDateInterval } from '../../src/measure/calendar.ts';
import { show, workingOf } from '../../src/measure/figure.ts';
import { parseQuantity } from '../../src/measure/parse.ts';
import { must } from '../must.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const TABLE = must(await readTable(must(await openFolder(ROOT, ROOT)), 'age-rules')).value;
const ON = must(parseDate('2026-05-02'));

const rule = (id: string): AgeRule => {
  const found = TABLE.rules.find((r) => r.id === id);
  if (!found) throw new Error(`no rule ${id}`);
  return found;
};
const measured = (weight?: string, height?: string) => ({
  on: ON,
  weight: weight ? must(parseQuantity(weight)) : null,
  height: height ? must(parseQuantity(height)) : null,
});
const born = (date: string, weight?: string, height?: string): Grown => ({
  birth: must(parseDateInterval(date)),
  ...measured(weight, height),
});
const aged = (age: string, weight?: string, height?: string): Grown => ({
  birth: birthFromAge(must(parseAge(age)), ON),
  ...measured(weight, height),
});
const share = (id: string, who: Grown): string => {
  const made = shareFor(rule(id), TABLE, who);
  return made.ok ? show(made.share) : made.why;
};

describe('an edge of age', () => {
  it.each([
    ['canada', '2024-05-02', '16.67 %'],
    ['canada', '2024-05-03', 'under 2 years only a rule for infants is reckoned (young-months, fried)'],
    ['canada', '2021-05-03', '16.67 %'],
    ['canada', '2021-05-02', '25 %'],
    ['canada', '2011-05-03', '50 %'],
    ['canada', '2011-05-02', 'it is for 2 years to under 15 years'],
    ['fried', '2025-05-03', '7.33 %'],
    ['fried', '2025-05-02', 'it is for under 12 months'],
    ['young', '2013-05-03', '50 %'],
    ['young', '2013-05-02', 'it is for 2 years to under 13 years'],
    ['dilling', '2008-05-03', '85 %'],
    ['dilling', '2008-05-02', 'it is for 2 years to under 18 years'],
    ['older', '1980-05-03', 'it is for 46 years and over'],
    ['older', '1980-05-02', '83.33 %'],
  ])('%s, born %s: %s', (id, date, said) => {
    expect(share(id, born(date))).toBe(said);
  });

  it.each([
    ['canada', '2024-05'],
    ['canada', '2021-05'],
    ['canada', '2011'],
    ['young', '2013-05'],
    ['fried', '2025-05'],
    ['gaubius', '2018-05'],
    ['older', '1975-05'],
  ])('of %s that lies within what is known of the birth, %s, is asked about', (id, date) => {
    expect(share(id, born(date))).toMatch(/on which day were they born\?$/);
  });

  it('within the ages of a rule the younger counts, which gives less', () => {
    // 7 until the end of the month, or 8 already.
    expect(share('young', born('2018-05'))).toBe(share('young', aged('7 years')));
    expect(share('cowling', born('2018-05'))).toBe('33.33 %');
    expect(share('fried', born('2025-08'))).toBe(share('fried', aged('8 months')));
  });
});

describe('an infant', () => {
  it.each(['2 weeks old', '1 day old'])('of no completed month (%s) has no dose of nothing', (days) => {
    const date = days === '1 day old' ? '2026-05-01' : '2026-04-18';
    expect(share('fried', born(date))).toBe('it comes to nothing before the first month is completed');
  });

  it('of whom only the year is known is no infant of 0 months', () => {
    expect(share('fried', aged('0 years'))).toBe(
      'it goes by months: say the date of birth, or the age in months',
    );
  });

  it('of 12 to 23 months has no rule at all', () => {
    for (const r of TABLE.rules)
      expect([r.id, shareFor(r, TABLE, aged('18 months', '11 kg', '82 cm')).ok]).toEqual([r.id, false]);
  });
});

describe('a weight or a height that nobody of the age is to be expected to have', () => {
  it.each([
    [
      'clark',
      aged('7 years', '240 kg'),
      /^a weight of 240 kg is not to be expected at 7 years \(9 to 90 kg\)/,
    ],
    ['salisbury', aged('7 years', '2.4 kg'), /^a weight of 2\.4 kg is not/],
    ['augsberger', aged('3 years', '150 lb'), /^a weight of 150 lb is not/],
    ['surface', aged('7 years', '24 kg', '12.2 cm'), /^a height of 12\.2 cm is not/],
    ['surface', aged('7 years', '24 kg', '12.2 m'), /^a height of 12\.2 m is not/],
  ])('%s asks about it, and gives nobody the whole adult dose for a lost point', (id, who, why) => {
    expect(share(id, who)).toMatch(why);
  });

  it('where the ages are open between two limits, either will do', () => {
    // 4 or 5 years: 46 kg is much for 4 and not for 5.
    expect(share('clark', born('2021-05', '46 kg'))).toBe('67.61 %');
  });

  it('does not stop a rule that goes by age', () => {
    expect(share('young', aged('7 years', '240 kg'))).toBe('36.84 %');
  });
});

describe('the adult dose', () => {
  it('is the most that a rule comes to, and what it would come to is kept', () => {
    const made = shareFor(rule('augsberger'), TABLE, aged('16 years', '80 kg'));
    expect(made.ok && [show(made.share), made.uncapped && show(made.uncapped)]).toEqual(['100 %', '130 %']);
  });
});

describe('the working', () => {
  const lines = (id: string, who: Grown): string[] => {
    const made = shareFor(rule(id), TABLE, who);
    if (!made.ok) throw new Error(made.why);
    return workingOf([made.share]).map((l) => l.sum ?? l.result);
  };

  it('reckons in years, kilograms and square metres, as a person writes it', () => {
    expect(lines('young', aged('7 years'))).toEqual([
      '7 years',
      '12 years',
      '7 years [1] / (7 years [1] + 12 years [2])',
    ]);
    expect(lines('clark-lb', aged('7 years', '24 kg'))).toEqual([
      '24 kg',
      '24 kg [1]',
      '150 lb',
      '52.91094292 lb [2] / 150 lb [3]',
    ]);
    expect(lines('salisbury', aged('9 years', '45 kg'))).toEqual([
      '1 %/kg',
      '45 kg',
      '30 %',
      '1 %/kg [1] x 45 kg [2] + 30 % [3]',
    ]);
    expect(lines('surface', aged('7 years', '24 kg', '122 cm'))).toContain(
      'root of (122 cm [1] x 24 kg [2] / 3,600 [3])',
    );
  });

  it('names the row of a table as its source prints it', () => {
    const made = shareFor(rule('canada'), TABLE, aged('7 years'));
    expect(made.ok && [made.row, made.share.step.source?.reading]).toEqual(['5 - 9 years', 'original']);
  });
});
