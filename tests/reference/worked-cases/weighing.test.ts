import { describe, expect, it } from 'vitest';
import { leastWeighable, triturate, weighingError } from '../../../src/compounding/weighing.ts';
import { exact } from '../../../src/measure/exact.ts';
import { compareQuantities, over, times } from '../../../src/measure/quantity.ts';
import { held, makes, strengthOf } from '../../../src/measure/strength.ts';
import { q, value } from '../../compounding/formula.ts';
import { answer, workThrough } from './cases.ts';

const UNC = 'University of North Carolina, Pharmaceutics and Compounding Laboratory';
const ACCURATE = 'Accurate weighing for prescriptions, a pharmaceutical calculations textbook';
const LEAST = 'Minimum weighable quantity calculation, a pharmacy calculation teaching site, 2024';
const REVIEW = 'Calculation questions 1 to 15, a review book';
const HOUSTON =
  'Sensitivity requirement; minimum weighable quantity, University of Houston, PHAR 4330 modules';
const USP_41 = 'Balances, US Pharmacopeial Convention, general chapter 41, official 1 August 2019';
const USP_41_SUMMARY = 'Summary of the changes to US Pharmacopeia general chapter 41';

workThrough('weighing', [
  {
    id: 'PC-128',
    task: 'the error in weighing 50 mg at a sensitivity of 6 mg',
    source: `Weighing, ${UNC}`,
    answers: () => [answer(weighingError(q('6 mg'), q('50 mg')), '12 %')],
  },
  {
    id: 'PC-129',
    task: 'the least for 6 mg at 5 %',
    source: `Weighing, ${UNC}`,
    answers: () => [answer(leastWeighable(q('6 mg'), q('5 %')), '120 mg', '120')],
  },
  {
    id: 'PC-130',
    task: 'the least for 6 mg at 1 %',
    source: ACCURATE,
    answers: () => [answer(leastWeighable(q('6 mg'), q('1 %')), '600 mg', '600')],
  },
  {
    id: 'PC-131',
    task: 'the least for 10 mg at 5 %',
    source: LEAST,
    answers: () => [answer(leastWeighable(q('10 mg'), q('5 %')), '200 mg', '200')],
  },
  {
    id: 'PC-132',
    task: 'the least for 2.5 mg at 3 %',
    source: LEAST,
    answers: () => [answer(leastWeighable(q('2.5 mg'), q('3 %')), '250/3 mg', '83.3')],
  },
  {
    id: 'PC-133',
    task: 'the least for 4 mg at 5 %',
    source: ACCURATE,
    answers: () => [answer(leastWeighable(q('4 mg'), q('5 %')), '80 mg')],
  },
  {
    id: 'PC-134',
    task: 'the least for 6 mg, right to 98 %',
    source: REVIEW,
    answers: () => [answer(leastWeighable(q('6 mg'), q('2 %')), '300 mg')],
  },
  {
    id: 'PC-135',
    task: 'the sensitivity of a balance that 20 mg move by two divisions',
    source: HOUSTON,
    answers: () => [answer(over(q('20 mg'), 2), '10 mg', '10')],
  },
  {
    id: 'PC-136',
    task: 'an aliquot of 125 mg that holds 2 mg',
    source: ACCURATE,
    answers: () => {
      const t = value(triturate(q('2 mg'), q('120 mg'), q('125 mg'), 60));
      return [
        answer(t.weigh, '120 mg', '120'),
        answer(t.mixture, '7500 mg', '7500'),
        answer(t.diluent, '7380 mg', '7380'),
        answer(held(value(strengthOf(t.weigh, t.mixture)), t.aliquot), '2 mg', '2'),
      ];
    },
  },
  {
    id: 'PC-137',
    task: '20 mg in a liquid aliquot of 5 mL',
    source: `Liquid aliquot method, ${UNC}`,
    answers: () => {
      const { weigh } = value(triturate(q('20 mg'), q('120 mg')));
      const solution = value(makes(value(strengthOf(q('20 mg'), q('5 mL'))), weigh));
      return [
        answer(weigh, '120 mg', '120'),
        answer(solution, '30 mL', '30'),
        answer(makes(value(strengthOf(weigh, solution)), q('20 mg')), '5 mL', '5'),
      ];
    },
  },
  {
    // The chapter asks for twice the standard deviation to be at most 0.10 % of what is weighed.
    id: 'PC-138',
    task: 'the minimum weight for a standard deviation of 0.15 mg',
    source: USP_41,
    answers: () => [answer(leastWeighable(times(q('0.00015 g'), 2), q('0.10 %')), '300 mg', '300.00')],
  },
  {
    // A standard deviation below 0.41 of the scale interval counts as 0.41 of it.
    id: 'PC-139',
    task: 'the lowest minimum weight for an interval of 0.1 mg',
    source: USP_41_SUMMARY,
    answers: () => {
      const deviation = times(q('0.1 mg'), exact('0.41'));
      return [answer(leastWeighable(times(deviation, 2), q('0.10 %')), '82 mg')];
    },
  },
]);

describe('the class of a balance', () => {
  it('PC-135: 10 mg do not meet the 6 mg of class A', () => {
    expect(compareQuantities(over(q('20 mg'), 2), q('6 mg'))).toBeGreaterThan(0);
  });
});
