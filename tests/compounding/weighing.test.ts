import { describe, expect, it } from 'vitest';
import { leastWeighable, triturate, weighingError } from '../../src/compounding/weighing.ts';
import { held, strengthOf } from '../../src/measure/strength.ts';
import { write } from '../../src/measure/write.ts';
import { BENCH, byMass, made, q, shown, shownExact, value, why } from './formula.ts';

// University of North Carolina, Pharmaceutics and Compounding Laboratory, "Weighing": 6 mg at 5 % is 120 mg.
describe('the least that a balance weighs well enough', () => {
  it('is its sensitivity over the permitted error', () => {
    expect(write(leastWeighable(q('6 mg'), q('5 %')))).toBe('120 mg');
    expect(write(leastWeighable(q('0.1 g'), q('5 %')))).toBe('2 g');
  });

  it('the error grows as the weight falls, and at the least weighable it is just what is permitted', () => {
    expect(write(weighingError(q('6 mg'), q('120 mg')))).toBe('5 %');
    expect(write(weighingError(q('6 mg'), q('0.05 g')))).toBe('12 %');
  });
});

describe('a line below the least weighable', () => {
  const POTENT = `
ingredients: [{herb: chamomile-flower, parts: 199}, {herb: ginger-rhizome, parts: 1}]
preparation: {kind: powder}`;

  it('is marked, with the least and a trituration that holds what is needed', async () => {
    const batch = await made(POTENT, byMass('60 g'));
    const [chamomile, ginger] = batch.lines;
    expect(chamomile?.tooSmall).toBeUndefined();
    expect(shownExact(ginger?.tooSmall?.least)).toBe('2 g');
    const t = ginger?.tooSmall?.trituration;
    // 0.3 g seven times over is the first that reaches 2 g; 7 aliquots of 4 g are the mixture.
    expect([shown(t?.weigh), shown(t?.diluent), shown(t?.mixture), shown(t?.aliquot)]).toEqual([
      '2.1 g',
      '25.9 g',
      '28 g',
      '4 g',
    ]);
  });

  it('is judged by what is weighed: exactly the least is enough', async () => {
    const batch = await made(POTENT, byMass('400 g'));
    expect(batch.lines[1]?.tooSmall).toBeUndefined();
    const less = await made(POTENT, byMass('380 g'));
    expect(shown(less.lines[1]?.tooSmall?.least)).toBe('2 g');
  });

  it('depends on the balance', async () => {
    const better = {
      ...BENCH,
      balance: {
        name: 'balance' as const,
        step: q('0.01 g'),
        sensitivity: q('10 mg'),
        permittedError: q('5 %'),
      },
    };
    expect((await made(POTENT, byMass('60 g'), better)).lines[1]?.tooSmall).toBeUndefined();
  });
});

describe('trituration', () => {
  it('weighs a whole multiple, and the aliquot holds exactly what is needed', () => {
    const t = value(triturate(q('2 mg'), q('120 mg'), q('125 mg')));
    expect(write(t.weigh)).toBe('120 mg');
    expect(write(value(held(value(strengthOf(t.weigh, t.mixture)), t.aliquot)))).toBe('0.002 g');
  });

  it('every weighing of it reaches the least weighable', () => {
    for (const needed of ['1 mg', '7 mg', '61 mg', '119 mg']) {
      const t = value(triturate(q(needed), q('120 mg')));
      for (const weighed of [t.weigh, t.diluent, t.aliquot]) {
        expect(weighed.value.gte(120), `${needed}: ${write(weighed)}`).toBe(true);
      }
    }
  });

  it('takes a higher multiple where it is asked for, never a lower one', () => {
    expect(write(value(triturate(q('50 mg'), q('120 mg'), q('240 mg'), 4)).weigh)).toBe('200 mg');
    expect(why(triturate(q('50 mg'), q('120 mg'), q('240 mg'), 2))).toMatch(/^a multiple of 2 .* take 3$/);
  });

  it('refuses what cannot be weighed or needs none of it', () => {
    expect(why(triturate(q('2 mg'), q('120 mg'), q('100 mg')))).toMatch(
      /^an aliquot of 100 mg cannot be weighed/,
    );
    expect(why(triturate(q('130 mg'), q('120 mg'), q('130 mg')))).toMatch(/weigh it$/);
    expect(why(triturate(q('119 mg'), q('120 mg'), q('121 mg')))).toMatch(/^the diluent would be too small/);
    expect(why(triturate(q('0 mg'), q('120 mg')))).toMatch(/^nothing is needed/);
  });
});
