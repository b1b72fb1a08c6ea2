import { describe, expect, it } from 'vitest';
import { exact } from '../../../src/measure/exact.ts';
import { inUnit, minus, plus, type Quantity } from '../../../src/measure/quantity.ts';
import { type Basis, held, makes, oneIn, ratioStrength, strengthOf } from '../../../src/measure/strength.ts';
import { q, value } from '../../compounding/formula.ts';
import { answer, workThrough } from './cases.ts';

/**
 * Each stock is made up to a volume, or weighed. Where water is added to a volume instead (PC-051, 054, 056) the
 * texts take volumes as adding up, which is near enough for weak solutions of solids and wrong for spirit.
 */
const KENT = 'University of Kent, Student Learning Advisory Service';
const SERIAL = `At a glance: serial dilutions, ${KENT}, 10`;
const MULTIPLE = `At a glance: multiple dilutions, ${KENT}, 11`;
const ARMY =
  'Pharmaceutical calculations, lesson 2, exercises page 2-27, US Army Medical Department Center and School, Subcourse MD0802';
const HOUSTON = 'Dilution and concentration, practice, University of Houston, PHAR 4330 modules';
const KERBALA = 'Pharmaceutical calculations, lab 10: alligation, University of Kerbala, College of Pharmacy';

const inN = (n: number, basis: Basis) => value(ratioStrength(exact(n), basis));
const has = (strength: Quantity, amount: string) => value(held(strength, q(amount)));
const made = (strength: Quantity, part: Quantity) => value(makes(strength, part));

