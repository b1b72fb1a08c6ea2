import { writeDate } from '../../measure/calendar.ts';
import { given } from '../../measure/figure.ts';
import { normal } from '../../vocabulary/normal.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding, prose, type Sentence } from '../finding.ts';
import { type LookedUpWord, lookedUp } from '../looked-up.ts';
import type { QuestionTable, Unresolved } from '../person.ts';

const ONE: Readonly<Record<string, string>> = {
  medicines: 'medicine',
  conditions: 'condition',
  allergies: 'allergy',
  taking: 'something taken:',
};

export const unknownWord: Rule = {
  name: 'unknown-word',
  sentence:
    'A medicine, condition or allergy that is not understood is asked about, never guessed and never ignored; looked up by the practitioner, it is a decision.',
  fires: 'medicine "warfarn"',
  quiet: 'medicine "warfarin"',
  find: ({ person, levels, questions }: Case): Finding[] => {
    if (person === null) return [];
    return person.unresolved.map((u) => {
      const found = lookedUp(u, person, questions);
      const known = found?.state === 'good';
      return finding({
        rule: 'unknown-word',
        herb: null,
        subject: `${u.list} ${normal(u.word)}`,
        ...levels.judged(known ? 'looked-up-word' : 'unknown-word'),
        say: said(u, found, questions),
        facts: { list: u.list, word: normal(u.word), because: known ? prose(found.entry.because) : null },
      });
    });
  },
};

function said(u: Unresolved, found: LookedUpWord | null, questions: QuestionTable): Sentence {
  const known = found?.state === 'good';
  const lead = `${ONE[u.list]} "${u.word}" ${known ? notListed(u) : `is not understood: ${hint(u)}`}`;
  if (found === null) return [lead];
  const { by, on, because } = found.entry;
  const when = `${lead.endsWith('?') ? 'Looked' : '; looked'} up by ${by} on ${writeDate(on)}`;
  switch (found.state) {
    case 'good':
      return [lead, `${when}: ${because}`];
    case 'several':
      return [lead, `${when}: write which of them it is in its place`];
    case 'later':
      return [lead, `${when}, after the day of this check: which is right?`];
    case 'too old': {
      const goodFor = questions.goodFor(u.list);
      const stays = goodFor ? [given(goodFor, `an answer about ${u.list} stays good for`)] : [];
      return [lead, `${when}, which stays good for`, ...stays, ': look it up again'];
    }
  }
}

/** What is near in spelling is said even of a word that was looked up: it may still be a slip. */
const notListed = ({ near }: Unresolved): string =>
  `is not in the vocabulary${near.length > 0 ? `, where ${near.join(' and ')} ${near.length > 1 ? 'are' : 'is'}` : ''}`;

function hint({ ambiguous, could, near }: Unresolved): string {
  if (ambiguous) return `it could be ${could.join(' or ')}`;
  return near.length > 0 ? `did you mean ${near.join(' or ')}?` : 'no word near it is known';
}
