import { type Case, herbsOf, type Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { stoppedAmong } from '../when.ts';

/** The vocabulary's group of medicines with a narrow therapeutic index. */
const NARROW_MARGIN = 'narrow_therapeutic_index';

export const narrowMargin: Rule = {
  name: 'narrow-margin',
  sentence:
    'A herb whose interactions were not read is a decision beside a medicine whose dose leaves little room.',
  fires: 'a herb with interactions: not-read for someone on lithium',
  quiet: 'the same herb for someone on paracetamol',
  find: (c: Case): Finding[] => {
    const { person } = c;
    if (person === null || !person.medicines.given) return [];
    const narrow = person.medicines.value.filter((m) => c.matching.medicine(m.item, NARROW_MARGIN) !== false);
    return herbsOf(c)
      .filter((h) => h.monograph?.interactions === 'not-read')
      .flatMap((h) =>
        narrow.map((m) =>
          finding({
            rule: 'narrow-margin',
            herb: h.herb,
            subject: m.name,
            ...c.levels.judged('narrow-margin-not-read'),
            say: [
              c.matching.medicine(m.item, NARROW_MARGIN) === true
                ? `no interactions of ${h.herb} were read, and ${m.said} leaves little room for any`
                : `no interactions of ${h.herb} were read, and "${m.word}" may be a medicine that leaves little room for any`,
            ],
            facts: {
              herb: h.herb,
              medicine: m.name,
              stopped: stoppedAmong([{ key: 'medicine', ...m }]),
            },
          }),
        ),
      );
  },
};
