import { writeDate } from '../../measure/calendar.ts';
import { given } from '../../measure/figure.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { isGiven, isStale } from '../person.ts';
import { relevantQuestions } from '../relevant.ts';

export const staleAnswer: Rule = {
  name: 'stale-answer',
  sentence: 'An answer ages: after the time that the practice sets it is asked again, if it matters here.',
  fires: '"not pregnant" asked three months ago',
  quiet: '"not pregnant" asked last week',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (person === null) return [];
    return [...relevantQuestions(c)].flatMap(([question, herbs]) => {
      const goodFor = c.questions.goodFor(question);
      if (goodFor === null || !isGiven(person, question) || !isStale(person, question, c.questions))
        return [];
      return [
        finding({
          rule: 'stale-answer',
          herb: null,
          subject: question,
          level: c.levels.ofOutcome('stale-answer'),
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
