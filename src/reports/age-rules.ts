import type { HerbByRules } from '../checking/by-age-rule.ts';
import { citeIn } from '../folder/cite-in.ts';
import type { AgeRules } from '../folder/schema/reference.ts';
import { citeShort } from './cite.ts';
import { type Block, type Line, sentence, words } from './sheet.ts';

/** What rules of age make of the adult doses, with the warnings of the authorities once. */
export function ageRuleBlocks(herbs: readonly HerbByRules[], table: AgeRules): Block[] {
  const used = [...new Map(herbs.flatMap((h) => h.rules).map((r) => [r.rule.id, r.rule])).values()];
  const notes: Line[] = used.map((rule) =>
    words(`${rule.name}: ${rule.note ? `${rule.note}; ` : ''}${citeShort(citeIn(table, rule))}`),
  );
  return [
    {
      kind: 'section',
      title: 'By rules of age, from the adult dose',
      blocks: [
        ...herbs.flatMap(herbBlocks),
        ...(notes.length > 0 ? [{ kind: 'list', items: notes } as const] : []),
        {
          kind: 'lines',
          lines: table.warnings.map((w) => words(`${w.says} (${citeShort(citeIn(table, w))})`)),
        },
      ],
    },
  ];
}

function herbBlocks(h: HerbByRules): Block[] {
  if (h.whyNone !== null) return [{ kind: 'lines', lines: [words(`${h.herb}: ${h.whyNone}.`)] }];
  const { single, daily } = h.adult;
  const source = (single ?? daily)?.step.source;
  const from = source ? ` (${citeShort(source)})` : '';
  const adult: Line =
    single && daily
      ? sentence`${words(`${h.herb}: the adult dose is`)} ${single} at once, ${daily} ${words(`a day${from}`)}`
      : single
        ? sentence`${words(`${h.herb}: the adult dose is`)} ${single} ${words(`at once${from}`)}`
        : sentence`${words(`${h.herb}: the adult dose is`)} ${daily ?? words('')} ${words(`a day${from}`)}`;
  const outside = new Map<string, string[]>();
  for (const { rule, why } of h.notFor) outside.set(why, [...(outside.get(why) ?? []), rule.name]);
  return [
    { kind: 'lines', lines: [adult] },
    ...(h.rules.length > 0
      ? [
          {
            kind: 'table',
            columns: ['rule', 'of the adult dose', 'at once', 'a day', 'this formula'].map((head) => ({
              head,
            })),
            rows: h.rules.map((r) => [
              words(r.rule.name),
              r.share,
              r.single ?? words(''),
              r.daily ?? words(''),
              words(r.above ? 'gives more' : 'not more'),
            ]),
          } as const,
        ]
      : []),
    ...(outside.size > 0
      ? [
          {
            kind: 'lines',
            lines: [...outside].map(([why, names]) => words(`Not ${names.join(', ')}: ${why}.`)),
          } as const,
        ]
      : []),
  ];
}

/** age_rules[].{herb, rule, fraction, single, daily, above, why_not} */
export function ageRulesJson(herbs: readonly HerbByRules[]): unknown[] {
  return herbs.flatMap((h): Record<string, unknown>[] =>
    h.whyNone !== null
      ? [{ herb: h.herb, rule: null, why_not: h.whyNone }]
      : [
          ...h.rules.map((r) => ({
            herb: h.herb,
            rule: r.rule.id,
            fraction: r.share,
            single: r.single,
            daily: r.daily,
            above: r.above,
            capped: r.capped,
          })),
          ...h.notFor.map(({ rule, why }) => ({ herb: h.herb, rule: rule.id, why_not: why })),
        ],
  );
}
