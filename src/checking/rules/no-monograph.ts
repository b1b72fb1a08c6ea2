import { type Case, herbsOf, type Rule } from '../case.ts';
import { finding } from '../finding.ts';

export const noMonograph: Rule = {
  name: 'no-monograph',
  sentence: 'A herb without a monograph cannot be judged, and is never passed over.',
  fires: 'a formula with a herb for which the folder has no file',
  quiet: 'a formula whose herbs all have a monograph',
  find: (c: Case) =>
    herbsOf(c)
      .filter((h) => h.monograph === null)
      .map((h) =>
        finding({
          rule: 'no-monograph',
          herb: h.herb,
          subject: 'file',
          ...c.levels.judged('no-monograph'),
          say: [
            `there is no monograph for ${h.herb}, so nothing about it was judged${h.near.length > 0 ? `; did you mean ${h.near.join(' or ')}?` : ''}`,
          ],
          facts: { herb: h.herb },
        }),
      ),
};
