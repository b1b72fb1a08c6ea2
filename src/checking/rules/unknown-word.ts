import { normal } from '../../vocabulary/normal.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding, prose } from '../finding.ts';

const ONE: Readonly<Record<string, string>> = {
  medicines: 'medicine',
  conditions: 'condition',
  allergies: 'allergy',
  taking: 'something taken:',
};

export const unknownWord: Rule = {
  name: 'unknown-word',
  sentence:
    'A medicine, condition or allergy that is not understood is asked about, never guessed and never ignored.',
  fires: 'medicine "warfarn"',
  quiet: 'medicine "warfarin"',
  find: ({ person, levels }: Case): Finding[] => {
    if (person === null) return [];
    return person.unresolved.map((u) => {
      const known = person.lookedUp.get(normal(u.word));
      const hint = u.ambiguous
        ? `it could be ${u.could.join(' or ')}`
        : u.near.length > 0
          ? `did you mean ${u.near.join(' or ')}?`
          : 'no word near it is known';
      return finding({
        rule: 'unknown-word',
        herb: null,
        subject: `${u.list} ${normal(u.word)}`,
        level: levels.ofOutcome(known ? 'looked-up-word' : 'unknown-word'),
        say: known
          ? [
              `${ONE[u.list]} "${u.word}" is not in the vocabulary; looked up by ${known.by}: ${known.because}`,
            ]
          : [`${ONE[u.list]} "${u.word}" is not understood: ${hint}`],
        facts: { list: u.list, word: normal(u.word), because: known ? prose(known.because) : null },
      });
    });
  },
};
