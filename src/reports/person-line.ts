import type { Case } from '../checking/case.ts';
import { lookedUp } from '../checking/looked-up.ts';
import {
  type Answer,
  ageInWords,
  type Person,
  type QuestionTable,
  type Stated,
  type Unresolved,
} from '../checking/person.ts';
import { writeDate } from '../measure/calendar.ts';
import { type Line, words } from './sheet.ts';

/** Who the sheet is for, in one line; that nobody was considered, where nobody was named. */
export function personLine(c: Case) {
  const { person } = c;
  if (person === null)
    return words('For nobody in particular: no person was considered, and doses are those for adults.');
  const facts = [
    person.birth ? ageInWords(person) : 'age not given',
    person.sex ?? 'sex not given',
    ...stageOf(person),
  ];
  const [asked, on] = [writeDate(person.asked), writeDate(c.on)];
  const when = asked === on ? `asked and reckoned on ${on}` : `asked ${asked}, reckoned on ${on}`;
  return words(`For ${person.code}: ${facts.join(', ')}; ${when}.`);
}

function stageOf({ pregnant, breastfeeding }: Person): string[] {
  const p = pregnant.given && pregnant.value.is ? pregnant.value : null;
  return [
    ...(p ? [p.weeks === null ? 'pregnant' : `pregnant (${p.weeks} weeks when asked)`] : []),
    ...(breastfeeding.given && breastfeeding.value ? ['breastfeeding'] : []),
  ];
}

/** The person's lists as they were understood: whoever signs must be able to see that a word was read as meant. */
export function answersOf(person: Person, questions: QuestionTable): { label: string; value: Line }[] {
  const line = <T>(
    label: string,
    list: Unresolved['list'],
    answer: Answer<readonly T[]>,
    say: (t: T) => string,
  ) => ({
    label,
    value: words(listed(person, questions, list, answer, say)),
  });
  return [
    line('medicines', 'medicines', person.medicines, statedAs),
    line('conditions', 'conditions', person.conditions, statedAs),
    line('allergies', 'allergies', person.allergies, statedAs),
    line('takes already', 'taking', person.taking, (t) => t.herb),
  ];
}

function listed<T>(
  person: Person,
  questions: QuestionTable,
  list: Unresolved['list'],
  answer: Answer<readonly T[]>,
  say: (item: T) => string,
): string {
  if (!answer.given) return 'not asked';
  const open = person.unresolved.filter((u) => u.list === list);
  const said = answer.value.map(say).filter((s) => !open.some((u) => u.word === s));
  const became = (u: Unresolved): string =>
    lookedUp(u, person, questions)?.state === 'good' ? 'looked up' : 'not understood';
  const names = [...said, ...open.map((u) => `"${u.word}" (${became(u)})`)];
  return names.length === 0 ? 'none' : names.join(', ');
}

function statedAs({ word, name, said }: Stated<unknown>): string {
  const read = said === `"${word}"` ? name.replace(/_/g, ' ') : said;
  return read.toLowerCase().startsWith(word.toLowerCase()) ? read : `${word} (as ${read})`;
}
