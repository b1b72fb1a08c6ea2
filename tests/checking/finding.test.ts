import { describe, expect, it } from 'vitest';
import { canonical, finding, prose } from '../../src/checking/finding.ts';
import { given } from '../../src/measure/figure.ts';
import { quantity } from '../../src/measure/quantity.ts';
import { FORMULAS } from '../cli/scruple.ts';
import { judge, says, WELL, WOMAN } from './judge.ts';
import { finds, herb, tea } from './small.ts';

const make = (subject: string, facts: Record<string, unknown>, level: 'note' | 'decide' = 'note') =>
  finding({ rule: 'r', herb: 'h', subject, level, say: ['x'], facts });

describe('an id', () => {
  it('is rule, herb and subject in plain letters', () => {
    expect(make('Crème  de (menthe), 1.5 g', {}).id).toBe('r/h/creme-de-menthe-1.5-g');
    expect(make('', {}).id).toBe('r/h/none');
    expect(finding({ rule: 'r', herb: null, subject: 's', level: 'note', say: [], facts: {} }).id).toBe(
      'r/formula/s',
    );
  });

  it('keeps letters of any alphabet, so that two words stay two', () => {
    expect(make('варфарин', {}).id).not.toBe(make('дигоксин', {}).id);
  });
});

describe('a basis', () => {
  it('hangs on the facts and the level, and on no order among them', () => {
    const facts = { a: [1, 2], b: { x: 'p', y: 'q' } };
    const { basis } = make('s', facts);
    expect(basis).toMatch(/^[0-9a-f]{12}$/);
    expect(make('s', { b: { y: 'q', x: 'p' }, a: [2, 1] }).basis).toBe(basis);
    expect(make('s', { ...facts, a: [1, 3] }).basis).not.toBe(basis);
    expect(make('s', facts, 'decide').basis).not.toBe(basis);
  });

  it('reads numbers as numbers, and an absent fact as none', () => {
    expect(canonical({ q: quantity('1.50', 'g') })).toBe(canonical({ q: quantity('1.5', 'g') }));
    expect(canonical({ q: quantity('1.5', 'g') })).not.toBe(canonical({ q: quantity('1.5', 'mg') }));
    expect(canonical({ a: 1, b: undefined })).toBe(canonical({ a: 1 }));
  });

  it('reads prose without its commas and capitals, and with its figures', () => {
    expect(prose('Not above 2.5 g, with food.')).toBe(prose('not above 2.5 g with food'));
    expect(prose('not above 2.5 g')).not.toBe(prose('not above 25 g'));
  });
});

describe('the sentence of a finding', () => {
  it('closes up before punctuation and inside brackets', () => {
    const f = finding({
      rule: 'r',
      herb: 'h',
      subject: 's',
      level: 'note',
      say: [
        'taken for',
        given(quantity(5, 'd'), 'course'),
        ', and (',
        given(quantity(2, 'g'), 'dose'),
        ') at once',
      ],
      facts: {},
    });
    expect(says(f)).toBe('taken for 5 days, and (2 g) at once');
  });
});

describe('a finding of a caution', () => {
  const person = { ...WELL, medicines: '[warfarin, digoxin]' };
  const of = async (...lines: string[]) => {
    const files = { ...herb({ cautions: `[${lines.join(', ')}]` }), ...tea() };
    return (await finds('caution', { person, files })).map((f) => `${f.id} ${f.basis}`).sort();
  };
  const one = '{when: {medicine: [warfarin, digoxin]}, says: avoid, why: "bleeds, and more", source: a}';
  const two = '{when: {medicine: [digoxin]}, says: monitor, why: watch it, source: b}';

  it('stands whatever the order of cautions and of the words in them', async () => {
    const turned = one.replace('warfarin, digoxin', 'digoxin, warfarin');
    expect(await of(two, turned)).toEqual(await of(one, two));
  });

  it('stands over a comma and a note', async () => {
    const commaless = one
      .replace('bleeds, and more', 'Bleeds and more.')
      .replace('source', 'note: see page 2, source');
    expect(await of(commaless, two)).toEqual(await of(one, two));
  });

  it('lapses when its own source says more, and the one beside it stands', async () => {
    const [digoxin, warfarin] = await of(one, two);
    const [other, same] = await of(one, two.replace('monitor', 'contraindicated'));
    expect(same).toBe(warfarin);
    expect(other).not.toBe(digoxin);
    expect(other?.split(' ')[0]).toBe(digoxin?.split(' ')[0]);
  });
});

it('ids are one of a kind in any check of several formulas', async () => {
  const person = {
    ...WOMAN,
    born: '2014-05',
    pregnant: 'yes',
    medicines:
      '[warfarin, warfarin sodium, blood thinner, lithium carbonate, zzyzx, Zzyzx, furosemide, digoxin]',
    allergies: '[aspirin, ibuprofen, ragweed, ambrosia, mint family, celery, thyme]',
    conditions: '[asthma, heart disease, heart failure, no stroke, high blood pressure, K80]',
    taking: '[senna-leaf, {formula: winter-chest}, {product: Capsules}]',
    surgery: '2026-04-01',
  };
  const ids = (await judge({ formula: FORMULAS, person })).findings.map((f) => f.id);
  expect(ids.length).toBeGreaterThan(30);
  expect(new Set(ids).size).toBe(ids.length);
});
