import type { ByRule, HerbByRules, Reckoned, RulesForPerson } from '../checking/by-age-rule.ts';
import type { AdultFigure } from '../dosing/adult-dose.ts';
import type { AgeRule } from '../dosing/age-rules.ts';
import { citeIn } from '../folder/cite-in.ts';
import type { AgeRules } from '../folder/schema/reference.ts';
import { ageOn, withinBand, writeAgeBand, writeAgeOn } from '../measure/age.ts';
import { type Figure, given } from '../measure/figure.ts';
import type { Quantity } from '../measure/quantity.ts';
import { citeShort } from './cite.ts';
import { type Block, type Line, sentence, sentenceFrom, words } from './sheet.ts';

/** What was asked of the rules of age, and what they come to. */
export interface Ruled {
  readonly table: AgeRules;
  readonly rules: readonly AgeRule[];
  readonly person: RulesForPerson;
  readonly herbs: readonly HerbByRules[];
}

/** What rules of age make of the adult doses, with the warnings of the authorities once. */
export function ageRuleBlocks(ruled: Ruled): Block[] {
  const used = usedIn(ruled);
  return [
    {
      kind: 'section',
      title: 'By rules of age, from the adult dose',
      blocks: [
        { kind: 'lines', lines: [whom(ruled.person)] },
        ...ruled.herbs.map(herbBlock),
        ...notForThem(ruled),
        ...(used.length > 0
          ? ([
              { kind: 'list', items: used.map((r) => ruleLine(r, ruled.table)) },
              {
                kind: 'list',
                items: warningsFor(ruled, used).map((w) => words(`${w.says} (${citeShort(w.cited)})`)),
              },
            ] as const)
          : []),
      ],
    },
  ];
}

/** Rules of which a figure stands on the sheet. */
function usedIn({ herbs }: Ruled): Reckoned[] {
  const all = herbs.flatMap((h) => [...h.rules, ...(h.stricter ? [h.stricter] : [])]);
  return [...new Map(all.map((r) => [r.rule.id, r])).values()];
}

function whom({ who }: RulesForPerson): Line {
  const { least, most } = ageOn(who.birth, who.on);
  // From two years on an age is written in whole years.
  const open = least >= 24 ? Math.floor(least / 12) !== Math.floor(most / 12) : least !== most;
  const measured = [who.weight, who.height].flatMap((q) => (q ? [', ', given(q, 'as given')] : []));
  const age = `For ${writeAgeOn(who.birth, who.on)}${open ? ' (the younger counts)' : ''}`;
  return sentenceFrom([age, ...measured, '.']);
}

function herbBlock(h: HerbByRules): Block {
  if (h.whyNone !== null)
    return {
      kind: 'section',
      title: h.herb,
      blocks: [{ kind: 'lines', lines: [words(stopped(h.whyNone))] }],
    };
  const { single, daily } = h.adult;
  return {
    kind: 'section',
    title: h.herb,
    blocks: [
      {
        kind: 'facts',
        facts: [
          ...(single ? [{ label: 'adults', value: adultLine(single, 'at once') }] : []),
          ...(daily ? [{ label: 'adults', value: adultLine(daily, 'a day') }] : []),
          { label: 'this formula', value: formulaLine(single?.formula, daily?.formula) },
        ],
      },
      ...(h.rules.length > 0 ? [table(h.rules)] : []),
      { kind: 'lines', lines: [...stricterLine(h.stricter), ...(h.noFloorRead ? [NO_FLOOR_READ] : [])] },
    ],
  };
}

const NO_FLOOR_READ = words('No lowest age of it was read, which is not that there is none.');

function adultLine({ top, against, compared }: AdultFigure, when: string): Line {
  const { published, usual, implied } = against;
  const source = citeShort(published.step.source ?? compared.cited);
  const times = implied ? ' (single dose x times a day)' : '';
  const whose = compared.entry.ages ? `, ${writeAgeBand(compared.entry.ages)}` : '';
  if (usual) return sentence`${top} ${when}, the usual dose${times}; ${source}${whose}`;
  return published.value.low === null
    ? sentence`${top} ${when} at the most${times}; ${source}${whose}`
    : sentence`${top} ${when}, the top of ${published}${times}; ${source}${whose}`;
}

function formulaLine(single?: Figure<Quantity>, daily?: Figure<Quantity>): Line {
  return [
    ...(single ? [sentence`${single} at once${daily ? ',' : ''}`] : []),
    ...(daily ? [sentence`${daily} a day`] : []),
  ];
}

function table(rules: readonly ByRule[]): Block {
  return {
    kind: 'table',
    columns: [
      { head: 'rule' },
      { head: 'share', align: 'right' },
      { head: 'at once' },
      { head: 'a day' },
      { head: 'this formula' },
    ],
    rows: rules.map((r) => [
      words(r.rule.name),
      r.uncapped ? [words('capped at'), r.share] : r.share,
      r.single ?? words(''),
      r.daily ?? words(''),
      words(r.above ? 'gives more' : 'not more'),
    ]),
  };
}

