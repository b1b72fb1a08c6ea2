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
