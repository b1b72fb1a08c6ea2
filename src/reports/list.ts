import { herbsIn } from '../folder/ingredients.ts';
import type { Formula } from '../folder/schema/formula.ts';
import type { Monograph } from '../folder/schema/monograph.ts';
import { monthBar } from '../gathering/months.ts';
import { writeDate } from '../measure/calendar.ts';
import { type Block, type Sheet, words } from './sheet.ts';

/** What the folder holds; null for what was not asked for. */
export function listSheet(formulas: readonly Formula[] | null, herbs: readonly Monograph[] | null): Sheet {
  return {
    title: formulas && herbs ? 'Formulas and herbs' : formulas ? 'Formulas' : 'Herbs',
    blocks: [
      ...(formulas ? formulaBlocks(formulas) : []),
      ...(herbs ? herbBlocks(herbs) : []),
      { kind: 'lines', lines: [words('Next: scruple show NAME')] },
    ],
  };
}

function formulaBlocks(formulas: readonly Formula[]): Block[] {
  if (formulas.length === 0) return [{ kind: 'lines', lines: [words('There is no formula yet.')] }];
  return [
    {
      kind: 'table',
      columns: [{ head: 'formula' }, { head: 'title' }, { head: 'kind' }, { head: 'for' }],
      rows: formulas.map((f) => [
        words(f.formula),
        words(f.title),
        words(f.preparation.kind),
        words(f.use ?? ''),
      ]),
    },
  ];
}

function herbBlocks(herbs: readonly Monograph[]): Block[] {
  if (herbs.length === 0) return [{ kind: 'lines', lines: [words('No herb is like this.')] }];
  return [
    {
      kind: 'table',
      columns: [
        { head: 'herb' },
        { head: 'Latin name' },
        { head: 'family' },
        { head: 'months' },
        { head: 'signed off' },
      ],
      rows: herbs.map((m) => [
        words(m.id),
        words(m.names.latin),
        words(m.family),
        words(m.gather?.months?.length ? monthBar(new Set(m.gather.months)) : ''),
        words(m.checked ? `${m.checked.by} ${writeDate(m.checked.on)}` : 'not yet'),
      ]),
    },
  ];
}

export function listJson(
  formulas: readonly Formula[] | null,
  herbs: readonly Monograph[] | null,
): Record<string, unknown> {
  return {
    ...(formulas
      ? {
          formulas: formulas.map((f) => ({
            formula: f.formula,
            title: f.title,
            kind: f.preparation.kind,
            use: f.use ?? null,
            herbs: herbsIn(f),
          })),
        }
      : {}),
    ...(herbs
      ? {
          herbs: herbs.map((m) => ({
            herb: m.id,
            latin: m.names.latin,
            common: m.names.common,
            family: m.family,
            part: m.part,
            checked: m.checked ? { by: m.checked.by, on: writeDate(m.checked.on) } : null,
          })),
        }
      : {}),
  };
}