/** Of the rules that were not asked for: a name is not chosen because it gives more. */
function stricterLine(r: ByRule | null): Line[] {
  if (r === null) return [];
  const amounts = [
    ...(r.single ? [r.single, ' at once'] : []),
    ...(r.single && r.daily ? [', '] : []),
    ...(r.daily ? [r.daily, ' a day'] : []),
  ];
  return [
    sentenceFrom([`Stricter than what was asked for: ${r.rule.name}, `, r.share, ': ', ...amounts, '.']),
  ];
}

function notForThem({ person, herbs }: Ruled): Block[] {
  if (herbs.every((h) => h.whyNone !== null)) return [];
  const byReason = new Map<string, string[]>();
  for (const { rule, why } of person.notFor) byReason.set(why, [...(byReason.get(why) ?? []), rule.name]);
  if (byReason.size === 0) return [];
  return [
    {
      kind: 'lines',
      lines: [...byReason].map(([why, names]) => words(stopped(`Not ${names.join(', ')}: ${why}`))),
    },
  ];
}

const stopped = (text: string): string => (text.endsWith('?') ? text : `${text}.`);

/** How the share came about, for whom the rule is, and where it is from. */
function ruleLine({ rule, share, uncapped, row }: Reckoned, table: AgeRules): Line {
  const wider = (rule.wider ?? []).map(
    (w) => `${citeShort(citeIn(table, w))} has it for ${writeAgeBand(w.ages)}: the narrower counts`,
  );
  const after = [`for ${writeAgeBand(rule.ages)}`, ...wider, ...(rule.note ? [rule.note] : [])];
  return sentenceFrom([
    `${rule.name}: `,
    ...(row === null ? sumOf(uncapped ?? share) : [`row "${row}", `, share]),
    ...(uncapped ? [', capped at the adult dose'] : []),
    `; ${after.join('; ')}; ${citeShort(citeIn(table, rule))}`,
  ]);
}

/** `7 years / (7 years + 12 years) = 36.84 %` */
function sumOf(figure: Figure<Quantity>): (string | Figure)[] {
  const { by = '', inputs } = figure.step;
  const parts = by.split('{}').flatMap((text, i) => {
    const input = inputs[i];
    return input === undefined ? [text] : [text, input];
  });
  return [...parts, ' = ', figure];
}

function warningsFor({ table, person: { who } }: Ruled, used: readonly Reckoned[]) {
  const ids = new Set(used.flatMap(({ rule }) => [rule.id, rule.variant_of ?? rule.id]));
  return table.warnings
    .filter((w) => w.rules?.some((r) => ids.has(r)) ?? true)
    .filter((w) => w.ages === undefined || withinBand(who.birth, w.ages, who.on) !== false)
    .map((w) => ({ says: w.says, cited: citeIn(table, w) }));
}

/**
 * age_rules[].{herb, rule, fraction, single, daily, above, capped, why_not, adult, formula}: a line for every herb and
 * every rule that was asked for; age_rules_stricter the same of a rule that was not asked for and gives less.
 */
export function ageRulesJson(ruled: Ruled): Record<string, unknown> {
  const used = usedIn(ruled);
  return {
    age_rules: ruled.herbs.flatMap((h) =>
      ruled.rules.map((rule) => {
        const made = h.rules.find((r) => r.rule === rule);
        const why = h.whyNone ?? ruled.person.notFor.find((n) => n.rule === rule)?.why ?? null;
        return { ...lineOf(h, rule, made), why_not: made ? null : why };
      }),
    ),
    age_rules_stricter: ruled.herbs.flatMap((h) =>
      h.stricter ? [lineOf(h, h.stricter.rule, h.stricter)] : [],
    ),
    age_rules_warnings: used.length > 0 ? warningsFor(ruled, used).map(warningJson) : [],
  };
}

const warningJson = ({ says, cited: { key, body, reading } }: ReturnType<typeof warningsFor>[number]) => ({
  says,
  source: key,
  body,
  reading,
});

function lineOf({ herb, adult }: HerbByRules, rule: AgeRule, made: ByRule | undefined) {
  const { single, daily } = adult;
  return {
    herb,
    rule: rule.id,
    fraction: made?.share ?? null,
    single: made?.single ?? null,
    daily: made?.daily ?? null,
    above: made?.above ?? null,
    capped: made ? made.uncapped !== null : null,
    adult: { single: single?.top ?? null, daily: daily?.top ?? null },
    formula: { single: single?.formula ?? null, daily: daily?.formula ?? null },
  };
}
