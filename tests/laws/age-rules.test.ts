import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { byShare, shareFor } from '../../src/dosing/age-rules.ts';
import { openFolder, readTable } from '../../src/folder/folder.ts';
import { birthFromAge, parseAge } from '../../src/measure/age.ts';
import { parseDate } from '../../src/measure/calendar.ts';
import { given } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { must } from '../must.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const TABLE = must(await readTable(must(await openFolder(ROOT, ROOT)), 'age-rules')).value;
const ON = must(parseDate('2026-05-02'));
const who = (months: number, kg: number, cm: number) => ({
  birth: birthFromAge(must(parseAge(`${months} months`)), ON),
  on: ON,
  weight: quantity(kg, 'kg'),
  height: quantity(cm, 'cm'),
});
const months = fc.integer({ min: 0, max: 1200 });
const kg = fc.integer({ min: 1, max: 320 });
const cm = fc.integer({ min: 30, max: 250 });

it('no rule of age ever comes to more than the adult dose, or to nothing', () => {
  fc.assert(
    fc.property(fc.constantFrom(...TABLE.rules), months, kg, cm, (rule, m, w, h) => {
      const share = shareFor(rule, TABLE, who(m, w, h));
      if (!share.ok) {
        expect(share.why).not.toBe('');
        return;
      }
      const dose = byShare(given(quantity(3, 'g'), 'adult dose'), share.share, 'dose').value.value;
      expect(dose.lte(3)).toBe(true);
      if (m > 0) expect(dose.gt(0)).toBe(true);
    }),
    { seed: 20260502, numRuns: 2000 },
  );
});

it('a heavier child never comes to a smaller dose', () => {
  const byWeight = TABLE.rules.filter((r) => r.input.startsWith('weight') || r.input.startsWith('surface'));
  fc.assert(
    fc.property(
      fc.constantFrom(...byWeight),
      fc.integer({ min: 24, max: 200 }),
      kg,
      kg,
      cm,
      (rule, m, a, b, h) => {
        const [light, heavy] = [Math.min(a, b), Math.max(a, b)];
        const [x, y] = [shareFor(rule, TABLE, who(m, light, h)), shareFor(rule, TABLE, who(m, heavy, h))];
        if (x.ok && y.ok) expect(y.share.value.value.gte(x.share.value.value)).toBe(true);
      },
    ),
    { seed: 20260502, numRuns: 1000 },
  );
});

it('under 2 years nothing but a rule for infants is reckoned', () => {
  fc.assert(
    fc.property(fc.constantFrom(...TABLE.rules), fc.integer({ min: 0, max: 23 }), kg, cm, (rule, m, w, h) => {
      if (shareFor(rule, TABLE, who(m, w, h)).ok) expect(rule.for_infants).toBe(true);
    }),
    { seed: 20260502, numRuns: 1000 },
  );
});
