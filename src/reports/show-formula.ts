import { keyOf } from '../folder/ingredients.ts';
import type { Formula, Ingredient } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { quantity } from '../measure/quantity.ts';
import { write, writeNumberRange } from '../measure/write.ts';
import { CAUTION } from './caution.ts';
import { type Cell, type Line, type Sheet, sentenceOf, words } from './sheet.ts';
import { preparationFacts } from './show-preparation.ts';

/** A formula as it is written, set out for reading. */
export function formulaSheet(f: Formula): Sheet {
  const { directions: d, preparation: p } = f;
  const facts: { label: string; value: Line }[] = [
    ...(f.use ? [{ label: 'for', value: words(f.use) }] : []),
    { label: 'kind', value: words(p.kind) },
    ...preparationFacts(p),
    ...(d
      ? [
          {
            label: 'taken',
            value: sentenceOf([
              d.take?.kind === 'measured' ? given(d.take.amount, 'dose') : (d.take?.text ?? d.apply ?? ''),
              ...(d.times
                ? [
                    given(
                      {
                        low: d.times.low && quantity(d.times.low, '1'),
                        high: d.times.high && quantity(d.times.high, '1'),
                      },
                      'times a day',
                    ),
                    'a day',
                  ]
                : []),
              ...(d.for ? ['for', given(d.for, 'course')] : []),
              ...(d.when ? [`, ${d.when}`] : []),
            ]),
          },
        ]
      : []),
  ];
  return {
    title: f.title,
    subtitle: `${f.formula}${f.version ? `, version ${f.version.toFixed()}` : ''}`,
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'herb' }, { head: 'how much' }, { head: 'note' }],
        rows: f.ingredients.map((i) => [words(named(i)), amount(i), words(i.note ?? '')]),
      },
      { kind: 'facts', facts },
      ...(f.notes ? [{ kind: 'list', items: f.notes.map((n) => words(n)) } as const] : []),
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: scruple weigh ${f.formula}`)] },
    ],
  };
}

/** The herb, or what carries it, with the form that it is in and how strong that is. */
export function named(i: Ingredient): string {
  if (i.form === undefined || i.form === 'dried') return keyOf(i);
  return `${keyOf(i)} (${[i.form, i.ratio?.text, i.spirit && write(i.spirit)].filter(Boolean).join(', ')})`;
}

function amount(i: Ingredient): Cell {
  if (i.parts) return sentenceOf([given(i.parts, `parts of ${keyOf(i)}`), i.parts.eq(1) ? 'part' : 'parts']);
  if (i.percent) return given(quantity(i.percent, '%'), `${keyOf(i)} in the formula`);
  if (i.amount) return given(i.amount, `${keyOf(i)} in the formula`);
  return i.make_up_to ? sentenceOf(['to make', given(i.make_up_to, 'made up to')]) : words('');
}

export function formulaJson(f: Formula): Record<string, unknown> {
  const d = f.directions;
  return {
    formula: f.formula,
    title: f.title,
    use: f.use ?? null,
    kind: f.preparation.kind,
    ingredients: f.ingredients.map((i) => ({
      herb: i.herb ?? null,
      ...(i.vehicle ? { vehicle: i.vehicle } : { form: i.form ?? 'dried' }),
      ...(i.ratio ? { ratio: i.ratio.text } : {}),
      ...(i.spirit ? { spirit: i.spirit } : {}),
      ...(i.moisture ? { moisture: i.moisture } : {}),
      parts: i.parts ?? null,
      percent: i.percent ?? null,
      amount: i.amount ?? null,
      make_up_to: i.make_up_to ?? null,
      note: i.note ?? null,
    })),
    directions: d
      ? {
          take: d.take?.kind === 'measured' ? d.take.amount : (d.take?.text ?? null),
          apply: d.apply ?? null,
          times: d.times ? writeNumberRange(d.times) : null,
          for: d.for ?? null,
          when: d.when ?? null,
        }
      : null,
    notes: f.notes ?? [],
  };
}
