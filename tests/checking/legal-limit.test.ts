import { describe, expect, it } from 'vitest';
import { judge, says, WELL } from './judge.ts';
import { finds, herb, tea } from './small.ts';
import { found, ointment, pot, powder, tincture, told } from './under-law.ts';

/**
 * The figures are those of The Human Medicines Regulations 2012 (S.I. 2012/1916), Schedule 20, of the prohibition orders
 * S.I. 2001/1841, 2002/3170 and 2008/548, and of Canada's Food and Drug Regulations, C.01.021.
 */

describe('lobelia, 200 mg at once and 600 mg in a day', () => {
  it('fires for 1.5 mL of 1:5 twice a day, and is quiet for 1 mL three times', async () => {
    expect(await told(tincture('lobelia-inflata', '1:5', '1.5 mL', '2'))).toEqual([
      'withhold: lobelia-inflata: 300 mg in one dose, and the law of the United Kingdom allows 200 mg',
    ]);
    expect(await told(tincture('lobelia-inflata', '1:5', '1 mL'))).toEqual([]);
  });

  it('a dose within the single figure is above the daily one when it is taken four times', async () => {
    expect(await told(tincture('lobelia-inflata', '1:5', '1 mL', '4'))).toEqual([
      'withhold: lobelia-inflata: 800 mg a day, and the law of the United Kingdom allows 600 mg',
    ]);
  });

  it('the volume of the week at one dose a day is above the single figure', async () => {
    expect(await told(tincture('lobelia-inflata', '1:5', '3 mL', '1'))).toEqual([
      'withhold: lobelia-inflata: 600 mg in one dose, and the law of the United Kingdom allows 200 mg',
    ]);
  });

  it('a hundredth of a mL above is above, at once and in the day', async () => {
    expect((await told(tincture('lobelia-inflata', '1:5', '1.01 mL'))).map((t) => t.split(',')[0])).toEqual([
      'withhold: lobelia-inflata: 202 mg in one dose',
      'withhold: lobelia-inflata: 606 mg a day',
    ]);
  });

  it('says which text of the law was read, cites it, and cannot be accepted', async () => {
    const [f] = await found(tincture('lobelia-inflata', '1:5', '1.5 mL', '2'));
    expect(says(f)).toContain('Schedule 20 Part 2');
    expect(says(f)).toContain('S.I. 2012/1916 as amended');
    expect(f).toMatchObject({ accept: false, reading: 'restated', source: { key: 'hmr-2012-2' } });
  });

  it('is found by whatever it is called, and by its monograph', async () => {
    for (const id of [
      'lobelia',
      'lobelia-herb',
      'indian-tobacco',
      'lobelia-inflata-herb',
      'dried-lobelia-herb',
    ])
      expect(
        (await found(powder(id, '300 mg', '1'))).map((f) => f.level),
        id,
      ).toEqual(['withhold']);
    const files = {
      ...herb({ names: '{latin: Lobelia inflata L., common: [pukeweed]}' }),
      ...powder('test-herb', '300 mg', '1'),
    };
    expect((await found(files)).map((f) => f.level)).toEqual(['withhold']);
  });

  it('is not found in its namesakes, with or without a monograph', async () => {
    for (const id of ['lobelia-chinensis', 'lesser-celandine', 'false-hemlock', 'inflata'])
      expect(await found(powder(id, '9 g')), id).toEqual([]);
    const files = {
      ...herb({ names: '{latin: Lobelia chinensis Lour., common: [lobelia]}' }),
      ...powder('test-herb', '9 g'),
    };
    expect(await found(files)).toEqual([]);
  });

  it('a name that the law does not print is read as the one that it does, and that is said', async () => {
    expect(await told(powder('indian-tobacco', '300 mg', '1'))).toEqual([
      "withhold: indian-tobacco, read as the law's Lobelia: 300 mg in one dose, and the law of the United Kingdom allows 200 mg",
    ]);
  });

  it('counts fresh herb as it is weighed', async () => {
    const fresh = tea({
      ingredients: '[{herb: lobelia-inflata, form: fresh, parts: 1}]',
      preparation: '{kind: infusion, herb: 250 mg, water: 1 L, strained: 500 mL, infuse: 10 min}',
      directions: '{take: all of the pot, times: 1, for: 7 days}',
    });
    expect(await told(fresh)).toEqual([
      'withhold: lobelia-inflata: 250 mg in one dose, and the law of the United Kingdom allows 200 mg',
    ]);
  });

  it('used on the skin is not capped, for the law has no percentage of it', async () => {
    expect(await found(ointment('lobelia-inflata', '20'))).toEqual([]);
  });

  it('is added up over two formulas and what is taken already, but not at once', async () => {
    const two = {
      ...tincture('lobelia-inflata', '1:5', '1 mL', '2'),
      ...tincture('lobelia-herb', '1:5', '1 mL', '2', 'second-drops'),
    };
    const both = { formula: ['test-tea', 'second-drops'] };
    expect(await told(two, both)).toEqual([
      'withhold: lobelia-inflata: 800 mg a day over all that holds it, and the law of the United Kingdom allows 600 mg',
      'withhold: lobelia-herb: 800 mg a day over all that holds it, and the law of the United Kingdom allows 600 mg',
    ]);
    const taking = (text: string) => ({ person: { ...WELL, taking: text } });
    const one = tincture('lobelia-inflata', '1:5', '1 mL', '2');
    expect(await told(one, taking('[{herb: Lobelia inflata, daily: 200 mg}]'))).toEqual([]);
    expect(await told(one, taking('[{herb: indian tobacco, daily: 250 mg}]'))).toEqual([
      'withhold: lobelia-inflata: 650 mg a day over all that holds it, and the law of the United Kingdom allows 600 mg',
    ]);
    expect(await told(one, taking('[{herb: lobelia}]'))).toEqual([
      'ask: lobelia-inflata: how much of it is taken already in a day? the law of the United Kingdom allows 600 mg a day in all',
    ]);
    expect(await told(one, taking('[{herb: lobelia, since: 2026-01-01, stopped: 2026-04-30}]'))).toEqual([]);
  });

  it('of a formula that is named twice is counted once', async () => {
    expect(
      await found(tincture('lobelia-inflata', '1:5', '1 mL'), { formula: ['test-tea', 'test-tea'] }),
    ).toEqual([]);
  });

  it('under two ids in one formula is added up in the dose', async () => {
    const files = tea({
      ingredients:
        '[{herb: lobelia-herb, form: powder, parts: 1}, {herb: lobelia-inflata, form: powder, parts: 1}]',
      preparation: '{kind: powder}',
      directions: '{take: 250 mg, times: 1, for: 7 days}',
    });
    expect((await told(files))[0]).toBe(
      'withhold: lobelia-herb: 250 mg in one dose over all that holds it, and the law of the United Kingdom allows 200 mg',
    );
  });

  it('without directions is asked about', async () => {
    const files = { ...powder('lobelia-inflata', '1 g') };
    const bare = Object.fromEntries(
      Object.entries(files).map(([k, text]) => [k, text.replace(/^directions:.*$/m, 'makes: 100 g')]),
    );
    expect(await told(bare)).toEqual([
      'ask: lobelia-inflata: the law of the United Kingdom limits how much of it is used, and test-tea has no directions',
    ]);
  });

  it('is judged without a person', async () => {
    expect(
      (await found(powder('lobelia-inflata', '300 mg', '1'), { person: null })).map((f) => f.level),
    ).toEqual(['withhold']);
  });
});

