import { minus, plus } from '../../../src/measure/quantity.ts';
import { held, makes, massToVolumeStrength, strengthOf } from '../../../src/measure/strength.ts';
import { q, value } from '../../compounding/formula.ts';
import { answer, workThrough } from './cases.ts';

const ARMY =
  'Pharmaceutical calculations, lesson 2, percentage problems, US Army Medical Department Center and School, Subcourse MD0802';
const NAVY = 'Hospital Corpsman manual, percentage calculations, US Navy, NAVEDTRA 14295';
const KENT = 'At a glance: percentage strengths, University of Kent, Student Learning Advisory Service, 320';
const HOUSTON = 'Expressions of concentration, practice, University of Houston, PHAR 4330 modules';
const CARDS = 'Pharmacy calculations exam 1, study cards';

workThrough('percent strength', [
  {
    id: 'PC-012',
    task: 'drug in 240 g of a 4 % ointment',
    source: ARMY,
    answers: () => [answer(held(q('4 % w/w'), q('240 g')), '9.6 g', '9.6')],
  },
  {
    id: 'PC-013',
    task: 'how much 5 % solution 20 g make',
    source: ARMY,
    answers: () => [answer(makes(q('5 % w/v'), q('20 g')), '400 mL', '400')],
  },
  {
    id: 'PC-014',
    task: 'a component of 38 %',
    source: NAVY,
    answers: () => [answer(held(q('38 % w/w'), q('120 g')), '45.6 g', '45.60')],
  },
  {
    id: 'PC-015',
    task: 'liquid in liquid',
    source: KENT,
    answers: () => [answer(held(q('2 % v/v'), q('500 mL')), '10 mL', '10')],
  },
  {
    id: 'PC-016',
    task: 'solid in liquid, in litres',
    source: KENT,
    answers: () => [answer(held(q('0.5 % w/v'), q('1.25 L')), '6.25 g', '6.25')],
  },
  {
    id: 'PC-017',
    task: 'milligrams in a small volume',
    source: HOUSTON,
    answers: () => [answer(held(q('0.25 % w/v'), q('20 mL')), '50 mg', '50.00')],
  },
  {
    id: 'PC-018',
    task: 'liquid in liquid at 70 %',
    source: HOUSTON,
    answers: () => [answer(held(q('70 % v/v'), q('910 mL')), '637 mL', '637.00')],
  },
  {
    id: 'PC-019',
    task: 'solid at 43 %',
    source: HOUSTON,
    answers: () => [answer(held(q('43 % w/v'), q('450 mL')), '193.5 g', '193.50')],
  },
  {
    id: 'PC-020',
    task: '% w/w to % w/v by the relative density',
    source: HOUSTON,
    answers: () => [answer(massToVolumeStrength(q('16 % w/w'), q('1.11 g/mL')), '17.76 % w/v', '17.76')],
  },
  {
    id: 'PC-021',
    task: 'solid added to a weight of water',
    source: HOUSTON,
    answers: () => [answer(strengthOf(q('60 g'), plus(q('60 g'), q('1800 g'))), '100/31 % w/w', '3.23')],
  },
  {
    id: 'PC-022',
    task: 'milligrams in a teaspoonful of 5 mL',
    source: HOUSTON,
    answers: () => [answer(held(q('3 % w/v'), q('1 tsp')), '150 mg', '150')],
  },
  {
    id: 'PC-023',
    task: 'grams in two litres',
    source: CARDS,
    answers: () => [answer(held(q('4 % w/v'), q('2 L')), '80 g', '80')],
  },
  {
    id: 'PC-024',
    task: 'base to add to 5 g of drug',
    source: CARDS,
    answers: () => [answer(minus(value(makes(q('10 % w/w'), q('5 g'))), q('5 g')), '45 g', '45')],
  },
]);
