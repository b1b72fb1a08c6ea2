import type { Formula, Ingredient } from '../folder/schema/formula.ts';
import { given } from '../measure/figure.ts';
import { quantity } from '../measure/quantity.ts';
import { writeNumberRange } from '../measure/write.ts';
import { CAUTION } from './caution.ts';
import { type Cell, type Line, type Sheet, sentenceOf, words } from './sheet.ts';

/** A formula as it is written, set out for reading. */
export function formulaSheet(f: Formula): Sheet {
  const { directions: d, preparation: p } = f;
  const facts: { label: string; value: Line }[] = [
    ...(f.use ? [{ label: 'for', value: words(f.use) }] : []),
    { label: 'kind', value: words(p.kind) },
    ...(p.kind === 'powder'
      ? []
      : [
          {
            label: 'one pot',
            value: sentenceOf([
              given(p.herb, 'herb in one pot'),
              'in',
              given(p.water, 'water in one pot'),
              ...(p.make_up_to ? [', made up to', given(p.make_up_to, 'made up to')] : []),
              ...(p.strained
                ? [', of which', given(p.strained, 'strained volume as measured'), 'strains off']
                : []),
            ]),
          },
        ]),
    ...(d
      ? [
          {
            label: 'taken',
            value: sentenceOf([
              d.take.kind === 'measured' ? given(d.take.amount, 'dose') : d.take.text,
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
        rows: f.ingredients.map((i) => [
          words(i.form ? `${i.herb} (${i.form})` : i.herb),
          amount(i),
          words(i.note ?? ''),
        ]),
      },
      { kind: 'facts', facts },
      ...(f.notes ? [{ kind: 'list', items: f.notes.map((n) => words(n)) } as const] : []),
      { kind: 'caution', text: CAUTION },
      { kind: 'lines', lines: [words(`Next: scruple weigh ${f.formula}`)] },
    ],
  };
}

function amount(i: Ingredient): Cell {
  if (i.parts) return sentenceOf([given(i.parts, `parts of ${i.herb}`), i.parts.eq(1) ? 'part' : 'parts']);
  if (i.percent) return given(quantity(i.percent, '%{m/m}'), `${i.herb} in the formula`);
  if (i.amount) return given(i.amount, `${i.herb} in the formula`);
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
      herb: i.herb,
      form: i.form ?? 'dried',
      parts: i.parts ?? null,
      percent: i.percent ?? null,
      amount: i.amount ?? null,
      make_up_to: i.make_up_to ?? null,
      note: i.note ?? null,
    })),
    directions: d
      ? {
          take: d.take.kind === 'measured' ? d.take.amount : d.take.text,
          times: d.times ? writeNumberRange(d.times) : null,
          for: d.for ?? null,
          when: d.when ?? null,
        }
      : null,
    notes: f.notes ?? [],
  };
}
