import { exact } from '../../../src/measure/exact.ts';
import {
  asAmountStrength,
  type Basis,
  held,
  oneIn,
  partsPerMillion,
  ratioStrength,
  strengthOf,
} from '../../../src/measure/strength.ts';
import { q, value } from '../../compounding/formula.ts';
import { answer, workThrough } from './cases.ts';

const KENT = 'University of Kent, Student Learning Advisory Service';
const CONVERTING = `At a glance: converting strengths, ${KENT}, 620`;
const RATIOS = `At a glance: ratio strengths, ${KENT}, 420`;
const AMOUNTS = `At a glance: amount strengths, ${KENT}, 520`;
const TEXTBOOK = 'Ratio strength and stock solutions, a pharmaceutical calculations textbook';
const HOUSTON = 'Expressions of concentration, practice, University of Houston, PHAR 4330 modules';

const inN = (n: number, basis: Basis) => value(ratioStrength(exact(n), basis));

workThrough('ratio strength', [
  {
    id: 'PC-025',
    task: 'per cent to 1 in n',
    source: CONVERTING,
    answers: () => [answer(oneIn(q('5 % w/v')), '20', '20')],
  },
  {
    id: 'PC-026',
    task: '1 in n to per cent',
    source: CONVERTING,
    answers: () => [answer(inN(500, 'w/v'), '0.2 % w/v')],
  },
  {
    id: 'PC-027',
    task: 'milligrams in 5 mL to per cent',
    source: CONVERTING,
    answers: () => [answer(strengthOf(q('1 mg'), q('5 mL')), '0.02 % w/v')],
  },
  {
    id: 'PC-028',
    task: 'parts per million to micrograms in a mL',
    source: CONVERTING,
    answers: () => [
      answer(asAmountStrength(value(partsPerMillion(exact(40), 'w/v'))), '40 microgram/mL', '40'),
    ],
  },
  {
    id: 'PC-029',
    task: 'grams in 200 mL of 1 in 500',
    source: RATIOS,
    answers: () => [answer(held(inN(500, 'w/v'), q('200 mL')), '0.4 g', '0.4')],
  },
  {
    id: 'PC-030',
    task: 'millilitres in 0.3 L of 1 in 20',
    source: RATIOS,
    answers: () => [answer(held(inN(20, 'v/v'), q('0.3 L')), '15 mL', '15')],
  },
  {
    id: 'PC-031',
    task: '1:400, liquid in liquid',
    source: TEXTBOOK,
    answers: () => [answer(inN(400, 'v/v'), '0.25 % v/v', '0.25')],
  },
  {
    id: 'PC-032',
    task: '1:50, solid in solid',
    source: TEXTBOOK,
    answers: () => [answer(inN(50, 'm/m'), '2 % w/w', '2')],
  },
  {
    id: 'PC-033',
    task: '1:968, which does not end',
    source: HOUSTON,
    answers: () => [answer(inN(968, 'w/v'), '25/242 % w/v', '0.10')],
  },
  {
    id: 'PC-034',
    task: '0.80 % to 1 in n',
    source: HOUSTON,
    answers: () => [answer(oneIn(q('0.80 % w/v')), '125')],
  },
  {
    id: 'PC-035',
    task: 'milligrams in 80 mL of 1:340',
    source: HOUSTON,
    answers: () => [answer(held(inN(340, 'w/v'), q('80 mL')), '4000/17 mg')],
  },
  {
    id: 'PC-036',
    task: '1:2000 to milligrams in a mL',
    source: HOUSTON,
    answers: () => [answer(asAmountStrength(inN(2000, 'w/v')), '0.5 mg/mL')],
  },
  {
    id: 'PC-037',
    task: 'per cent to milligrams in a mL',
    source: HOUSTON,
    answers: () => [answer(asAmountStrength(q('36 % w/v')), '360 mg/mL')],
  },
  {
    id: 'PC-038',
    task: 'a bottle of 17.6 mg/mL',
    source: AMOUNTS,
    answers: () => [answer(held(q('17.6 mg/mL'), q('236 mL')), '4153.6 mg')],
  },
  {
    id: 'PC-039',
    task: 'a bottle of 100 mg in 5 mL',
    source: AMOUNTS,
    answers: () => [answer(held(q('100 mg/5 mL'), q('228 mL')), '4560 mg', '4560')],
  },
]);