describe('belladonna, of which herb and root differ', () => {
  it('50 mg of the herb are within 50 mg, and of the root above 30 mg', async () => {
    expect(await told(tincture('atropa-belladonna-herb', '1:10', '0.5 mL'))).toEqual([]);
    expect(await told(tincture('atropa-belladonna-root', '1:10', '0.5 mL', '1'))).toEqual([
      'withhold: atropa-belladonna-root: 50 mg in one dose, and the law of the United Kingdom allows 30 mg',
    ]);
  });

  it('without its part goes by the root, the stricter, and says so', async () => {
    expect(await told(tincture('belladonna', '1:10', '0.5 mL', '1'))).toEqual([
      'withhold: belladonna: 50 mg in one dose, and the law of the United Kingdom allows 30 mg; its part is not said, and the figures of the root count, the strictest',
    ]);
    expect(await told(tincture('deadly-nightshade', '1:10', '0.3 mL'))).toEqual([
      "ask: deadly-nightshade, read as the law's Belladonna: which part? It is within the figures of the root, the strictest",
    ]);
  });

  it('of the leaf, which the law does not name, goes by the herb that it is part of', async () => {
    expect(await told(tincture('atropa-belladonna-leaf', '1:10', '0.6 mL', '1'))).toEqual([
      "withhold: atropa-belladonna-leaf: 60 mg in one dose, and the law of the United Kingdom allows 50 mg; its part is not the law's own word, and the figures of the herb count",
    ]);
  });

  it("goes by a monograph's part", async () => {
    const of = (part: string) => ({
      ...herb({ names: '{latin: Atropa belladonna L., common: [x]}', part }),
      ...tincture('test-herb', '1:10', '0.5 mL', '1'),
    });
    expect(await found(of('herb'))).toEqual([]);
    expect((await found(of('root'))).map((f) => f.level)).toEqual(['withhold']);
  });
});

