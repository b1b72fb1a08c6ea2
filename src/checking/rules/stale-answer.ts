import { daysBetween, writeDate } from '../../measure/calendar.ts';
import { given } from '../../measure/figure.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { isGiven, isStale, type Person } from '../person.ts';
import { relevantQuestions } from '../relevant.ts';

export const staleAnswer: Rule = {
  name: 'stale-answer',
  sentence: 'An answer ages: after the time that the practice sets it is asked again, if it matters here.',
  fires: '"not pregnant" asked three months ago',
  quiet: '"not pregnant" asked last week',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (person === null) return [];
    if (daysBetween(person.asked, person.on) < 0) return [fromTheFuture(person, c)];
    return [...relevantQuestions(c)].flatMap(([question, herbs]) => {
      const goodFor = c.questions.goodFor(question);
      if (goodFor === null || !isGiven(person, question) || !isStale(person, question, c.questions))
        return [];
      return [
        finding({
          rule: 'stale-answer',
          herb: null,
          subject: question,
          ...c.levels.judged('stale-answer'),
          say: [
            `${c.questions.asks(question)} The answer is of ${writeDate(person.asked)}, and stays good for`,
            given(goodFor, `an answer about ${question} stays good for`),
            `. It matters for ${[...herbs].sort().join(', ')}`,
          ],
          facts: { question, asked: person.asked, herbs: [...herbs].sort() },
        }),
      ];
    });
  },
};

/** Answers of a day after the check would never age: one of the two dates is wrong. */
function fromTheFuture(person: Person, c: Case): Finding {
  return finding({
    rule: 'stale-answer',
    herb: null,
    subject: 'asked',
    ...c.levels.judged('stale-answer'),
    say: [
      `the answers are of ${writeDate(person.asked)}, after the day of this check (${writeDate(person.on)}): which is right?`,
    ],
    facts: { asked: person.asked, on: person.on },
  });
}
