import { describe, expect, it } from 'vitest';
import { judge, says, WELL } from './judge.ts';
import { finds, herb, levels, tea } from './small.ts';

/** test-tea: three pots of 2 g, 6 g of the herb in a day; 100 mg of glycyrrhizin in a day: the Scientific Committee on Food, 2003. */
const holding = (content: string, name = 'glycyrrhizin') => ({
  constituents: `[{name: ${name}, content: ${content}, source: a}]`,
});
const found = (
  content: string,
  more: {
    taking?: string;
    formula?: string[];
    person?: Record<string, string | undefined>;
    name?: string;
  } = {},
) =>
  finds('intake-limit', {
    formula: more.formula ?? 'test-tea',
    person: { ...WELL, taking: more.taking ?? '[]', ...more.person },
    files: {
      ...herb(holding(content, more.name)),
      ...herb(holding(content, more.name), 'other-herb'),
      ...tea(),
      ...tea({ ingredients: '[{herb: other-herb, parts: 1}]' }, 'other-tea'),
      ...tea(
        {
          preparation:
            '{kind: wash, for: gargle, herb: 2 g, water: 200 mL, infuse: 10 min, strained: 200 mL}',
        },
        'test-gargle',
      ),
    },
  });

describe('the rule on limits of intake', () => {
  it('fires for liquorice tea inside its own range, and is quiet for liquorice in a gargle', async () => {
    const liquorice = (preparation: string) =>
      finds('intake-limit', {
        person: WELL,
        files: tea({
          ingredients: '[{herb: liquorice-root, parts: 1}]',
          preparation,
          directions: '{take: all of the pot, times: 2, for: 7 days}',
        }),
      });
    // 2 x 2 g hold 160 mg at the least, at 4 % (European Pharmacopoeia).
    const [f] = await liquorice(
      '{kind: infusion, herb: 2 g, water: 200 mL, strained: 200 mL, infuse: 10 min}',
    );
    expect(f?.level).toBe('decide');
    expect(says(f)).toContain('160 mg');
    expect(says(f)).toContain('100 mg');
    expect(
      await liquorice(
        '{kind: wash, for: gargle, herb: 2 g, water: 200 mL, strained: 200 mL, infuse: 10 min}',
      ),
    ).toEqual([]);
  });

  it('counts at the high end of the content: 99 and 100 mg are within, 100.2 mg are not', async () => {
    expect(await found('1-1.65 % m/m')).toEqual([]);
    expect(await found('0.01-1.6666 % m/m')).toEqual([]);
    expect(levels(await found('0.01-1.67 % m/m'))).toEqual(['decide']);
  });

  it('goes by the least where no most is stated, and else says that it cannot be told', async () => {
    expect(levels(await found('at least 1.67 % m/m'))).toEqual(['decide']);
    const [f] = await found('at least 0.5 % m/m');
    expect(f?.level).toBe('note');
    expect(says(f)).toContain('30 mg a day or more, and how much more cannot be told');
  });

  it('adds two formulas up, and what is taken already', async () => {
    // 6 g at 1 % hold 60 mg.
    expect(await found('1 % m/m')).toEqual([]);
    expect(levels(await found('1 % m/m', { formula: ['test-tea', 'other-tea'] }))).toEqual([
      'decide',
      'decide',
    ]);
    expect(levels(await found('1 % m/m', { taking: '[{herb: test-herb, daily: 4.1 g}]' }))).toEqual([
      'decide',
    ]);
    expect(await found('1 % m/m', { taking: '[{herb: test-herb, daily: 4 g}]' })).toEqual([]);
    expect(
      await found('1 % m/m', {
        taking: '[{herb: test-herb, daily: 9 g, since: 2026-01-01, stopped: 2026-04-01}]',
      }),
    ).toEqual([]);
  });

  it('an amount taken already that nobody stated cannot be bounded', async () => {
    expect(levels(await found('1 % m/m', { taking: '[test-herb]' }))).toEqual(['note']);
  });

  it('says nothing of what goes on the skin or into a gargle', async () => {
    expect(await found('90 % m/m', { formula: ['test-gargle'] })).toEqual([]);
  });

  describe('by body weight: 1 microgram of estragole for each kg under 12, 0.05 mg from 12 on (EMA/HMPC)', () => {
    const child = (weight: string | undefined, born = '2018-01-01') => ({
      person: { born, weight },
      name: 'estragole',
    });

    it('a child of 30 kg gets 0.03 mg', async () => {
      // 6 g hold 0.03 mg at 0.0005 %.
      expect(await found('0.0005 % m/m', child('30 kg'))).toEqual([]);
      expect(levels(await found('0.00051 % m/m', child('30 kg')))).toEqual(['decide']);
    });

    it('from 12 years on, weight does not matter', async () => {
      expect(await found('0.0008 % m/m', child('30 kg', '2014-05-02'))).toEqual([]);
      expect(levels(await found('0.0008 % m/m', child('30 kg', '2014-05-03')))).toEqual(['decide']);
      expect(await found('0.0008 % m/m', child(undefined, '2014-05-02'))).toEqual([]);
    });

    it('asks for the weight of a child, and of nobody whom it does not concern', async () => {
      const asks = async (formula: string, born: string) =>
        (await judge({ formula, person: { ...WELL, born, weight: undefined } })).findings.map((f) => f.id);
      expect(await asks('after-supper', '2018-01-01')).toContain('unanswered/formula/weight');
      expect(await asks('after-supper', '1990-01-01')).not.toContain('unanswered/formula/weight');
    });
  });
});

