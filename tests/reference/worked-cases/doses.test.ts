import { inUnit } from '../../../src/measure/quantity.ts';
import { held, makes, strengthOf } from '../../../src/measure/strength.ts';
import { byDoses, byMass, finer, made, q, value } from '../../compounding/formula.ts';
import { answer, workThrough } from './cases.ts';

const HOUSTON = 'General dose calculations 1, University of Houston, PHAR 4330 modules';
const SUPPLY = 'Pharmacy calculations, open exam preparation, 2026';
const KERBALA = 'Calculation of doses, lab 7, teaching slides';
const PART_3 = 'Pharmacy calculation, part 3, a pharmacy calculation teaching site, 2022';
const NURSING =
  'Nursing mathematics, lesson 1, US Army Medical Department Center and School, Subcourse MD0913';
const STUDY = 'Measurement units, specific gravity and pycnometer, an answered study set';

const powder = (take: string, times = '1') => `
ingredients: [{herb: trial-herb, parts: 1}]
preparation: {kind: powder}
directions: {take: ${take}, times: ${times}}`;

/** A bottle of a liquid that is all there is of it: what is in it, how much it holds, what is taken. */
const bottle = (herb: string, holds: string, take: string) => `
ingredients: [{herb: trial-herb, parts: 1}]
preparation: {kind: infusion, herb: ${herb}, water: ${holds}, strained: ${holds}, infuse: 5 min}
directions: {take: ${take}, times: 1}`;

const supply = async (yaml: string, mass: string) => {
  const { supply: lasts } = await made(yaml, byMass(mass), finer('0.01 g'));
  if (lasts === null) throw new Error('no supply');
  return lasts;
};

const taking = async (yaml: string) => {
  const { taking: taken } = await made(yaml, { by: 'formula' }, finer('0.01 g'));
  if (taken === null) throw new Error('nothing is taken');
  return taken;
};

workThrough('doses and supply', [
  {
    id: 'PC-094',
    task: 'doses of 100 mg in 10 g',
    source: HOUSTON,
    answers: async () => [answer((await supply(powder('100 mg'), '10 g')).doses.value, '100 doses', '100')],
  },
  {
    id: 'PC-095',
    task: 'the dose of a bottle of 100 mL for 20 doses',
    source: HOUSTON,
    answers: async () => [
      answer((await taking(bottle('1 g', '100 mL', '1/20 of the batch'))).dose.value, '5 mL', '5'),
    ],
  },
  {
    id: 'PC-096',
    task: 'drug for 70 doses of 40 mg',
    source: HOUSTON,
    answers: async () => {
      const batch = await made(powder('40 mg'), byDoses('70 doses'), finer('0.01 g'));
      return [answer(batch.size.value, '2.8 g', '2.8'), answer(batch.total.value, '2.8 g', '2.8')];
    },
  },
  {
    id: 'PC-097',
    task: '90 units, one a day, as grams',
    source: SUPPLY,
    answers: async () => [answer((await supply(powder('1 g'), '90 g')).days.value, '90 days', '90')],
  },
  {
    id: 'PC-098',
    task: '180 units, two a day, as grams',
    source: SUPPLY,
    answers: async () => [answer((await supply(powder('1 g', '2'), '180 g')).days.value, '90 days')],
  },
  {
    id: 'PC-099',
    task: '60 units, two a day, as grams',
    source: SUPPLY,
    answers: async () => [answer((await supply(powder('1 g', '2'), '60 g')).days.value, '30 days')],
  },
  {
    id: 'PC-100',
    task: 'doses of 200 mg in 10 g',
    source: KERBALA,
    answers: async () => [answer((await supply(powder('200 mg'), '10 g')).doses.value, '50 doses')],
  },
  {
    id: 'PC-101',
    task: 'teaspoonfuls in a dose of 180 mL for 18 doses',
    source: KERBALA,
    answers: async () => {
      const { dose } = await taking(bottle('1 g', '180 mL', '1/18 of the batch'));
      return [answer(inUnit(dose.value, q('1 tsp').unit), '2 tsp')];
    },
  },
  {
    id: 'PC-103',
    task: 'drug in a tablespoonful of 5 g in 500 mL',
    source: KERBALA,
    answers: async () => [answer((await taking(bottle('5 g', '500 mL', '1 tbsp'))).herb.value, '0.15 g')],
  },
  {
    id: 'PC-104',
    task: 'drug in one and a half teaspoonfuls of 120 mg in 60 mL',
    source: PART_3,
    answers: async () => [
      answer((await taking(bottle('120 mg', '60 mL', '1 1/2 tsp'))).herb.value, '15 mg', '15'),
      answer(held(value(strengthOf(q('120 mg'), q('60 mL'))), q('1 1/2 tsp')), '15 mg', '15'),
    ],
  },
  {
    id: 'PC-105',
    task: 'drug in 120 mL of 500 mg in 5 mL',
    source: NURSING,
    answers: () => [answer(held(q('500 mg/5 mL'), q('120 mL')), '12 g', '12')],
  },
  {
    id: 'PC-106',
    task: 'volume for 150 micrograms of 5 mg in 10 mL',
    source: STUDY,
    answers: () => [answer(makes(q('5 mg/10 mL'), q('150 micrograms')), '0.3 mL', '0.3')],
  },
]);
