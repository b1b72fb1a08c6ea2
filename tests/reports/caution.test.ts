import { expect, test } from 'vitest';
import { CAUTION, withCaution } from '../../src/reports/caution.ts';
import type { Sheet } from '../../src/reports/sheet.ts';
import { renderTerminal } from '../../src/reports/terminal.ts';

const sheet: Sheet = { title: 'Dose', blocks: [] };

test('the caution names who it is for, what decides, and where urgent signs go', () => {
  expect(CAUTION).toMatch(/trained practitioners/);
  expect(CAUTION).toMatch(/local law and licensed practice decide/);
  expect(CAUTION).toMatch(/urgent signs go to a doctor/i);
});

test('a sheet carries it once, at its foot', () => {
  const once = withCaution(sheet);
  expect(once.blocks.at(-1)).toEqual({ kind: 'caution', text: CAUTION });
  expect(withCaution(once)).toBe(once);
  expect(renderTerminal(withCaution(once), { width: 200, colour: false }).split(CAUTION)).toHaveLength(2);
});
