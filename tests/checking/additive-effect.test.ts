import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { says, WELL } from './judge.ts';
import { finds, herb, levels, tea, teaOf } from './small.ts';

/**
 * Groups and members: Health Canada (cognitive function products), Commission E, USP, RIVM and others, each named beside
 * its line in monographs/reference/additive-effects.yaml; herbs from memory stand under common practice there.
 */
const TABLE = parse(
  readFileSync(
    fileURLToPath(new URL('../../monographs/reference/additive-effects.yaml', import.meta.url)),
    'utf8',
  ),
) as { effects: { id: string; does: string; with?: { medicine: string[] }[] }[] };

const beside = (herbId: string, person: Readonly<Record<string, string>>) =>
  finds('additive-effect', { person: { ...WELL, ...person }, files: teaOf(herbId) });
const medicine = (herbId: string, word: string) => beside(herbId, { medicines: `["${word}"]` });

describe('the rule on effects that add up: a herb beside a medicine', () => {
  it('fires for hops and diazepam, and is quiet for hops and paracetamol', async () => {
    const [f, ...more] = await medicine('hops-flower', 'diazepam');
    expect(more).toEqual([]);
    expect(f?.id).toBe('additive-effect/hops-flower/diazepam');
    expect(f?.level).toBe('decide');
    expect(says(f)).toBe('hops-flower brings drowsiness; beside diazepam: drowsiness adds up');
    expect(f?.source?.body).toBe('Health Canada');
    expect(await medicine('hops-flower', 'paracetamol')).toEqual([]);
  });

  // One medicine of every group that the sources name, and one that does something else.
  it.each([
    ['valerian-root', 'sedation', 'phenobarbital', 'amoxicillin'],
    ['passionflower-herb', 'sedation', 'haloperidol', 'loratadine'],
    ['hawthorn-fruit', 'blood-pressure-lowering', 'ramipril', 'bosentan'],
    ['ginger-rhizome', 'bleeding', 'dabigatran etexilate', 'ramipril'],
    ['turmeric-rhizome', 'bleeding', 'clopidogrel', 'paracetamol'],
    ['fenugreek-seed', 'glucose-lowering', 'metformin', 'atorvastatin'],
    ['liquorice-root', 'potassium-loss', 'furosemide', 'amoxicillin'],
    ['senna-pod', 'potassium-loss', 'prednisolone', 'losartan'],
    ['senna-leaf', 'potassium-loss', 'digoxin', 'amlodipine'],
    ['senna-leaf', 'potassium-loss', 'amiodarone', 'amlodipine'],
    ['meadowsweet-herb', 'salicylates', 'acetylsalicylic acid', 'paracetamol'],
    ['willow-bark', 'salicylates', 'warfarin', 'loratadine'],
    ['comfrey-root', 'hepatotoxicity', 'methotrexate', 'loratadine'],
    ['st-johns-wort-herb', 'photosensitivity', 'doxycycline', 'amoxicillin'],
    ['st-johns-wort-herb', 'enzyme-induction-and-serotonin', 'sertraline', 'amoxicillin'],
  ])('%s: %s adds to %s and not to %s', async (id, effect, met, unmet) => {
    const [f, ...more] = await medicine(id, met);
    expect(more).toEqual([]);
    expect(f?.id).toBe(`additive-effect/${id}/${met.replace(/ /g, '-')}`);
    expect(says(f)).toContain(TABLE.effects.find((e) => e.id === effect)?.does ?? '?');
    expect(await medicine(id, unmet)).toEqual([]);
  });

  it('names each medicine by itself, so that one more leaves what was found and decided alone', async () => {
    const one = await beside('hops-flower', { medicines: '[diazepam]' });
    const two = await beside('hops-flower', { medicines: '[codeine, diazepam]' });
    expect(two).toHaveLength(2);
    expect(two.map((f) => [f.id, f.basis])).toContainEqual([one[0]?.id, one[0]?.basis]);
  });

  it('does not mind whether the medicine is told by name, salt, code or former spelling', async () => {
    const [a] = await medicine('senna-leaf', 'furosemide');
    for (const word of ['frusemide', 'C03CA01', 'Furosemide 40 mg tablets'])
      expect((await medicine('senna-leaf', word)).map((f) => [f.id, f.basis])).toEqual([[a?.id, a?.basis]]);
  });

  it('asks which one, where a word stands for medicines of which only some would add', async () => {
    // Some are eye drops alone.
    expect(levels(await medicine('hawthorn-fruit', 'beta blockers'))).toEqual(['ask']);
    expect(levels(await medicine('hawthorn-fruit', 'ACE inhibitors'))).toEqual(['decide']);
    const [f] = await medicine('lemon-balm-leaf', 'antidepressants');
    expect(f?.level).toBe('ask');
    expect(says(f)).toContain('which medicine is it?');
    // The monograph's own caution asks it already.
    expect(await medicine('senna-leaf', 'diuretics')).toEqual([]);
  });

  it('counts what was stopped lately, and says so', async () => {
    const [f] = await beside('hops-flower', { medicines: '[{name: diazepam, stopped: 2026-04-20}]' });
    expect(says(f)).toContain('diazepam (stopped 2026-04-20)');
  });

  it('has nothing to say of a herb that is put on the skin', async () => {
    const found = await finds('additive-effect', {
      formula: 'harbour-salve',
      person: { ...WELL, medicines: '[methotrexate, warfarin]' },
    });
    expect(found).toEqual([]);
  });

  it('knows every group, class and medicine that the table speaks of', async () => {
    const { matching } = await (await import('./judge.ts')).caseFor({
      formula: 'still-night',
      person: { ...WELL, medicines: '[warfarin]' },
    });
    const targets = TABLE.effects.flatMap((e) => (e.with ?? []).flatMap((w) => w.medicine));
    expect(targets.length).toBeGreaterThan(20);
    expect(targets.filter((t) => !matching.knows.medicine(t))).toEqual([]);
  });
});

