import { Decimal } from 'decimal.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type Json, json, practiceFolder, removeFolders, run } from './scruple.ts';

let folder = '';
beforeAll(() => {
  folder = practiceFolder();
});
afterAll(removeFolders);

const sheet = (...args: string[]): string => run(args, { cwd: folder }).out;
const result = (...args: string[]): Json => json(args, { cwd: folder }).result;
const refused = (...args: string[]): string => {
  const { code, err } = run(args, { cwd: folder });
  expect(code, args.join(' ')).toBe(2);
  return err;
};
const sum = (lines: Json[], end: 'low' | 'high'): string =>
  Decimal.sum(...lines.map((l) => l.fresh[end].value))
    .toDecimalPlaces(6)
    .toFixed();

describe('gather', () => {
  test('the fresh weight of a formula is the sum over its herbs', () => {
    const { lines, fresh } = result('gather', 'after-supper', '--make', '500 g');
    expect(lines).toHaveLength(2);
    for (const end of ['low', 'high'] as const)
      expect(sum(lines, end)).toBe(new Decimal(fresh[end].value).toDecimalPlaces(6).toFixed());
  });

  test('of a herb: 200 g dry of nettle leaf, of which 20 kg come from 100 kg, is 1 kg fresh', () => {
    const [line] = result('gather', 'nettle-leaf', '--dry', '200 g').lines;
    // 200 x (1 - 0.12) / (1 - 0.824)
    expect(line).toMatchObject({
      herb: 'nettle-leaf',
      dry: { value: '200' },
      fresh: { low: { value: '1000' } },
    });
  });

  test('a dangerous double is printed before the weights, a harmless one after', () => {
    const out = sheet('gather', 'comfrey-root', '--dry', '200 g');
    expect(out.indexOf('foxglove')).toBeGreaterThan(0);
    expect(out.indexOf('foxglove')).toBeLessThan(out.indexOf('fresh'));
    const chamomile = sheet('gather', 'chamomile-flower', '--dry', '200 g');
    expect(chamomile).not.toContain('First be sure of the plant');
    expect(chamomile.indexOf('mayweed')).toBeGreaterThan(chamomile.indexOf('fresh'));
  });

  test('says what is in season in a month', () => {
    const { lines } = result('gather', 'after-supper', '--make', '500 g', '--month', 'june');
    expect(lines.map((l: Json) => [l.herb, l.in_season])).toEqual([
      ['chamomile-flower', true],
      ['sweet-fennel-fruit', false],
    ]);
  });

  test('bark is never taken round a stem, and law and leave stand at the end', () => {
    const out = sheet('gather', 'oak-bark', '--dry', '500 g').replace(/\s+/g, ' ');
    expect(out).toContain('never all the way round a stem or branch');
    expect(out).toMatch(/Leave and law .* local law decides/);
  });

  test('what was drawn out before is not gathered', () => {
    expect(result('gather', 'hushed-hours', '--make', '100 mL')).toMatchObject({
      lines: [],
      not_gathered: ['valerian-root (tincture)', 'lemon-balm-leaf (tincture)', 'syrup'],
    });
  });

  test('fresh herb is gathered as it is weighed', () => {
    const [line] = result('gather', 'new-moon-balm', '--make', '300 g').lines;
    expect(line).toMatchObject({ dry: null, fresh: { low: { value: '300' }, high: { value: '300' } } });
  });

  test.each([
    [['gather', 'nettle', '--dry', '1 kg'], /did you mean nettle-herb or nettle-leaf or nettle-root/],
    [['gather', 'nettle-leaf'], /how much of nettle-leaf is wanted dry/],
    [['gather', 'nettle-leaf', '--dry', '0 g'], /above 0/],
    [['gather', 'after-supper', '--dry', '200 g'], /is a formula/],
    [['gather', 'after-supper', '--month', 'agust'], /did you mean august/],
  ])('%j is refused', (args, says) => {
    expect(refused(...args)).toMatch(says);
  });
});

describe('dry', () => {
  test('800 g at 78 % is done at 200 g for 12 %', () => {
    expect(
      result('dry', 'nettle-leaf', '--fresh', '800 g', '--moisture', '78 %', '--to', '12 %'),
    ).toMatchObject({
      done: { low: { value: '200' }, high: { value: '200' } },
      water: { low: { value: '600' } },
    });
  });

  test('two weights tell the moisture that it had', () => {
    expect(result('dry', 'nettle-leaf', '--fresh', '800 g', '--dried', '200 g')).toMatchObject({
      moisture: { value: '78', unit: '%' },
    });
  });

  test('keeps until a day reckoned from the day of drying', () => {
    const { keeps_until } = result('dry', 'oak-bark', '--fresh', '1 kg', '--on', '2026-05-02');
    // Five years of 365.25 days.
    expect(keeps_until).toEqual({ from: '2031-05-02', to: '2031-05-02' });
  });

  test.each([
    [['dry', 'nettle-leaf'], /what does the fresh herb weigh/],
    [['dry', 'nettle-leaf', '--fresh', '200 g', '--dried', '300 g'], /which of the two is wrong/],
    [['dry', 'nettle-leaf', '--fresh', '200 g', '--moisture', '1.2'], /has no unit|moisture/],
    [['dry', 'nettle-leaf', '--fresh', '200 g', '--moisture', '120 %'], /from 0 to below 100 %/],
    [['dry', 'nettle-leaf', '--fresh', '200 g', '--to', '20 %'], /above which it may mould/],
    [['dry', 'nettle-leaf', '--fresh', '200 g', '--moisture', '10 %'], /no wetter than/],
  ])('%j is refused', (args, says) => {
    expect(refused(...args)).toMatch(says);
  });
});
