import type { Case, Rule } from '../case.ts';
import { finding } from '../finding.ts';
import { openQuestions } from '../relevant.ts';

export const unanswered: Rule = {
  name: 'unanswered',
  sentence:
    'A question without an answer is asked when the answer could change what is found, and only then.',
  fires: 'nothing said about pregnancy for a woman of 30',
  quiet: 'nothing said about pregnancy for a man of 70',
  find: (c: Case) =>
    [...openQuestions(c)].map(([question, herbs]) =>
      finding({
        rule: 'unanswered',
        herb: null,
        subject: question,
        ...c.levels.judged('unanswered'),
        say: [`${c.questions.asks(question)} It matters for ${[...herbs].sort().join(', ')}`],
        facts: { question, herbs: [...herbs].sort() },
      }),
    ),
};
