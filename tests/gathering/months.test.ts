import { expect, it } from 'vitest';
import { monthBar, parseMonth } from '../../src/gathering/months.ts';

it('a month is read by its name, its first letters or its number', () => {
  expect(['june', 'Jun', '6', ' JUNE '].map((t) => parseMonth(t))).toEqual(
    Array.from({ length: 4 }, () => ({ ok: true, value: 6 })),
  );
});

it('what could be two months, or none, is refused with the nearest', () => {
  expect(parseMonth('ju')).toMatchObject({ ok: false });
  expect(parseMonth('13')).toMatchObject({ ok: false });
  expect(parseMonth('agust')).toMatchObject({
    ok: false,
    why: expect.stringContaining('did you mean august?'),
  });
});

it('the bar has a letter for each month in season', () => {
  expect(monthBar(new Set([5, 6, 7]))).toBe('....MJJ.....');
  expect(monthBar(new Set())).toBe('............');
});
