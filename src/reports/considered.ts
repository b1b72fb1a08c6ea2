import type { Case } from '../checking/case.ts';
import { type Answer, ageInWords, isGiven, type Person, type Question } from '../checking/person.ts';
import { daysBetween, writeDate } from '../measure/calendar.ts';
import { given } from '../measure/figure.ts';
import { quantity } from '../measure/quantity.ts';
import { day } from '../measure/units.ts';
import { answersOf } from './person-line.ts';
import { type Line, sentence, words } from './sheet.ts';

/** Every answer that a check had before it, and every question that nobody asked. */
export function considered(c: Case, person: Person): { label: string; value: Line }[] {
  const yesNo = (question: Question, answer: Answer<boolean>): Line =>
    words(answer.given ? (answer.value ? 'yes' : 'no') : notGiven(question));
  const notGiven = (question: Question): string =>
    c.questions.arises(question, person) === false ? 'does not arise' : 'not asked';
  return [
    { label: 'asked', value: whenAsked(person) },
    { label: 'age', value: words(isGiven(person, 'age') ? ageInWords(person) : 'not asked') },
    { label: 'sex', value: words(person.sex ?? 'not asked') },
    {
      label: 'weight',
      value: person.weight ? given(person.weight, 'body weight') : words('not asked'),
    },
    { label: 'pregnant', value: words(pregnant(person) ?? notGiven('pregnant')) },
    { label: 'breastfeeding', value: yesNo('breastfeeding', person.breastfeeding) },
    { label: 'may conceive', value: yesNo('trying_to_conceive', person.tryingToConceive) },
    ...answersOf(person, c.questions),
    { label: 'drives', value: yesNo('drives', person.drives) },
    { label: 'avoids alcohol', value: yesNo('avoids_alcohol', person.avoidsAlcohol) },
    { label: 'told to limit fluids', value: yesNo('fluid_restricted', person.fluidRestricted) },
    { label: 'planned operation', value: words(surgery(person) ?? notGiven('surgery')) },
  ];
}

function whenAsked({ asked, on }: Person): Line {
  const days = daysBetween(asked, on);
  if (days === 0) return words('on the day of this check');
  if (days < 0) return words(`${writeDate(asked)}, which is after the day of this check`);
  return sentence`${writeDate(asked)}, ${given(quantity(days, day), 'from the asking to this check')} before this check`;
}

function pregnant({ pregnant: answer }: Person): string | null {
  if (!answer.given) return null;
  if (!answer.value.is) return 'no';
  return answer.value.weeks === null ? 'yes' : `yes, ${answer.value.weeks} weeks when asked`;
}

function surgery({ surgery: answer }: Person): string | null {
  if (!answer.given) return null;
  return answer.value === null ? 'none' : writeDate(answer.value);
}
