import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { byAgeRules, type HerbByRules, rulesForPerson } from '../../src/checking/by-age-rule.ts';
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
const CHILD = '{preparation: {kind: [infusion]}, route: oral, ages: 6-12 years, single: 0.5-1 g, source: b}';

type Keys = Readonly<Record<string, string>>;

async function ruled(
  names: readonly string[],
  {
    keys = {},
    formula = {},
    ...person
  }: { keys?: Keys; formula?: Keys } & Record<string, string | Keys> = {},
) {
  const c = await caseFor({
    formula: 'test-tea',
    person: { ...WELL, born: '2019-04-01', weight: '24 kg', ...(person as Keys) },
    files: { ...herb({ doses: `[${ADULT}, ${MORE}]`, ...keys }), ...tea(formula) },
  });
  const { person: p } = c;
  if (!p?.birth) throw new Error('nobody');
  const rules = rulesForPerson(
    TABLE.rules.filter((r) => names.includes(r.id)),
    TABLE,
    { birth: p.birth, on: c.on, weight: p.weight, height: p.source.height ?? null },
  );
  const [h] = byAgeRules(c, rules);
  return { ...(h as HerbByRules), person: rules };
}

const told = (h: HerbByRules) =>
  h.rules.map((r) => [r.rule.id, r.single && show(r.single), r.daily && show(r.daily), r.above]);

describe('a formula by rules of age', () => {
  it('scales the strictest adult dose that can be compared, and says whether the formula gives more', async () => {
    const h = await ruled(['young', 'canada']);
    // 7 years: 1/4 and 7/19 of 3 g and of 8 g, against 2 g and 6 g; the strictest rule first.
    expect(told(h)).toEqual([
      ['canada', '0.75 g', '2 g', true],
      ['young', '1.11 g', '2.95 g', true],
    ]);
  });

  it('keeps of each figure its own source, and how it was come by', async () => {
    const { adult } = await ruled(['young']);
    expect([adult.single?.compared.cited.key, adult.daily?.compared.cited.key]).toEqual(['a', 'b']);
    expect(adult.single?.top.step.says).toContain('the top of the range');
    const usual = ADULT.replace('1-3 g', '2 g').replace(', daily: up to 9 g', ', times: 2');
    const one = await ruled(['young'], { keys: { doses: `[${usual}]` } });
    expect(one.adult.single?.top.step.says).toContain('the usual dose');
    expect(one.adult.daily && [show(one.adult.daily.top), one.adult.daily.against.implied]).toEqual([
      '4 g',
      true,
    ]);
  });

  it('says not more where single and daily dose of the formula stay within', async () => {
    const h = await ruled(['canada'], {
      formula: { directions: '{take: 1/4 of the pot, times: 3, for: 7 days}' },
    });
    // 0.5 g and 1.5 g beside 0.75 g and 2 g.
    expect(told(h)).toEqual([['canada', '0.75 g', '2 g', false]]);
    const often = await ruled(['canada'], {
      formula: { directions: '{take: 1/4 of the pot, times: 5, for: 7 days}' },
    });
    expect(told(often)[0]?.[3]).toBe(true);
  });

  it('names a stricter rule that was not asked for, and none where there is none', async () => {
    const h = await ruled(['young']);
    expect(h.stricter && [h.stricter.rule.id, h.stricter.daily && show(h.stricter.daily)]).toEqual([
      'canada',
      '2 g',
    ]);
    expect((await ruled(['canada', 'young'])).stricter).toBeNull();
  });

  it('says where no lowest age was read', async () => {
    expect((await ruled(['young'])).noFloorRead).toBe(true);
    const from = '[{not_under: 2 years, because: reason-not-read, source: a}]';
    expect((await ruled(['young'], { keys: { ages: from } })).noFloorRead).toBe(false);
  });

  it('is there for older adults too, who have the adult dose besides', async () => {
    expect(told(await ruled(['older'], { born: '1940-01-01', weight: '70 kg' }))).toEqual([
      ['older', '2 g', '5.33 g', true],
    ]);
  });

  it('says of every rule that is not for them why not', async () => {
    const h = await ruled(['fried', 'older', 'surface']);
    expect(h.rules).toEqual([]);
    expect(h.person.notFor.map((n) => n.rule.id)).toEqual(['fried', 'surface', 'older']);
  });
});