describe('the rule on effects that add up: herbs with each other', () => {
  const both = (a: string, b: string, taking = '[]') =>
    finds('additive-effect', {
      formula: ['one-tea', 'two-tea'],
      person: { ...WELL, taking },
      files: {
        ...tea({ ingredients: `[{herb: ${a}, parts: 1}]` }, 'one-tea'),
        ...tea({ ingredients: `[{herb: ${b}, parts: 1}]` }, 'two-tea'),
      },
    });

  it('tells that valerian and hops both bring drowsiness, and leaves the milder nervines out', async () => {
    expect(levels(await both('valerian-root', 'hops-flower'))).toEqual(['note', 'note']);
    expect(await both('valerian-root', 'chamomile-flower')).toEqual([]);
    expect(await both('valerian-root', 'lime-flower')).toEqual([]);
  });

  it('makes a decision of liquorice beside senna, which both lose potassium', async () => {
    const found = await both('liquorice-root', 'senna-leaf');
    expect(levels(found)).toEqual(['decide', 'decide']);
    expect(says(found[0])).toContain('each of liquorice-root and senna-leaf loses potassium');
  });

  it('counts what is taken already, by itself, in a formula, in a product, and as a medicine', async () => {
    const beside = async (person: Readonly<Record<string, string>>) =>
      (await finds('additive-effect', { person: { ...WELL, ...person }, files: teaOf('hops-flower') })).map(
        says,
      );
    const told = [expect.stringContaining('each of hops-flower and valerian-root brings drowsiness')];
    expect(await beside({ taking: '[{herb: Valeriana officinalis, daily: 2 g}]' })).toEqual(told);
    expect(await beside({ taking: '[{formula: still-night}]' })).toEqual(told);
    expect(
      await beside({ taking: '[{product: Moorland Calm, holds: [{herb: valerian-root, daily: 500 mg}]}]' }),
    ).toEqual(told);
    expect(await beside({ medicines: '[N05CM09]' })).toEqual(told);
    expect(await beside({ taking: '[{herb: valerian-root, stopped: 2026-04-29}]' })).toEqual([]);
  });

  it('knows a herb without a monograph by its Latin name', async () => {
    const [f] = await finds('additive-effect', {
      person: { ...WELL, taking: '[{herb: Piper methysticum, daily: 3 g}]' },
      files: teaOf('hops-flower'),
    });
    expect(says(f)).toContain('each of Piper methysticum and hops-flower brings drowsiness');
  });

  it('adds up the shares of their published maxima (Food and Drug Regulations, Canada, C.01.021)', async () => {
    const doses = (most: string, limit: string) =>
      `[{preparation: {kind: [infusion]}, route: oral, ages: all ages, daily: up to ${most}, limit: ${limit}, source: a}]`;
    const shared = (most: string, limit = 'safety') =>
      finds('additive-effect', {
        person: WELL,
        files: {
          ...herb({ effects: '[sedation]', doses: doses('12 g', limit) }),
          ...herb({ effects: '[sedation]', doses: doses(most, limit) }, 'other-herb'),
          ...tea({
            ingredients: '[{herb: test-herb, parts: 1}, {herb: other-herb, parts: 1}]',
            preparation: '{kind: infusion, herb: 4 g, water: 200 mL, strained: 200 mL, infuse: 10 min}',
          }),
        },
      });
    // 6 g of each a day: 6/12 + 6/12 is the whole, and no more.
    const whole = await shared('12 g');
    expect(levels(whole)).toEqual(['note', 'note']);
    expect(says(whole[0])).toContain('they come to 100 %');
    // 6/12 + 6/10 = 110 %.
    const above = await shared('10 g');
    expect(levels(above)).toEqual(['decide', 'decide']);
    expect(says(above[0])).toContain(
      'they come to 110 % and Government of Canada lets such shares come to 100 % in all',
    );
    expect(levels(await shared('10 g', 'customary'))).toEqual(['note', 'note']);
  });

  it('finds a herb that loses potassium beside one that acts as digitalis does', async () => {
    const [f] = await finds('additive-effect', {
      person: { ...WELL, taking: '[{herb: convallaria-majalis}]' },
      files: teaOf('senna-leaf'),
    });
    expect([f?.level, f?.herb]).toEqual(['decide', 'senna-leaf']);
    expect(says(f)).toContain(
      'convallaria-majalis acts on the heart as digitalis does, and senna-leaf loses potassium',
    );
  });
});
