import type { Case } from '../checking/case.ts';
import { ageInWords } from '../checking/person.ts';
import { writeDate } from '../measure/calendar.ts';
import { words } from './sheet.ts';

/** Who the sheet is for, in one line; that nobody was considered, where nobody was named. */
export function personLine(c: Case) {
  const { person } = c;
  if (person === null)
    return words('For nobody in particular: no person was considered, and doses are those for adults.');
  const facts = [person.birth ? ageInWords(person) : 'age not given', person.sex ?? 'sex not given'];
  return words(
    `For ${person.code}: ${facts.join(', ')}; asked ${writeDate(person.asked)}, reckoned on ${writeDate(c.on)}.`,
  );
}