describe('limits that differ by source, population and measure', () => {
  it('goes by the strictest of two sources, and says what the other gives', async () => {
    // 6 g at 2.1 % hold 126 mg of salicin: above 120 mg (Commission E, 1984), under 240 mg (Health Canada).
    const [f, ...more] = await found('2.1 % m/m', { name: 'total salicin' });
    expect(more).toEqual([]);
    expect([f?.level, f?.source?.body]).toEqual(['decide', 'Commission E']);
    expect(says(f)).toBe(
      'salicin: 126 mg a day at the most, over everything taken, and Commission E gives 120 mg a day at the most; Health Canada gives 240 mg a day at the most',
    );
  });

  it('keeps "less than" strict: 800 mg of EGCG are too much (Regulation (EU) 2022/2340)', async () => {
    const egcg = (content: string) => found(content, { name: 'epigallocatechin gallate' });
    // 800 mg in 6 g is 2/15.
    expect(levels(await egcg('13.4 % m/m'))).toEqual(['decide']);
    expect(await egcg('13.3 % m/m')).toEqual([]);
    const exactly = await finds('intake-limit', {
      person: WELL,
      files: {
        ...herb(holding('10 % m/m', 'epigallocatechin gallate')),
        ...tea({ directions: '{take: all of the pot, times: 4, for: 7 days}' }),
      },
    });
    // Four pots of 2 g hold exactly 800 mg.
    expect(levels(exactly)).toEqual(['decide']);
    expect(says(exactly[0])).toContain('800 mg a day');
  });

  it('halves the caffeine of the day for whoever is pregnant or breastfeeding, and bounds one dose (EFSA, 2015)', async () => {
    const caffeine = (content: string, person: Record<string, string>) =>
      found(content, { name: 'caffeine', person });
    const woman = { sex: 'female', breastfeeding: 'no', trying_to_conceive: 'no' };
    // 6 g at 4 % hold 240 mg in a day, 80 mg at once.
    expect(await caffeine('4 % m/m', { ...woman, pregnant: 'no' })).toEqual([]);
    expect(levels(await caffeine('4 % m/m', { ...woman, pregnant: '20 weeks' }))).toEqual(['decide']);
    expect(levels(await caffeine('4 % m/m', { ...woman, pregnant: 'no', breastfeeding: 'yes' }))).toEqual([
      'decide',
    ]);
    // 11 %: 220 mg at once and 660 mg a day.
    expect((await caffeine('11 % m/m', {})).map((f) => f.id.split('/')[2])).toEqual([
      'caffeine-single',
      'caffeine',
    ]);
  });

  it('goes by the weight of a child', async () => {
    // 3 mg/kg of 20 kg are 60 mg; 6 g at 1 % hold 60 mg.
    const child = { born: '2018-05-02', weight: '20 kg' };
    expect(await found('1 % m/m', { name: 'caffeine', person: child })).toEqual([]);
    expect(levels(await found('1.01 % m/m', { name: 'caffeine', person: child }))).toEqual(['decide']);
  });
});