workThrough('dilution of a stock', [
  {
    id: 'PC-040',
    task: '20 % for 500 mL of 5 %',
    source: SERIAL,
    answers: () => [answer(makes(q('20 % v/v'), has(q('5 % v/v'), '500 mL')), '125 mL')],
  },
  {
    id: 'PC-041',
    task: '10 % for 1.25 L of 0.05 %',
    source: SERIAL,
    answers: () => [answer(makes(q('10 % v/v'), has(q('0.05 % v/v'), '1.25 L')), '6.25 mL')],
  },
  {
    id: 'PC-042',
    task: '1 in 50 for 450 mL of 1 in 2000',
    source: SERIAL,
    answers: () => [answer(makes(inN(50, 'v/v'), has(inN(2000, 'v/v'), '450 mL')), '11.25 mL')],
  },
  {
    id: 'PC-043',
    task: '0.5 g in 15 mL for 75 mL of 1 in 400',
    source: SERIAL,
    answers: () => [answer(makes(q('0.5 g/15 mL'), has(inN(400, 'w/v'), '75 mL')), '5.625 mL')],
  },
  {
    id: 'PC-044',
    task: 'a concentrate of which 50 mL to 1,000 mL are 1 %',
    source: MULTIPLE,
    answers: () => {
      const concentrate = value(strengthOf(has(q('1 % v/v'), '1000 mL'), q('50 mL')));
      return [answer(held(concentrate, q('1500 mL')), '300 mL')];
    },
  },
  {
    id: 'PC-045',
    task: 'a concentrate of which 3 mL to 100 mL are 1 in 5000',
    source: MULTIPLE,
    answers: () => {
      const concentrate = value(strengthOf(has(inN(5000, 'w/v'), '100 mL'), q('3 mL')));
      return [answer(held(concentrate, q('45 mL')), '0.3 g')];
    },
  },
  {
    id: 'PC-046',
    task: '2.5 % for 5 L of 1:1500',
    source: ARMY,
    answers: () => [answer(makes(q('2.5 % w/v'), has(inN(1500, 'w/v'), '5 L')), '400/3 mL')],
  },
  {
    id: 'PC-047',
    task: '1:200 for 60 mL of 0.025 %',
    source: ARMY,
    answers: () => [answer(makes(inN(200, 'w/v'), has(q('0.025 % w/v'), '60 mL')), '3 mL')],
  },
  {
    id: 'PC-048',
    task: '1:50 for 250 mL of 0.02 %',
    source: ARMY,
    answers: () => [answer(makes(inN(50, 'w/v'), has(q('0.02 % w/v'), '250 mL')), '2.5 mL')],
  },
  {
    id: 'PC-049',
    task: '1,250 g of a 5 % ointment brought to 2 %',
    source: ARMY,
    answers: () => [answer(makes(q('2 % w/w'), has(q('5 % w/w'), '1250 g')), '3125 g')],
  },
  {
    id: 'PC-050',
    task: '35 mL of 89 % brought to 49 %',
    source: HOUSTON,
    answers: () => [answer(makes(q('49 % w/v'), has(q('89 % w/v'), '35 mL')), '445/7 mL')],
  },
  {
    id: 'PC-051',
    task: 'water for 110 mL of 38 % to 1 %',
    source: HOUSTON,
    answers: () => [answer(minus(made(q('1 % w/v'), has(q('38 % w/v'), '110 mL')), q('110 mL')), '4070 mL')],
  },
  {
    id: 'PC-052',
    task: '345 mL of 15 % made up to 800 mL',
    source: HOUSTON,
    answers: () => [answer(strengthOf(has(q('15 % v/v'), '345 mL'), q('800 mL')), '6.46875 % v/v')],
  },
  {
    id: 'PC-053',
    task: '210 mL of 1:186 made up to 1,900 mL',
    source: HOUSTON,
    answers: () => [
      answer(oneIn(value(strengthOf(has(inN(186, 'w/v'), '210 mL'), q('1900 mL')))), '11780/7'),
    ],
  },
  {
    id: 'PC-054',
    task: '14 mL added to 9 mL of 0.90 %',
    source: HOUSTON,
    answers: () => [
      answer(strengthOf(has(q('0.90 % w/v'), '9 mL'), plus(q('9 mL'), q('14 mL'))), '81/230 % w/v'),
    ],
  },
  {
    id: 'PC-055',
    task: 'drug that strengthens 60 mL of a syrup, taken to add no volume',
    source: HOUSTON,
    answers: () => [answer(minus(has(q('10 mg/mL'), '60 mL'), has(q('23 mg/5 mL'), '60 mL')), '324 mg')],
  },
  {
    id: 'PC-056',
    task: 'water for 3.25 L of 1:2700 to 1:9300',
    source: HOUSTON,
    answers: () => [
      answer(minus(made(inN(9300, 'w/v'), has(inN(2700, 'w/v'), '3.25 L')), q('3250 mL')), '71500/9 mL'),
    ],
  },
  {
    id: 'PC-057',
    task: 'a pound of 454 g of 35 % brought to 3 %',
    source: HOUSTON,
    answers: () => [answer(makes(q('3 % w/w'), has(q('35 % w/w'), '454 g')), '15890/3 g')],
  },
  {
    id: 'PC-058',
    task: '12 % for 150 mL of a concentrate of which 10 mL to 1 L are 1:3200',
    source: HOUSTON,
    answers: () => {
      const concentrate = value(strengthOf(has(inN(3200, 'w/v'), '1 L'), q('10 mL')));
      return [answer(makes(q('12 % w/v'), has(concentrate, '150 mL')), '39.0625 mL')];
    },
  },
  {
    id: 'PC-060',
    task: 'three ointments mixed, which are weighed',
    source: KERBALA,
    answers: () => {
      const drug = [has(q('10 % w/w'), '200 g'), has(q('20 % w/w'), '50 g'), has(q('5 % w/w'), '100 g')];
      return [answer(strengthOf(drug.reduce(plus), q('350 g')), '10 % w/w', '10')];
    },
  },
]);

describe('a trap in the units of a case', () => {
  it('PC-057: with the pound of the law it is 5,291.911 g', () => {
    const drug = value(held(q('35 % w/w'), inUnit(q('1 lb'), q('1 g').unit)));
    expect(made(q('3 % w/w'), drug).value.toFixed(3)).toBe('5291.911');
  });
});
