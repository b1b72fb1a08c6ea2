import type { Case, Rule } from '../case.ts';
import { type Finding, finding } from '../finding.ts';
import { type Portion, regimen } from '../regimen.ts';

export const sameHerb: Rule = {
  name: 'same-herb',
  sentence:
    'The same herb in two of the things that are taken is told, under whatever name, so that their amounts are added up.',
  fires: 'valerian in two formulas, or in one formula and taken already',
  quiet: 'valerian in one formula',
  find: (c: Case): Finding[] => {
    const byHerb = new Map<string, Portion[]>();
    for (const p of regimen(c)) byHerb.set(p.herb, [...(byHerb.get(p.herb) ?? []), p]);
    return [...byHerb].flatMap(([herb, portions]) => {
      const from = [...new Set(portions.map((p) => p.from))].sort();
      if (from.length < 2 || !portions.some((p) => p.given)) return [];
      return [
        finding({
          rule: 'same-herb',
          herb,
          subject: from.join(' '),
          ...c.levels.judged('same-herb'),
          say: [
            `${herb} is taken twice: in ${from.join(' and in ')}`,
            ...portions.flatMap((p) => (p.daily ? [`; ${p.from}:`, p.daily, 'a day'] : [])),
          ],
          figures: portions.flatMap((p) => p.daily ?? []),
          facts: { herb, from, daily: portions.map((p) => p.daily?.value ?? null) },
        }),
      ];
    });
  },
};
