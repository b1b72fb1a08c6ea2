import { describe, expect, it } from 'vitest';
import { CAUTION, json, ON, run } from './scruple.ts';

const dose = (...args: string[]) => run(['dose', ...args, '--on', ON]);
const OLD = ['after-supper', '--age', '84y'];

describe('scruple dose --age-rule', () => {
  it('prints each rule beside the others, the warnings and the caution once', () => {
    const { code, out } = dose(...OLD, '--age-rule', 'all');
    expect(code).toBe(0);
    expect(out).toContain('By rules of age, from the adult dose');
    expect(out).toMatch(/^ {2}older adults \(1905\) +66\.67 % +2 g +8 g +gives more$/m);
    expect(out.replace(/\s+/g, ' ')).toContain('Scaling adult doses is in general not recommended');
    expect(out.split('Scaling adult doses')).toHaveLength(2);
    expect(out.split(CAUTION)).toHaveLength(2);
    expect(Math.max(...out.split('\n').map((l) => l.length))).toBeLessThanOrEqual(80);
  });

  it('shows the sum behind each figure', () => {
    const { out } = dose(...OLD, '--age-rule', 'older', '--working');
    expect(out.replace(/\s+/g, ' ')).toMatch(
      /chamomile-flower by older adults \(1905\), single: 3 g \[\d+\] x 66\.66666667 % \[\d+\] = 2 g/,
    );
  });

  it('stops at a lowest age of the monograph, and says so', () => {
    const { out } = dose(
      'still-night',
      '--age',
      '7y',
      '--weight',
      '24kg',
      '--height',
      '122 cm',
      '--age-rule',
      'all',
    );
    expect(out.replace(/\s+/g, ' ')).toContain(
      'valerian-root: a source of its monograph gives a lowest age that is not reached',
    );
  });

  it('prints for a script the share, both amounts, and why not', () => {
    const { result } = json(['dose', ...OLD, '--age-rule', 'older', '--age-rule', 'young', '--on', ON]);
    const of = (rule: string) =>
      result.age_rules.find(
        (r: { rule: string; herb: string }) => r.rule === rule && r.herb === 'sweet-fennel-fruit',
      );
    expect(of('older')).toMatchObject({
      single: { value: '1', unit: 'g' },
      daily: { value: '3', unit: 'g' },
      above: true,
    });
    expect(of('young')).toMatchObject({ why_not: 'it is for 1 year to under 13 years' });
    expect(json(['dose', ...OLD, '--on', ON]).result.age_rules).toBeUndefined();
  });

  it.each([
    [[...OLD, '--age-rule', 'yuong'], 'did you mean young?'],
    [[...OLD, '--age-rule', ''], 'is no rule'],
    [['after-supper', '--age-rule', 'young'], 'for a person of some age'],
    [['after-supper', '--age', '7y', '--height', '122', '--age-rule', 'all'], '--height "122" has no unit'],
    [['after-supper', '--age', '7y', '--height', '24 kg', '--age-rule', 'all'], 'must be length'],
  ])('%j is refused', (args, why) => {
    const { code, out, err } = dose(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(why);
  });
});