describe('parts of a plant', () => {
  it('the berry of mistletoe is barred and its herb is not; of the plant without a part it is asked', async () => {
    expect(await told(pot('viscum-album-berry', '1 g'))).toEqual([
      'withhold: viscum-album-berry: only a pharmacy may supply it in the United Kingdom, whatever the dose; it names the berry',
    ]);
    expect(await found(pot('viscum-album-herb', '9 g'))).toEqual([]);
    expect(await told(pot('mistletoe', '1 g'))).toEqual([
      'ask: mistletoe: which part? the law of the United Kingdom bars the fruit',
    ]);
  });

  it('the bark of the pomegranate is barred and its peel is not', async () => {
    expect((await found(pot('pomegranate-root-bark', '1 g'))).map((f) => f.level)).toEqual(['withhold']);
    expect(await found(pot('punica-granatum-peel', '1 g'))).toEqual([]);
  });

  it('slippery elm bark is barred whole or cut, and free as a powder', async () => {
    expect((await told(pot('slippery-elm-bark', '4 g')))[0]).toContain(
      'it names the bark whole or unpowdered',
    );
    expect(await found(powder('slippery-elm-bark', '4 g'))).toEqual([]);
    expect(await found(pot('slippery-elm-powder', '4 g'))).toEqual([]);
  });

  it('of a plant whose corm has figures, the seed has none, and that is for the practitioner', async () => {
    expect(await told(powder('colchicum-autumnale-seed', '10 mg'))).toEqual([
      'decide: colchicum-autumnale-seed: the law of the United Kingdom has figures for the corm, and none for another part',
    ]);
  });
});

