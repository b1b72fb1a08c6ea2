import { CAUTION } from './caution.ts';
import { type Line, link, type Sheet, words } from './sheet.ts';

interface Listed {
  readonly file: string;
  readonly facts: readonly { readonly head: string; readonly value: Line }[];
}

/** A page that leads to each of many sheets, with what matters of it. */
export function indexSheet(of: string, sheets: readonly Listed[]): Sheet {
  const heads = [...new Set(sheets.flatMap((s) => s.facts.map((f) => f.head)))];
  return {
    title: of === '' ? 'Sheets' : `Sheets: ${of}`,
    blocks: [
      {
        kind: 'table',
        columns: [{ head: 'sheet' }, ...heads.map((head) => ({ head }))],
        rows: sheets.map(({ file, facts }) => [
          link(file),
          ...heads.map((h) => facts.find((f) => f.head === h)?.value ?? words('')),
        ]),
      },
      { kind: 'caution', text: CAUTION },
    ],
  };
}
