import { describe, expect, it } from 'vitest';
import { judge, says, WELL, WOMAN } from './judge.ts';
import { finds, herb, levels, tea, teaOf } from './small.ts';

const pregnant = (weeks: string, more = {}) => ({ ...WOMAN, pregnant: weeks, ...more });

const stage = (
  keys: Record<string, string | undefined>,
  person: Record<string, string | undefined>,
  on?: string,
) => finds('stage', { person, files: { ...herb(keys), ...tea() }, ...(on ? { on } : {}) });

describe('the rule on pregnancy and breastfeeding', () => {
  it('fires for sage leaf in pregnancy, and is quiet for chamomile tea, which its source finds acceptable', async () => {
    const [f] = await finds('stage', { person: pregnant('20 weeks'), files: teaOf('sage-leaf') });
    expect(f).toMatchObject({ level: 'decide', herb: 'sage-leaf' });
    expect(await finds('stage', { person: pregnant('20 weeks'), files: teaOf('chamomile-flower') })).toEqual(
      [],
    );
  });

  it('decides where nothing was read, which is not the same as acceptable', async () => {
    const [f] = await stage({ pregnancy: undefined }, pregnant('20 weeks'));
    expect(f?.level).toBe('decide');
    expect(says(f)).toBe('nothing was read about test-herb in pregnancy for this preparation');
    expect(levels(await stage({ breastfeeding: undefined }, { ...WOMAN, breastfeeding: 'yes' }))).toEqual([
      'decide',
    ]);
    expect(await stage({ pregnancy: undefined, breastfeeding: undefined }, WOMAN)).toEqual([]);
  });

  it('takes what is allowed for one kind of tea for that kind alone, and what is barred for every kind', async () => {
    const cold = '{kind: cold-maceration, herb: 2 g, water: 200 mL, strained: 200 mL, macerate: 8 h}';
    const of = async (pregnancy: string) =>
      says(
        (
          await finds('stage', {
            person: pregnant('20 weeks'),
            files: { ...herb({ pregnancy }), ...tea({ preparation: cold }) },
          })
        )[0],
      );
    expect(await of('{says: acceptable, preparation: infusion, source: a}')).toContain('nothing was read');
    expect(await of('{says: contraindicated, preparation: infusion, source: a}')).toContain(
      'must not be used',
    );
    const apart =
      '[{says: contraindicated, preparation: infusion, source: a}, {says: acceptable, preparation: cold-maceration, source: a}]';
    expect(await of(apart)).toBe('');
  });

  it('makes one finding of several sources, the gravest first, whatever their order', async () => {
    const lines = ['{says: not-recommended, source: a}', '{says: contraindicated, source: b}'];
    const [f, ...more] = await stage({ pregnancy: `[${lines}]` }, pregnant('20 weeks'));
    expect(more).toEqual([]);
    expect(f?.level).toBe('withhold');
    expect(says(f)).toBe('test-herb must not be used in pregnancy; also Body A says it is not recommended');
    const [back] = await stage({ pregnancy: `[${lines.reverse()}]` }, pregnant('20 weeks'));
    expect(back).toEqual(f);
  });

  describe('by weeks', () => {
    const pregnancy =
      '[{says: not-recommended, weeks: 0-27, source: a}, {says: contraindicated, weeks: 28-42, source: a}]';
    const at = async (weeks: string, asked: string, on: string) =>
      levels(await stage({ pregnancy }, pregnant(weeks, { asked }), on));

    it('counts completed weeks, both ends included', async () => {
      const today = '2026-05-02';
      expect(await at('27 weeks', today, today)).toEqual(['decide']);
      expect(await at('28 weeks', today, today)).toEqual(['withhold']);
      expect(await at('42 weeks', today, today)).toEqual(['withhold']);
    });

    it('counts them on from the day of asking', async () => {
      expect(await at('26 weeks', '2026-04-18', '2026-05-02')).toEqual(['withhold']);
      expect(await at('25 weeks', '2026-04-18', '2026-05-02')).toEqual(['decide']);
    });

    it('asks for the week where the days since may have carried it over an edge', async () => {
      // 27 weeks and up to 6 days on the Monday are 27 or 28 weeks on the Wednesday.
      expect(await at('27 weeks', '2026-04-27', '2026-04-29')).toEqual(['ask']);
      expect(await at('27 weeks', '2026-04-22', '2026-04-29')).toEqual(['withhold']);
    });

    it('leaves a pregnancy that runs on in its last weeks', async () => {
      expect(await at('41 weeks', '2026-04-10', '2026-05-02')).toEqual(['withhold']);
    });

    it('asks for the week where only yes was said, beside what holds in any week', async () => {
      const any = '{says: not-recommended, source: b}';
      const found = await stage({ pregnancy: pregnancy.replace(']', `, ${any}]`) }, pregnant('yes'));
      expect(found.map((f) => `${f.level} ${f.id}`).sort()).toEqual([
        'ask stage/test-herb/possible-pregnant',
        'decide stage/test-herb/pregnant',
      ]);
      expect(says(found.find((f) => f.level === 'ask'))).toContain('in which week is the pregnancy?');
    });
  });

  it('believes an answer, whoever gave it: pregnant is pregnant', async () => {
    const man = { ...WELL, pregnant: '20 weeks' };
    const keys = { pregnancy: '{says: contraindicated, source: a}' };
    expect(levels(await stage(keys, man))).toEqual(['withhold']);
    // And once said, it is asked again when it is too old.
    const old = await finds('stale-answer', {
      person: man,
      on: '2026-07-01',
      files: { ...herb(keys), ...tea() },
    });
    expect(old.map((f) => f.id)).toContain('stale-answer/formula/pregnant');
  });

  it('says nothing of a person to whom the question does not apply', async () => {
    const keys = { pregnancy: undefined, breastfeeding: undefined };
    for (const person of [
      WELL,
      { ...WOMAN, born: '1950-01-01', pregnant: undefined, breastfeeding: undefined },
    ])
      expect(await stage(keys, person)).toEqual([]);
  });

  it('asks someone of unknown sex and age, for it may apply', async () => {
    const person = { ...WELL, sex: undefined, born: undefined };
    const c = await judge({
      formula: 'test-tea',
      person,
      files: { ...herb({ pregnancy: undefined }), ...tea() },
    });
    expect(c.findings.filter((f) => f.rule === 'unanswered').map((f) => f.id)).toEqual([
      'unanswered/formula/age',
      'unanswered/formula/pregnant',
    ]);
  });
});