describe('a plant that is for external use alone', () => {
  it('is withheld by mouth at any dose', async () => {
    expect(await told(tincture('aconite', '1:20', '0.1 mL', '1'))).toEqual([
      'withhold: aconite: no dose of it may be taken by the law of the United Kingdom; external use is allowed up to 1.3 % in the product',
    ]);
  });

  it('aconite is within 1.3 % in an ointment, and above at 1.4 %', async () => {
    expect(await found(ointment('aconitum-napellus', '1.3'))).toEqual([]);
    expect(await told(ointment('aconitum-napellus', '1.4'))).toEqual([
      'withhold: aconitum-napellus: 1.4 % in the product, and the law of the United Kingdom allows 1.3 %',
    ]);
  });

  it('counts the plant in a tincture that is put on: 1:20 is 5 g in 100 mL', async () => {
    const liniment = (ratio: string) =>
      tea({
        route: 'cutaneous',
        ingredients: `[{herb: conium-leaf, form: tincture, ratio: '${ratio} w/v', spirit: 60 % v/v, parts: 1}]`,
        preparation: '{kind: liquid-blend}',
        directions: '{apply: thinly, times: 2, for: 7 days}',
      });
    expect(await found(liniment('1:20'))).toEqual([]);
    expect(await told(liniment('1:10'))).toEqual([
      'withhold: conium-leaf: 10 % in the product, and the law of the United Kingdom allows 7 %',
    ]);
  });

  it('counts the plant in a compress, a gargle and a dusting powder', async () => {
    // 60 g in 500 mL are 12 %; 40 g are 8 %.
    expect((await told(pot('poison-oak', '60 g', 'wash', 'for: compress,')))[0]).toContain(
      '12 % in the product',
    );
    expect(await found(pot('poison-oak', '40 g', 'wash', 'for: gargle,'))).toEqual([]);
    const dust = tea({
      route: 'cutaneous',
      ingredients:
        '[{herb: jaborandi, form: powder, parts: 6}, {herb: marshmallow-root, form: powder, parts: 94}]',
      preparation: '{kind: powder}',
      directions: '{apply: thinly, times: 2, for: 7 days}',
      makes: '100 g',
    });
    expect((await told(dust))[0]).toContain(
      '6 % in the product, and the law of the United Kingdom allows 5 %',
    );
  });

  it('in a suppository may be either, and the practitioner decides', async () => {
    const files = tea({
      ingredients: '[{herb: aconitum-napellus, form: powder, parts: 1}]',
      preparation: '{kind: suppository, mould: 2 g, base: cocoa-butter, each: 200 mg, displacement: 1.5}',
      directions: '{take: 1 suppository, times: 1, for: 7 days}',
    });
    const [f, ...more] = await found(files);
    expect([f?.level, more]).toEqual(['decide', []]);
    expect(says(f)).toContain('external use is for local action');
  });
});

describe('prohibition orders', () => {
  it('kava is prohibited by mouth and exempt on the skin', async () => {
    expect(await told(pot('piper-methysticum', '1 g'))).toEqual([
      'withhold: piper-methysticum: prohibited in the United Kingdom; external use is exempt',
    ]);
    expect(await found(ointment('kava-rhizome', '10'))).toEqual([]);
  });

  it('Aristolochia of any species, and what is called Mu Tong, are prohibited on the skin too', async () => {
    for (const id of ['aristolochia-clematitis', 'birthwort', 'akebia-trifoliata', 'mu-tong', 'fangji'])
      expect((await told(ointment(id, '5')))[0], id).toMatch(/^withhold: .*prohibited in the United Kingdom/);
  });

  it('ragwort is prohibited by mouth, and on the skin above 10 %', async () => {
    expect((await told(pot('senecio-jacobaea', '1 g')))[0]).toContain(
      'prohibited in the United Kingdom; external',
    );
    expect((await told(pot('senecio-vulgaris', '1 g')))[0]).toContain('prohibited');
    expect(await found(ointment('senecio-jacobaea', '10'))).toEqual([]);
    expect((await told(ointment('jacobaea-vulgaris', '11')))[0]).toContain('11 % in the product');
  });

  it('is said once, whatever else the law has of the plant', async () => {
    expect(await found(pot('senecio-jacobaea', '1 g'))).toHaveLength(1);
  });
});

describe('a genus without its species', () => {
  it('is asked about, and another species is not', async () => {
    expect(await told(pot('artemisia', '1 g'))).toEqual([
      'ask: artemisia: which species? the law of the United Kingdom names Artemisia cina',
    ]);
    expect(await found(pot('artemisia-vulgaris', '1 g'))).toEqual([]);
    const files = { ...herb({ names: '{latin: Artemisia species, common: [x]}' }), ...tea() };
    expect((await found(files)).map((f) => f.level)).toEqual(['ask']);
  });
});

