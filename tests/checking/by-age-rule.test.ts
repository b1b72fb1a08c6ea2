import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { byAgeRules } from '../../src/checking/by-age-rule.ts';
import { openFolder, readTable } from '../../src/folder/folder.ts';
import { show } from '../../src/measure/figure.ts';
import { must } from '../must.ts';
import { caseFor, WELL } from './judge.ts';
import { herb, tea } from './small.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const TABLE = must(await readTable(must(await openFolder(ROOT, ROOT)), 'age-rules')).value;

/** One herb, 2 g three times a day, which two sources give to adults by up to 3 g and 4 g at once. */
const ADULT =
  '{preparation: {kind: [infusion]}, route: oral, ages: 18+ years, single: 1-3 g, daily: up to 9 g, source: a}';
const MORE =
  '{preparation: {kind: [infusion]}, route: oral, ages: 18+ years, single: 1-4 g, daily: up to 8 g, source: b}';
const ruled = async (
  keys: Readonly<Record<string, string>>,
  names: readonly string[],
  born = '2019-04-01',
) => {
  const c = await caseFor({
    formula: 'test-tea',
    person: { ...WELL, born, weight: '24 kg' },
    files: { ...herb({ doses: `[${ADULT}, ${MORE}]`, ...keys }), ...tea() },
  });
  const person = c.person;
  if (!person?.birth) throw new Error('nobody');
  const who = { birth: person.birth, on: c.on, weight: person.weight, height: null };
  const [h] = byAgeRules(
    c,
    TABLE.rules.filter((r) => names.includes(r.id)),
    TABLE,
    who,
  );
  return h as NonNullable<typeof h>;
};

describe('a formula by rules of age', () => {
  it('scales the strictest adult dose that can be compared, and says whether the formula gives more', async () => {
    const h = await ruled({}, ['young', 'canada']);
    expect([h.adult.single, h.adult.daily].map((f) => f && show(f))).toEqual(['3 g', '8 g']);
    const told = h.rules.map((r) => [
      r.rule.id,
      r.single && show(r.single),
      r.daily && show(r.daily),
      r.above,
    ]);
    // 7 years: 7/19 and 1/4 of 3 g and of 8 g, against 2 g and 6 g.
    expect(told).toEqual([
      ['young', '1.11 g', '2.95 g', true],
      ['canada', '0.75 g', '2 g', true],
    ]);
  });

  it('goes under no lowest age of the monograph, not even one for want of data', async () => {
    const h = await ruled({ ages: '[{not_under: 12 years, route: oral, because: no-data, source: a}]' }, [
      'young',
    ]);
    expect(h.rules).toEqual([]);
    expect(h.whyNone).toContain('gives a lowest age that is not reached');
  });

  it('leaves the place to a dose that the monograph has for the age itself', async () => {
    const child =
      '{preparation: {kind: [infusion]}, route: oral, ages: 6-12 years, single: 0.5-1 g, source: b}';
    const h = await ruled({ doses: `[${ADULT}, ${child}]` }, ['young']);
    expect(h.rules).toEqual([]);
    expect(h.whyNone).toBe('Body B has a dose for this very age, which goes before any rule');
  });

  it('scales nothing where no adult dose of this preparation is published', async () => {
    const powder = ADULT.replace('infusion', 'tincture');
    const h = await ruled({ doses: `[${powder}]` }, ['young']);
    expect(h.whyNone).toContain('no adult dose');
  });

  it('says of every rule that is not for them why not', async () => {
    const h = await ruled({}, ['fried', 'older', 'surface']);
    expect(h.rules).toEqual([]);
    expect(h.notFor.map((n) => n.rule.id)).toEqual(['fried', 'surface', 'older']);
  });

  it('is there for older adults too, who have the adult dose besides', async () => {
    const h = await ruled({}, ['older'], '1940-01-01');
    expect(h.rules.map((r) => r.single && show(r.single))).toEqual(['2 g']);
  });
});
