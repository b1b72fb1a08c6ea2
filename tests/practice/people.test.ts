import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { judge } from '../checking/judge.ts';

/** The invented practice's eight people, each with the formula that they came for and some that they should not have. */

const file = (code: string): string =>
  readFileSync(fileURLToPath(new URL(`./patients/${code}.yaml`, import.meta.url)), 'utf8');

/** A patient file as the keys that the judge wants: its text line by line. */
const person = (code: string): Record<string, string> =>
  Object.fromEntries(
    file(code)
      .split('\n')
      .filter((l) => /^\w+:/.test(l))
      .map((l) => [l.slice(0, l.indexOf(':')), l.slice(l.indexOf(':') + 1).trim()]),
  );

const CASES: readonly [
  code: string,
  formula: string,
  verdict: string,
  why: string,
  found: readonly string[],
][] = [
  [
    'S-101',
    'after-supper',
    'withhold',
    'a toddler: sweet fennel is not under 4 years, and the tea is too strong',
    ['withhold age-floor sweet-fennel-fruit', 'withhold dose chamomile-flower'],
  ],
  [
    'S-102',
    'after-supper',
    'decide',
    'eleven: sweet fennel above the band of 4 to under 12 years',
    ['decide dose sweet-fennel-fruit'],
  ],
  ['S-103', 'after-supper', 'clear', 'twelve today: the adult band', []],
  [
    'S-102',
    'quiet-evening',
    'withhold',
    'eleven: every source of lemon balm starts at 12 years',
    ['withhold age-floor lemon-balm-leaf'],
  ],
  ['S-104', 'stiff-joints', 'note', 'an adult with everything answered and nothing in the way', []],
  ['S-104', 'winter-chest', 'clear', 'as before', []],
  ['S-105', 'stiff-joints', 'withhold', 'willow bark in the third trimester', ['withhold stage willow-bark']],
  [
    'S-105',
    'quiet-evening',
    'decide',
    'lemon balm is not recommended in pregnancy; chamomile tea is acceptable',
    ['decide stage lemon-balm-leaf'],
  ],
  [
    'S-106',
    'stiff-joints',
    'withhold',
    'warfarin, and allergic to aspirin',
    ['withhold caution willow-bark', 'withhold caution meadowsweet-herb'],
  ],
  [
    'S-107',
    'after-supper',
    'ask',
    'ragweed crosses with chamomile, and nobody asked about medicines',
    ['ask allergy chamomile-flower', 'ask unanswered -'],
  ],
  [
    'S-108',
    'winter-chest',
    'withhold',
    'liquorice with high blood pressure, digoxin and a diuretic',
    ['withhold caution liquorice-root'],
  ],
];

describe('the people of Saltmarsh House, on 2 May 2026', () => {
  it.each(CASES)('%s and %s: %s, for %s', async (code, formula, verdict, _why, found) => {
    const c = await judge({ formula, person: person(code) });
    expect(c.verdict).toBe(verdict);
    const told = c.findings.map((f) => `${f.level} ${f.rule} ${f.herb ?? '-'}`);
    expect(told).toEqual(expect.arrayContaining([...found]));
  });

  it('the adult with every question answered is given no decision to make about any formula', async () => {
    for (const formula of [
      'after-supper',
      'quiet-evening',
      'steady-journey',
      'stiff-joints',
      'still-night',
      'winter-chest',
    ]) {
      const c = await judge({ formula, person: person('S-104') });
      expect(
        c.findings.filter((f) => f.level !== 'note').map((f) => f.id),
        formula,
      ).toEqual([]);
    }
  });
});
