import type { StatedCondition, UrgentSign } from '../../vocabulary/conditions.ts';
import type { Case, Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import type { Outcome } from '../level.ts';

const BELONGS: Readonly<Record<UrgentSign['to'], { readonly words: string; readonly outcome: Outcome }>> = {
  emergency: { words: 'belongs to emergency care at once', outcome: 'sign-urgent' },
  'same day': { words: 'belongs to a doctor the same day', outcome: 'sign-urgent' },
  doctor: { words: 'belongs to a doctor', outcome: 'sign-for-a-doctor' },
};

export const urgentSign: Rule = {
  name: 'urgent-sign',
  sentence: 'A sign that belongs to a doctor is said, whatever the formula: no herb comes before it.',
  fires: 'coughing blood among what the person has',
  quiet: 'a cough among what the person has',
  find: (c: Case): Finding[] => {
    const stated = c.person?.conditions.given ? c.person.conditions.value.map((s) => s.item) : [];
    return c.matching.signs(stated.map(inWords)).map((sign) =>
      finding({
        rule: 'urgent-sign',
        herb: null,
        subject: sign.id,
        ...c.levels.judged(BELONGS[sign.to].outcome),
        say: [`${sign.term}: this ${BELONGS[sign.to].words}, whatever is taken for it`],
        facts: { sign: sign.id, to: sign.to },
      }),
    );
  },
};

/** A code that names an illness speaks of its whole course: epilepsy is no fit today. Its signs count when they are named. */
function inWords(s: StatedCondition): StatedCondition {
  return s.named.length === 0 && s.ids.length > 0 ? { ...s, urgent: [] } : s;
}
