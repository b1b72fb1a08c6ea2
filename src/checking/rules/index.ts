import type { Rule } from '../case.ts';
import { additiveEffect } from './additive-effect.ts';
import { ageFloor } from './age-floor.ts';
import { allergy } from './allergy.ts';
import { caution } from './caution.ts';
import { course } from './course.ts';
import { directions } from './directions.ts';
import { dose } from './dose.ts';
import { essentialOil } from './essential-oil.ts';
import { ethanol } from './ethanol.ts';
import { honey } from './honey.ts';
import { intakeLimit } from './intake-limit.ts';
import { legalLimit } from './legal-limit.ts';
import { narrowMargin } from './narrow-margin.ts';
import { noMonograph } from './no-monograph.ts';
import { sameHerb } from './same-herb.ts';
import { stage } from './stage.ts';
import { staleAnswer } from './stale-answer.ts';
import { sugar } from './sugar.ts';
import { surgery } from './surgery.ts';
import { takenAlready } from './taken-already.ts';
import { unanswered } from './unanswered.ts';
import { unknownWord } from './unknown-word.ts';
import { urgentSign } from './urgent-sign.ts';

/** Every rule of the check; adding one is its own file and a line here. The order does not matter. */
export const RULES: readonly Rule[] = [
  noMonograph,
  unknownWord,
  urgentSign,
  unanswered,
  staleAnswer,
  caution,
  allergy,
  ageFloor,
  stage,
  directions,
  dose,
  ethanol,
  intakeLimit,
  legalLimit,
  sameHerb,
  takenAlready,
  additiveEffect,
  surgery,
  honey,
  essentialOil,
  sugar,
  course,
  narrowMargin,
];
