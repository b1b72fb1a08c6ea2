import { expect, it } from 'vitest';
import { judge, says, WELL } from './judge.ts';
import { finds, herb, tea } from './small.ts';

const FILES = { ...herb(), ...tea() };
const having = (conditions: string) =>
  finds('urgent-sign', { person: { ...WELL, conditions }, files: FILES });

it('fires for coughing blood, and is quiet for a cough', async () => {
  const [f, ...more] = await having('[coughing blood]');
  expect(more).toEqual([]);
  expect(f).toMatchObject({ level: 'decide', herb: null });
  expect(says(f)).toBe('coughing blood: this belongs to a doctor the same day, whatever is taken for it');
  expect(await having('[bronchitis]')).toEqual([]);
});

it('is never clear for a herb that says nothing of the sign', async () => {
  const c = await judge({
    formula: 'test-tea',
    person: { ...WELL, conditions: '[black tarry stools]' },
    files: FILES,
  });
  expect(c.verdict).toBe('decide');
});

it('is a note where a doctor can wait, and a decision where the day or the hour counts', async () => {
  expect((await having('[blood in the urine]')).map((f) => f.level)).toEqual(['note']);
  expect((await having('[crushing chest pain]')).map((f) => f.level)).toEqual(['decide']);
});

it('finds a sign that only two answers make, and none that was denied', async () => {
  const ids = async (list: string) => (await having(list)).map((f) => f.id);
  expect(await ids('[painful urination, fever]')).toContain('urgent-sign/formula/rf-fever-urinary');
  expect(await ids('[painful urination]')).not.toContain('urgent-sign/formula/rf-fever-urinary');
  expect(await ids('[no chest pain]')).toEqual([]);
});

it('does not take the code of an illness for a sign of today', async () => {
  // ICD-10 G40 is epilepsy, I20 angina, R04.2 coughing blood itself.
  expect(await having('[G40, I20]')).toEqual([]);
  expect(await having('[R04.2]')).toHaveLength(1);
});

it('says nothing where nobody was asked', async () => {
  expect(await finds('urgent-sign', { person: null, files: FILES })).toEqual([]);
  expect(await finds('urgent-sign', { person: { ...WELL, conditions: undefined }, files: FILES })).toEqual(
    [],
  );
});