describe('what counts a liquid and what counts the herb', () => {
  // 2 mL of a 1:5 tincture, 0.4 g of herb, three times a day.
  const tincture = {
    ingredients: '[{herb: test-herb, form: tincture, ratio: 1:5 w/v, spirit: 45 % v/v, parts: 1}]',
    preparation: '{kind: liquid-blend, bottle: 100 mL}',
    directions: '{take: 2 mL, times: 3, for: 7 days}',
  };
  const preparation = '{kind: tincture, ratio: "1:5", solvent: ethanol 45 % v/v}';
  const MILLILITRES = `{preparation: ${preparation}, route: oral, single: 2-4 mL, times: 3, of: preparation, source: a}`;
  const GRAMS =
    '{preparation: {kind: [tincture, powder]}, route: oral, daily: up to 1.5 g, of: herb, source: b}';

  it('is never set one beside the other: the strictest is what the dose fills the most', async () => {
    const h = await ruled(['canada'], {
      keys: { doses: `[${MILLILITRES}, ${GRAMS}]` },
      formula: tincture,
    });
    // By the day 6 mL of 12 mL, and 1.2 g of 1.5 g: the grams are the stricter.
    expect(told(h)).toEqual([['canada', '1 mL', '0.375 g', true]]);
    expect(h.adult.daily && show(h.adult.daily.formula)).toBe('1.2 g');
  });

  it('2 mL are more than a quarter of 4 mL', async () => {
    const h = await ruled(['canada'], { keys: { doses: `[${MILLILITRES}]` }, formula: tincture });
    expect(told(h)).toEqual([['canada', '1 mL', '3 mL', true]]);
  });

  it('a constituent that an entry counts is no dose of the herb', async () => {
    const salicin = ADULT.replace('source: a', 'of: salicin, source: a');
    const h = await ruled(['young'], { keys: { doses: `[${salicin}]` } });
    expect(h.whyNone).toContain('no adult dose of this preparation');
  });
});

describe('no rule is reckoned', () => {
  const floor = (not_under: string, because = 'no-data') =>
    `[{not_under: ${not_under}, route: oral, because: ${because}, source: a}]`;

  it('under a lowest age of the monograph, not even one for want of data, which is named', async () => {
    const h = await ruled(['young'], { keys: { ages: floor('12 years') } });
    expect(h.rules).toEqual([]);
    expect(h.whyNone).toBe('Body A: not under 12 years (no data): no rule goes under a lowest age');
  });

  it('where a lowest age lies within what is known of the birth date', async () => {
    const h = await ruled(['young'], {
      keys: { ages: floor('7 years', 'contraindicated') },
      born: '2019-05',
    });
    expect(h.rules).toEqual([]);
    expect(h.whyNone).toBe(
      'a lowest age (7 years) lies within what is known of the birth date: on which day were they born?',
    );
  });

  it('but from the day of a lowest age on it is', async () => {
    const on = { keys: { ages: floor('7 years') } };
    expect((await ruled(['young'], { ...on, born: '2019-05-02' })).rules).toHaveLength(1);
    expect((await ruled(['young'], { ...on, born: '2019-05-03' })).rules).toEqual([]);
  });

  it('where the monograph has a dose for the age itself', async () => {
    const h = await ruled(['young'], { keys: { doses: `[${ADULT}, ${CHILD}]` } });
    expect(h.rules).toEqual([]);
    expect(h.whyNone).toBe('Body B has a dose for this very age, which goes before any rule');
  });

  it('nor where it may have one, if the day of birth were known', async () => {
    const h = await ruled(['young'], { keys: { doses: `[${ADULT}, ${CHILD}]` }, born: '2014-05' });
    expect(h.whyNone).toMatch(/^an edge of a published dose lies within what is known of the birth date/);
  });

  it('but a dose of another preparation for the age does not stop it', async () => {
    const other = CHILD.replace('infusion', 'tincture');
    expect((await ruled(['young'], { keys: { doses: `[${ADULT}, ${other}]` } })).rules).toHaveLength(1);
  });

  it('against a contraindication that this person meets', async () => {
    const cautions = '[{when: {condition: [asthma]}, says: contraindicated, why: it may worsen, source: b}]';
    const h = await ruled(['young'], { keys: { cautions }, conditions: '[asthma]' });
    expect(h.whyNone).toBe('Body B says it must not be used (it may worsen): no rule goes against that');
    expect((await ruled(['young'], { keys: { cautions } })).rules).toHaveLength(1);
    const old = '[{when: {age: under 12 years}, says: contraindicated, why: for adults, source: b}]';
    expect((await ruled(['young'], { keys: { cautions: old } })).rules).toEqual([]);
  });

  it('where no adult dose of this preparation is published', async () => {
    const h = await ruled(['young'], { keys: { doses: `[${ADULT.replace('infusion', 'tincture')}]` } });
    expect(h.whyNone).toContain('no adult dose');
    expect((await ruled(['young'], { keys: { doses: 'none-read' } })).whyNone).toContain('no adult dose');
  });
});