describe('whose law', () => {
  it('without a jurisdiction is asked of every plant that some law names, and of no other', async () => {
    const [f, ...more] = await told(powder('lobelia-inflata', '1 mg', '1'), { law: null });
    expect(more).toEqual([]);
    expect(f).toContain('ask: lobelia-inflata: the law of Canada and of the United Kingdom limits it');
    expect(f).toContain('jurisdiction: CA into practice.yaml');
    expect(await found(ointment('lobelia-inflata', '1'), { law: null })).toEqual([]);
    expect(await found(pot('chamomile-flower', '2 g'), { law: null })).toEqual([]);
  });

  it('of a place whose law was not read, what others limit is for the practitioner', async () => {
    for (const law of ['AU', 'other'])
      expect((await told(powder('lobelia-inflata', '1 mg', '1'), { law }))[0], law).toMatch(
        /^decide: lobelia-inflata: .* was not read: look up what it says$/,
      );
    expect(await found(pot('chamomile-flower', '2 g'), { law: 'AU' })).toEqual([]);
  });

  it('what is barred elsewhere is said, and what has a figure elsewhere is not', async () => {
    const [f] = await told(pot('aristolochia-clematitis', '1 g'), { law: 'CA' });
    expect(f).toMatch(/^note: .*nothing names it; elsewhere, prohibited in the United Kingdom/);
    expect(await found(powder('squill-bulb', '500 mg'))).toEqual([]);
  });

  it("holds the practitioner's own entries for another place", async () => {
    const own = `table: legal-limits
sources: {own-law: {body: Isle, title: Herb Act, reading: original}}
laws: [{id: isle, jurisdiction: NZ, name: the Herb Act, as_read: text of 2026, source: own-law}]
limits: [{id: isle-lobelia, law: isle, latin: [Lobelia inflata], single: 50 mg}]
`;
    const at = async (take: string) =>
      (
        await finds('legal-limit', {
          person: WELL,
          files: {
            ...powder('lobelia-inflata', take, '1'),
            'monographs/reference/legal-limits.own.yaml': own,
            'practice.yaml': 'jurisdiction: NZ\n',
          },
        })
      ).map((f) => says(f));
    expect(await at('60 mg')).toEqual([
      'lobelia-inflata: 60 mg in one dose, and the law of New Zealand allows 50 mg (the Herb Act; read in text of 2026: look up what is in force)',
    ]);
    expect(await at('50 mg')).toEqual([]);
  });
});

