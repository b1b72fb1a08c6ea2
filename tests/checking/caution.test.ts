import { describe, expect, it } from 'vitest';
import { judge, says, WELL, WOMAN } from './judge.ts';
import { finds, herb, levels, tea } from './small.ts';

const warned = (cautions: string, person: Record<string, string | undefined> | null, more = {}) =>
  finds('caution', { person, files: { ...herb({ cautions, ...more }), ...tea() } });

const on = (...medicines: string[]) => ({ ...WELL, medicines: JSON.stringify(medicines) });
const having = (...conditions: string[]) => ({ ...WELL, conditions: JSON.stringify(conditions) });

describe('the rule on cautions', () => {
  it('fires for willow bark beside warfarin, and is quiet for someone on nothing', async () => {
    const willow = await finds('caution', { formula: 'stiff-joints', person: on('warfarin') });
    expect(willow).toMatchObject([
      { level: 'withhold', herb: 'willow-bark', id: 'caution/willow-bark/medicine-warfarin' },
    ]);
    expect(await finds('caution', { formula: 'stiff-joints', person: WELL })).toEqual([]);
  });

  it('makes one finding of what several sources say of one medicine, the gravest leading', async () => {
    const [f, ...more] = await finds('caution', { formula: 'winter-chest', person: on('furosemide') });
    expect(more).toEqual([]);
    expect(f?.level).toBe('withhold');
    expect(says(f)).toBe(
      'liquorice-root is to be avoided with furosemide: may worsen an imbalance of salts; also EMA/HMPC says it calls for monitoring (may work against the lowering of blood pressure)',
    );
  });

  it('makes a finding of its own of each medicine and condition, so that another one changes none of them', async () => {
    const few = await finds('caution', { formula: 'winter-chest', person: on('ramipril') });
    const many = await finds('caution', {
      formula: 'winter-chest',
      person: on('bisoprolol', 'ramipril', 'furosemide'),
    });
    const idAndBasis = (list: typeof few) => list.map((f) => `${f.id} ${f.basis}`);
    expect(idAndBasis(many)).toEqual(expect.arrayContaining(idAndBasis(few)));
    expect(many.length).toBe(3);
  });

  it('calls a condition by its plain name, and never by the key of the table', async () => {
    const [f] = await finds('caution', { formula: 'winter-chest', person: having('heart failure') });
    expect(says(f)).toContain('in heart failure:');
    expect(says(f)).not.toContain('_');
  });

  it('asks as possible where a group word takes in what is barred, and says what it would matter for', async () => {
    const [f] = await warned(
      '[{when: {medicine: [vitamin_k_antagonists]}, says: avoid, why: bleeding, source: a}]',
      on('blood thinner'),
    );
    expect(f).toMatchObject({ level: 'ask', herb: 'test-herb' });
    expect(says(f)).toMatch(
      /^possible: test-herb is to be avoided with .*: bleeding; which medicine is "blood thinner"\?$/,
    );
  });

  it('never gives what is certain and what is possible the same id', async () => {
    const c = await judge({ formula: 'stiff-joints', person: on('blood thinner') });
    const ids = c.findings.filter((f) => f.rule === 'caution').map((f) => f.id);
    expect(ids.some((id) => id.includes('/possible-'))).toBe(true);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('says a note even where its answer is open, and asks nothing for it', async () => {
    const drives = '[{when: {drives: yes}, says: may-impair-driving, why: drowsy, source: a}]';
    const open = { ...WELL, drives: undefined };
    expect(levels(await warned(drives, open))).toEqual(['note']);
    expect(
      await finds('unanswered', { person: open, files: { ...herb({ cautions: drives }), ...tea() } }),
    ).toEqual([]);
    expect(await warned(drives, { ...WELL, drives: 'no' })).toEqual([]);
    expect(await warned(drives, { ...open, born: '2020-01-01' })).toEqual([]);
  });

  it('reads as a sentence where a note names a list that was not asked about', async () => {
    const fever = '[{when: {condition: [fever]}, says: see-someone, why: fever needs a doctor, source: a}]';
    const [f] = await warned(fever, { ...WELL, conditions: undefined });
    expect(says(f)).toBe('test-herb calls for seeing a doctor: fever needs a doctor');
  });

  it('keeps a caution to its preparation, route and use', async () => {
    const only = (limit: string) => `[{when: {}, says: contraindicated, why: x, ${limit}, source: a}]`;
    expect(await warned(only('preparation: powder'), WELL)).toEqual([]);
    expect(await warned(only('route: bath'), WELL)).toEqual([]);
    expect(levels(await warned(only('preparation: infusion'), WELL))).toEqual(['withhold']);
    expect(levels(await warned(only('preparation: decoction'), WELL))).toEqual(['withhold']);
    expect(levels(await warned(only('use: sleep'), WELL))).toEqual(['withhold']);
    const slept = (use: string) =>
      finds('caution', {
        person: WELL,
        files: { ...herb({ cautions: only('use: sleep') }), ...tea({ use }) },
      });
    expect(await slept('fever')).toEqual([]);
    expect(levels(await slept('sleep'))).toEqual(['withhold']);
  });

  it('warns once of a herb that stands in two formulas', async () => {
    const person = { ...WELL, allergies: '[daisy family]' };
    const one = await judge({ formula: 'after-supper', person });
    const two = await judge({ formula: ['after-supper', 'quiet-evening'], person });
    const of = (c: typeof one) => c.findings.filter((f) => f.rule === 'caution' && f.level === 'withhold');
    expect(of(two).map((f) => [f.id, f.basis])).toEqual(of(one).map((f) => [f.id, f.basis]));
    expect(says(of(two)[0])).not.toContain('also');
  });

  it('names a medicine that was stopped lately with the day, and passes over one stopped long ago', async () => {
    const stopped = (day: string) => ({ ...WELL, medicines: `[{name: warfarin, stopped: ${day}}]` });
    const [f] = await finds('caution', { formula: 'stiff-joints', person: stopped('2026-04-20') });
    expect(f?.level).toBe('withhold');
    expect(says(f)).toContain('with warfarin (stopped 2026-04-20)');
    expect(await finds('caution', { formula: 'stiff-joints', person: stopped('2026-01-20') })).toEqual([]);
  });

  it('counts a medicine until the day on which it is to be stopped', async () => {
    const person = { ...WELL, medicines: '[{name: warfarin, stopped: 2026-06-01}]' };
    const [f] = await finds('caution', { formula: 'stiff-joints', person });
    expect(says(f)).toContain('with warfarin:');
  });

  it('takes a denial for an answer: it settles what a broader word leaves open', async () => {
    const barred = '[{when: {condition: [heart_failure]}, says: contraindicated, why: x, source: a}]';
    expect(levels(await warned(barred, having('heart disease')))).toEqual(['ask']);
    expect(await warned(barred, having('heart disease', 'no heart failure'))).toEqual([]);
    expect(levels(await warned(barred, having('heart failure', 'no heart failure')))).toEqual(['withhold']);
  });

  it('finds a sign that two answers make together', async () => {
    const together = '[{when: {condition: [rf_fever_urinary]}, says: avoid, why: x, source: a}]';
    const [f] = await warned(together, having('painful urination', 'fever'));
    expect(f?.level).toBe('withhold');
    expect(levels(await warned(together, having('painful urination')))).toEqual(['ask']);
    expect(await warned(together, having('painful urination', 'no fever'))).toEqual([]);
  });

  it('finds without a person only what the formulas settle', async () => {
    const cautions =
      '[{when: {}, says: tell, why: always, source: a}, {when: {drives: yes}, says: may-impair-driving, why: x, source: a}, {when: {taking: [senna-leaf]}, says: avoid, why: salts, source: a}]';
    expect(levels(await warned(cautions, null))).toEqual(['note']);
    const both = await finds('caution', {
      person: null,
      files: {
        ...herb({ cautions }),
        ...tea({ ingredients: '[{herb: test-herb, parts: 1}, {herb: senna-leaf, parts: 1}]' }),
      },
    });
    expect(levels(both).sort()).toEqual(['note', 'withhold']);
  });

  it('says in words what else a caution asks of the person', async () => {
    const [f] = await warned(
      '[{when: {breastfeeding: yes, condition: [asthma]}, says: caution, why: x, source: a}]',
      { ...WOMAN, breastfeeding: 'yes', conditions: '[asthma]' },
    );
    expect(says(f)).toBe('test-herb is to be used with caution in asthma, while breastfeeding: x');
  });
});
