import { describe, expect, it } from 'vitest';
import { says, WELL, WOMAN } from './judge.ts';
import { finds, herb, tea } from './small.ts';

const open = async (
  person: Record<string, string | undefined>,
  keys: Record<string, string | undefined> = {},
) =>
  (await finds('unanswered', { person, files: { ...herb(keys), ...tea() } })).map((f) =>
    f.id.split('/')[2]?.replace(/-/g, '_'),
  );

const without = (person: Readonly<Record<string, string>>, ...left: string[]) => ({
  ...person,
  ...Object.fromEntries(left.map((k) => [k, undefined])),
});

const barred = (when: string) => ({ cautions: `[{when: {${when}}, says: avoid, why: x, source: a}]` });

describe('the rule on unanswered questions', () => {
  it('fires for a woman of 30 not asked about pregnancy, and is quiet for a man of 70', async () => {
    const keys = { pregnancy: undefined };
    expect(await open(without(WOMAN, 'pregnant'), keys)).toEqual(['pregnant']);
    expect(await open({ ...WELL, born: '1956-01-01' }, keys)).toEqual([]);
  });

  it('asks the question in words and names the herbs it matters for', async () => {
    const [f] = await finds('unanswered', {
      formula: 'stiff-joints',
      person: without(WOMAN, 'breastfeeding'),
    });
    expect(says(f)).toBe('Are they breastfeeding? It matters for meadowsweet-herb, willow-bark');
  });

  it.each([
    ['medicines', 'medicine: [warfarin]'],
    ['conditions', 'condition: [asthma]'],
    ['taking', 'taking: [senna-leaf]'],
    ['drives', 'drives: yes'],
    ['avoids_alcohol', 'avoids_alcohol: yes'],
    ['fluid_restricted', 'fluid_restricted: yes'],
    ['surgery', 'surgery_within: 14 days'],
    ['sex', 'sex: male'],
  ])('asks for %s where a caution hangs on it, and not otherwise', async (question, when) => {
    expect(await open(without(WELL, question), barred(when))).toContain(question);
    expect(await open(without(WELL, question))).not.toContain(question);
  });

  it('always asks how old someone is and what they are allergic to', async () => {
    expect((await open(without(WELL, 'born', 'allergies'))).sort()).toEqual(['age', 'allergies']);
  });

  it('is quiet where another answer settles it: unknown and false is quiet, unknown and true asks', async () => {
    const both = barred('medicine: [warfarin], sex: female');
    expect(await open(without(WELL, 'medicines'), both)).toEqual([]);
    expect(await open(without(WOMAN, 'medicines'), both)).toEqual(['medicines']);
  });

  it('does not ask whether someone who is pregnant could become pregnant', async () => {
    const keys = barred('trying_to_conceive: yes');
    const left = without(WOMAN, 'trying_to_conceive');
    expect(await open(left, keys)).toEqual(['trying_to_conceive']);
    expect(await open({ ...left, pregnant: '30 weeks' }, keys)).toEqual([]);
  });

  it('asks nothing for a note', async () => {
    const note = { cautions: '[{when: {drives: yes}, says: may-impair-driving, why: x, source: a}]' };
    expect(await open(without(WELL, 'drives'), note)).toEqual([]);
  });

  it('never asks for a weight: no rule hangs on it', async () => {
    expect(await open(without(WELL, 'weight'))).toEqual([]);
  });

  it('asks nobody where nobody was named', async () => {
    expect(await finds('unanswered', { person: null, files: { ...herb(), ...tea() } })).toEqual([]);
  });
});