describe('Canada', () => {
  const ca = { law: 'CA' };
  it.each([
    ['lobelia-inflata', '130 mg', '131 mg', '130 mg'],
    ['gelsemium-root', '16.2 mg', '16.3 mg', '16.2 mg'],
    ['adonis-vernalis', '65 mg', '66 mg', '65 mg'],
    ['squill-bulb', '32.5 mg', '33 mg', '32.5 mg'],
  ])('%s: %s at once is within, %s above %s', async (id, within, above, limit) => {
    expect(await found(powder(id, within), ca)).toEqual([]);
    const [f] = await told(powder(id, above, '1'), ca);
    expect(f).toContain(`${above} in one dose, and the law of Canada allows ${limit}`);
  });

  it('a child of 7 may have a quarter of what an adult may, of 12 a half, of 18 months nothing that is stated', async () => {
    const at = (take: string, born: string) =>
      told(powder('lobelia-inflata', take, '1'), { ...ca, person: { ...WELL, born } });
    expect(await at('32.5 mg', '2019-01-01')).toEqual([]);
    expect(await at('33 mg', '2019-01-01')).toEqual([
      "withhold: lobelia-inflata, read as the law's Lobelia: 33 mg in one dose, and the law of Canada allows 32.5 mg",
    ]);
    expect(await at('65 mg', '2014-01-01')).toEqual([]);
    expect((await at('66 mg', '2014-01-01'))[0]).toContain('allows 65 mg');
    expect(await at('130 mg', '2011-01-01')).toEqual([]);
    expect(await at('1 mg', '2025-01-01')).toEqual([
      "decide: lobelia-inflata, read as the law's Lobelia: the law of Canada has no figure for this age",
    ]);
  });

  it('a limit on a constituent cannot be told where its content is not known', async () => {
    expect(await told(powder('atropa-belladonna-leaf', '50 mg'), ca)).toEqual([
      'decide: atropa-belladonna-leaf: how much belladonna alkaloids it holds cannot be told; the law of Canada allows 0.13 mg in one dose and 0.44 mg a day'.replace(
        'atropa-belladonna-leaf:',
        "atropa-belladonna-leaf, read as the law's Belladonna:",
      ),
    ]);
  });

  it('the plant never holds more of a constituent than it weighs', async () => {
    expect(await found(powder('atropa-belladonna-leaf', '0.1 mg', '1'), ca)).toEqual([]);
    expect(await found(ointment('aconitum-napellus', '0.2'), ca)).toEqual([]);
    expect((await told(ointment('aconitum-napellus', '0.3'), ca))[0]).toMatch(/^decide: .*aconitine/);
  });

  it('is judged by the content where it is known: 0.3 % of alkaloids in the leaf', async () => {
    const leaf = (content: string, take: string) => ({
      ...herb({
        names: '{latin: Atropa belladonna L., common: [x]}',
        part: 'leaf',
        constituents: `[{name: belladonna alkaloids, content: ${content}, source: a}]`,
      }),
      ...powder('test-herb', take, '1'),
    });
    // 43 mg hold 0.129 mg, 44 mg 0.132 mg.
    expect(await found(leaf('0.3 % m/m', '43 mg'), ca)).toEqual([]);
    expect((await told(leaf('0.3 % m/m', '44 mg'), ca))[0]).toContain(
      '0.132 mg of belladonna alkaloids at the least in one dose, and the law of Canada allows 0.13 mg',
    );
    expect((await told(leaf('at least 0.2 % m/m', '44 mg'), ca))[0]).toMatch(/^decide: .*cannot be told/);
  });

  it('ephedra: 400 mg at once and 1600 mg a day; its ephedrine by the stricter of two texts', async () => {
    const of = (take: string) => told(powder('ephedra-sinica', take, '4'), ca);
    expect((await of('400 mg'))[0]).toMatch(
      /^decide: ephedra-sinica: how much ephedrine it holds cannot be told; the law of Canada allows 8 mg in one dose and 32 mg a day; the Table of Limits of Drug Dosage, C.01.021 gives 11 mg in one dose and 32.5 mg a day; not beyond seven days/,
    );
    expect((await of('401 mg')).filter((t) => t.startsWith('withhold'))).toHaveLength(2);
  });

  it('kava is not prohibited, but 3 g of the rhizome a day are the most', async () => {
    expect((await told(pot('piper-methysticum', '1 g', 'infusion', '', '2'), ca)).join()).not.toContain(
      'withhold',
    );
    expect((await told(pot('kava-rhizome', '2 g', 'infusion', '', '2'), ca)).join()).toContain(
      '4 g a day, and the law of Canada allows 3 g',
    );
  });

  it('no strychnine and no podophyllin', async () => {
    expect((await told(powder('nux-vomica-seed', '1 mg'), ca))[0]).toContain(
      'no dose of it is allowed in Canada',
    );
    expect((await told(ointment('podophyllum-peltatum', '1'), ca))[0]).toContain('no dose of it is allowed');
  });
});

describe('what a decision rests on', () => {
  it('the dose and the law, and not the times where one dose is meant', async () => {
    const basis = async (take: string, times: string) =>
      (await found(tincture('lobelia-inflata', '1:5', take, times))).find((f) => f.id.endsWith('single'))
        ?.basis;
    expect(await basis('1.5 mL', '1')).toBe(await basis('1.5 mL', '2'));
    expect(await basis('1.5 mL', '1')).not.toBe(await basis('1.6 mL', '1'));
  });

  it('other findings may be accepted', async () => {
    const c = await judge({ formula: 'test-tea', person: WELL, files: { ...powder('x-y', '1 g') } });
    expect(c.findings.map((f) => f.accept)).toEqual([true]);
  });
});
