import { describe, expect, it } from 'vitest';
import { exact } from '../../src/measure/exact.ts';
import { allocate, decimalsOf, type RoundingRule, roundTo } from '../../src/measure/round.ts';

const rounded = (value: string, step: string, rule: RoundingRule): string =>
  roundTo(exact(value), exact(step), rule).toFixed();

/** The lines of a batch as they are put on the balance. */
function weighed(total: string, step: string, parts: Record<string, string>): Record<string, string> {
  const shares = Object.entries(parts).map(([key, weight]) => ({ key, weight: exact(weight) }));
  return Object.fromEntries(
    [...allocate(exact(total), shares, exact(step))].map(([k, v]) => [k, v.toFixed()]),
  );
}

describe('sharing out what the law limits', () => {
  const limited = (total: string, parts: Record<string, string>, ...keys: string[]) =>
    Object.fromEntries(
      [
        ...allocate(
          exact(total),
          Object.entries(parts).map(([key, weight]) => ({
            key,
            weight: exact(weight),
            notAbove: keys.includes(key),
          })),
          exact('0.1'),
        ),
      ].map(([k, v]) => [k, v.toFixed()]),
    );

  it('rounds it down where its remainder would have been the largest, and the batch stays whole', () => {
    // 10 g in 3 and 1 and 2: 5, 1.6667 and 3.3333 g.
    expect(limited('10', { aniseed: '3', lobelia: '1', thyme: '2' })).toEqual({
      aniseed: '5',
      lobelia: '1.7',
      thyme: '3.3',
    });
    expect(limited('10', { aniseed: '3', lobelia: '1', thyme: '2' }, 'lobelia')).toEqual({
      aniseed: '5',
      lobelia: '1.6',
      thyme: '3.4',
    });
  });

  it('makes a smaller batch of what is limited alone', () => {
    expect(limited('10', { ephedra: '1', lobelia: '2' }, 'ephedra', 'lobelia')).toEqual({
      ephedra: '3.3',
      lobelia: '6.6',
    });
  });
});

describe('rounding at the balance', () => {
  it('goes to the step of the balance, whatever the step is', () => {
    expect(rounded('1.2345', '0.1', 'half-even')).toBe('1.2');
    expect(rounded('1.2345', '0.25', 'half-even')).toBe('1.25');
    expect(rounded('13', '5', 'half-even')).toBe('15');
  });

  it('has a rule for the figure that lies just between', () => {
    expect(rounded('0.25', '0.1', 'half-even')).toBe('0.2');
    expect(rounded('0.25', '0.1', 'half-up')).toBe('0.3');
    expect(rounded('0.25', '0.1', 'down')).toBe('0.2');
    expect(rounded('0.25', '0.1', 'up')).toBe('0.3');
  });

  it('a third taken three times is a whole: nothing is lost below the 40th figure', () => {
    const third = exact(1).div(3);
    expect(roundTo(third.times(3), exact(1), 'down').toFixed()).toBe('1');
    const threeAndATrace = exact(1).div(third);
    expect(roundTo(threeAndATrace, exact(1), 'up').toFixed()).toBe('3');
  });

  it('needs a step above 0 and a number', () => {
    expect(() => roundTo(exact(1), exact(0), 'down')).toThrow(RangeError);
    expect(() => roundTo(exact(1), exact('-0.1'), 'down')).toThrow(RangeError);
    expect(() => roundTo(exact('Infinity'), exact(1), 'down')).toThrow(RangeError);
    expect(() => roundTo(exact(1), exact('NaN'), 'down')).toThrow(RangeError);
  });

  it('knows how many decimals a step needs', () => {
    expect([exact('0.1'), exact('0.25'), exact(5)].map(decimalsOf)).toEqual([1, 2, 0]);
  });
});

describe('sharing out a batch by parts', () => {
  it('gives what is left over to the largest remainder, so that the lines add up', () => {
    expect(weighed('100', '1', { chamomile: '1', thyme: '1', ginger: '1' })).toEqual({
      chamomile: '34',
      ginger: '33',
      thyme: '33',
    });
    expect(weighed('10', '0.1', { chamomile: '2', thyme: '1.5', ginger: '0.2' })).toEqual({
      chamomile: '5.4',
      thyme: '4.1',
      ginger: '0.5',
    });
  });

  it('settles a tie by the name of the herb, not by its place in the formula', () => {
    expect(weighed('1', '1', { thyme: '1', chamomile: '1' })).toEqual({ thyme: '0', chamomile: '1' });
    expect(weighed('1', '1', { chamomile: '1', thyme: '1' })).toEqual({ thyme: '0', chamomile: '1' });
  });

  it('gives nothing to a herb of no parts', () => {
    expect(weighed('7', '1', { thyme: '3', none: '0', chamomile: '4' })).toEqual({
      thyme: '3',
      none: '0',
      chamomile: '4',
    });
  });

  it('rounds the batch itself first', () => {
    expect(weighed('100.05', '0.1', { thyme: '1' })).toEqual({ thyme: '100' });
  });

  it('refuses a herb named twice, for its second line would overwrite the first', () => {
    const twice = [
      { key: 'ginger', weight: exact(1) },
      { key: 'ginger', weight: exact(2) },
    ];
    expect(() => allocate(exact(30), twice, exact(1))).toThrow(RangeError);
  });

  it('refuses parts below nothing, parts that are all nothing, and a batch below nothing', () => {
    expect(() => weighed('10', '1', { thyme: '-1', chamomile: '2' })).toThrow(RangeError);
    expect(() => weighed('10', '1', { thyme: '0' })).toThrow(RangeError);
    expect(() => weighed('-10', '1', { thyme: '1' })).toThrow(RangeError);
    expect(() => weighed('10', '1', {})).toThrow(RangeError);
  });
});
